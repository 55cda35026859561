"""Approvals at the service: what they are bound to, who says what of them, and what kills them."""

from __future__ import annotations

import sqlite3
from datetime import date, timedelta

import pytest

from app.domain.errors import (
    ApprovalAnswered,
    ApprovalMoot,
    ApprovalStands,
    BadInput,
    ChangedByAnother,
    MayNot,
    NeedsNoApproval,
    NotFound,
    StructureOpen,
)
from app.domain.quotations.approval import Stage, fingerprint, structure_of
from app.domain.quotations.quotation import Draft, DraftLine, Reason, Reply
from app.services.planning import foreseeing
from app.services.quotations import approving, listing, quoting, settling
from app.store import approvals as kept
from rules.specification import Specification, Taken
from tests.app.desk import BAYOU, CLERK, HOLLIN, MANAGER, NOW, S3_ROADSTER, Desk

SHALLOW = {**S3_ROADSTER, "wheel-well": "shallow", "belts": "front", "delivery": "van"}  # A4 and A3
DAY = timedelta(days=1)


def ask(desk: Desk, number: str, rule: str = "A4", letter: str = "A", line: int = 1) -> int:
    version = desk.revision(number, letter).version
    asked = approving.ask_for(desk.store, CLERK, number, letter, line, rule, "Please.", NOW, expected=version)
    return asked.id


def grant(desk: Desk, asked: int, granted: bool = True) -> Stage:
    return approving.answer(desk.store, MANAGER, asked, granted, "Seen the drawing.", NOW + DAY).stage


def retype(desk: Desk, number: str, letter: str = "A", **chosen: str) -> None:
    """Other choices over what the draft has; `_` stands for the hyphen."""
    revision = desk.revision(number, letter)
    taken = {option.replace("_", "-"): Taken(choice) for option, choice in chosen.items()}
    lines = tuple(
        DraftLine(Specification({**line.specification.answers, **taken}), line.quantity) for line in revision.lines
    )
    draft = Draft(revision.price_list, revision.delivery_place, revision.note, lines, revision.extras)
    quoting.save_draft(desk.store, CLERK, number, letter, draft, NOW, expected=revision.version)


def open_rules(desk: Desk, number: str, letter: str = "A") -> list[str]:
    return [need.rule for need in approving.approvals_open(desk.store, CLERK, number, letter, NOW + 2 * DAY)]


def test_each_approval_that_a_line_depends_on_needs_its_own_yes(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    assert open_rules(desk, number) == ["A3", "A4"]
    assert grant(desk, ask(desk, number)) is Stage.GRANTED
    assert open_rules(desk, number) == ["A3"]
    grant(desk, ask(desk, number, "A3"))
    assert open_rules(desk, number) == []


def test_the_workshop_reads_only_what_is_still_waited_for(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    desk.issue(number)

    def awaited() -> tuple[str, ...]:
        (listed,) = foreseeing.work_to_come(desk.store, NOW + 2 * DAY).rows
        assert foreseeing.one_work_to_come(desk.store, number, NOW + 2 * DAY).awaits == listed.awaits
        return listed.awaits

    assert awaited() == ("A3", "A4")
    grant(desk, ask(desk, number))
    assert awaited() == ("A3",)
    grant(desk, ask(desk, number, "A3"))
    assert awaited() == ()


def test_the_engine_goes_on_saying_once(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    before = quoting.price_revision(desk.store, CLERK, number, "A", NOW).answers[0]
    grant(desk, ask(desk, number))
    after = quoting.price_revision(desk.store, CLERK, number, "A", NOW).answers[0]
    assert before is not None
    assert after is not None
    assert after.answer == before.answer
    assert after.answer.depends.approvals == ("A3", "A4")


@pytest.mark.parametrize(
    "chosen",
    [
        {"finish": "painted", "scope": "outside", "colour": "oat", "primer": "epoxy-and-filler"},
        {"packing": "wrapped"},
        {"own_doors": "yes"},
    ],
)
def test_neither_paint_nor_packing_nor_own_doors_touch_an_approval(desk: Desk, chosen: dict[str, str]) -> None:
    number = desk.drafted((SHALLOW, 1))
    grant(desk, ask(desk, number))
    retype(desk, number, **chosen)
    assert open_rules(desk, number) == ["A3"]


@pytest.mark.parametrize(
    "chosen",
    [
        {"bonnet": "aluminium"},
        {"market": "southern-africa"},
        {"series": "s2", "filler": "deck"},
        {"holes": "blanked"},
    ],
)
def test_any_structural_choice_the_series_or_the_market_kills_it(desk: Desk, chosen: dict[str, str]) -> None:
    number = desk.drafted((SHALLOW, 1))
    grant(desk, ask(desk, number))
    retype(desk, number, **chosen)
    assert open_rules(desk, number) == ["A3", "A4"]


def test_it_belongs_to_the_structure_so_it_is_there_again_when_that_is(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    grant(desk, ask(desk, number))
    retype(desk, number, bonnet="aluminium")
    retype(desk, number, bonnet="steel")
    assert open_rules(desk, number) == ["A3"]


def test_a_no_is_recorded_and_it_may_be_asked_again(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    assert grant(desk, ask(desk, number), granted=False) is Stage.REFUSED
    assert open_rules(desk, number) == ["A3", "A4"]
    assert grant(desk, ask(desk, number)) is Stage.GRANTED
    assert open_rules(desk, number) == ["A3"]


def test_asked_twice_is_refused_while_it_waits_and_once_it_is_given(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    asked = ask(desk, number)
    with pytest.raises(ApprovalStands) as waiting:
        ask(desk, number)
    assert waiting.value.facts == {"rule": "A4", "line": 1, "why": "waiting"}
    grant(desk, asked)
    with pytest.raises(ApprovalStands) as given:
        ask(desk, number)
    assert given.value.facts["why"] == "granted"


def test_only_what_the_line_depends_on_is_asked_for(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    for rule, line in (("A5", 1), ("P1", 1), ("A4", 2)):
        with pytest.raises(NeedsNoApproval):
            ask(desk, number, rule, line=line)


def test_a_half_structure_is_not_put_before_the_manager(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    revision = desk.revision(number)
    answers = {o: t for o, t in revision.lines[0].specification.answers.items() if o not in ("roof", "bonnet")}
    draft = Draft("GBP", revision.delivery_place, lines=(DraftLine(Specification({**answers})),))
    quoting.save_draft(desk.store, CLERK, number, "A", draft, NOW, expected=revision.version)
    with pytest.raises(StructureOpen) as refused:
        ask(desk, number)
    assert refused.value.facts["open_questions"] == ("bonnet",)  # a roadster's roof is forced


def test_what_is_asked_for_is_what_was_on_the_screen(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    with pytest.raises(ChangedByAnother):
        approving.ask_for(desk.store, CLERK, number, "A", 1, "A4", "", NOW, expected=1)


def test_an_answer_needs_a_reason_and_a_day_that_has_come(desk: Desk) -> None:
    asked = ask(desk, desk.drafted((SHALLOW, 1)))
    for reason, day, path in ((" ", None, "reason"), ("Seen.", date(2027, 1, 1), "day")):
        with pytest.raises(BadInput) as refused:
            approving.answer(desk.store, MANAGER, asked, True, reason, NOW, day=day)
        assert [fault.path for fault in refused.value.faults] == [path]


def test_an_answer_stands_and_a_second_is_refused(desk: Desk) -> None:
    asked = ask(desk, desk.drafted((SHALLOW, 1)))
    grant(desk, asked, granted=False)
    with pytest.raises(ApprovalAnswered):
        grant(desk, asked)


def test_the_manager_may_take_his_yes_back_and_nobody_else(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    asked = ask(desk, number)
    grant(desk, asked)
    with pytest.raises(MayNot):
        approving.withdraw(desk.store, CLERK, asked, "Changed his mind.", NOW, takes_back=False)
    approving.withdraw(desk.store, MANAGER, asked, "The drawing was wrong.", NOW, takes_back=True)
    assert open_rules(desk, number) == ["A3", "A4"]


def test_whatever_no_longer_waits_is_not_answered(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    asked = ask(desk, number)
    retype(desk, number, wheel_well="deep")
    assert approving.weigh(desk.store, MANAGER, asked, NOW).stage is Stage.MOOT
    with pytest.raises(ApprovalMoot):
        grant(desk, asked)


def test_a_declined_quotation_waits_for_nothing(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    asked = ask(desk, number)
    issued = desk.issue(number)
    reply = Reply(NOW, "Agnes", Reason.PRICE)
    settling.decline(desk.store, CLERK, number, "A", reply, NOW, expected=issued.version)
    assert approving.weigh(desk.store, MANAGER, asked, NOW).stage is Stage.MOOT
    assert [one.stage for one in approving.approvals(desk.store, MANAGER, NOW).rows] == [Stage.MOOT]
    assert approving.approvals(desk.store, MANAGER, NOW, stage=Stage.WAITING).rows == ()


def test_issuing_a_revision_without_it_withdraws_what_waits(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    four, three = ask(desk, number), ask(desk, number, "A3")
    desk.issue(number)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    retype(desk, number, "B", wheel_well="deep")
    assert approving.weigh(desk.store, MANAGER, four, NOW).letter == "A"  # A is out, and may still be accepted
    desk.issue(number, "B")
    assert approving.approval(desk.store, CLERK, four).stage is Stage.WITHDRAWN
    assert approving.approval(desk.store, CLERK, three).stage is Stage.WITHDRAWN  # of another structure
    assert open_rules(desk, number, "B") == ["A3"]


def test_a_revision_of_the_same_structure_keeps_request_and_yes(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    four, three = ask(desk, number), ask(desk, number, "A3")
    desk.issue(number)
    grant(desk, four)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    retype(desk, number, "B", packing="wrapped")
    desk.issue(number, "B")
    assert open_rules(desk, number, "B") == ["A3"]
    found = approving.weigh(desk.store, MANAGER, three, NOW)
    assert (found.stage, found.letter) == (Stage.WAITING, "B")


def test_one_yes_serves_two_lines_of_one_structure_and_no_other_quotation(desk: Desk) -> None:
    number, other = desk.drafted((SHALLOW, 1), ({**SHALLOW, "packing": "wrapped"}, 2)), desk.drafted((SHALLOW, 1))
    grant(desk, ask(desk, number))
    assert open_rules(desk, number) == ["A3", "A3"]
    assert open_rules(desk, other) == ["A3", "A4"]


def test_the_paper_s_data_hold_what_was_given_before_issue_and_nothing_later(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    grant(desk, ask(desk, number))
    three = ask(desk, number, "A3")
    frozen = desk.issue(number, at=NOW + DAY).lines[0].frozen
    assert frozen is not None
    (given,) = frozen.approved
    assert (given.rule, given.by, given.day) == ("A4", "piers", date(2026, 11, 3))  # nobody has signed on here
    assert given.reason == "Seen the drawing."
    grant(desk, three)
    assert desk.revision(number).lines[0].frozen == frozen


def test_a_dealer_who_issues_is_never_silently_allowed(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1), who=HOLLIN)
    desk.issue(number, who=HOLLIN)
    needs = approving.approvals_of(desk.store, HOLLIN, number, "A", NOW)
    assert [(need.rule, need.approval and need.approval.stage) for need in needs] == [
        ("A3", Stage.WAITING),
        ("A4", Stage.WAITING),
    ]
    assert all(need.approval is not None and need.approval.asked_by == "nell" for need in needs)
    assert [one.approval.number for one in approving.approvals(desk.store, MANAGER, NOW).rows] == [number, number]


def test_another_dealer_s_approvals_do_not_exist(desk: Desk) -> None:
    desk.issue(desk.drafted((SHALLOW, 1), who=HOLLIN), who=HOLLIN)
    (first, *_) = approving.approvals(desk.store, HOLLIN, NOW).rows
    assert approving.approvals(desk.store, BAYOU, NOW).rows == ()
    with pytest.raises(NotFound):
        approving.weigh(desk.store, BAYOU, first.approval.id, NOW)


def test_the_list_has_what_waits_first_and_of_that_the_oldest(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    four, three = ask(desk, number), ask(desk, number, "A3")
    later = ask(desk, desk.drafted((SHALLOW, 1)))
    grant(desk, four)
    found = approving.approvals(desk.store, MANAGER, NOW).rows
    assert [one.approval.id for one in found] == [three, later, four]
    (waits, *_) = found
    assert (waits.customer, waits.unusual) == ("Agnes Thornbury", ("wheel-well", "belts"))
    assert waits.totals is not None


def test_nothing_of_an_approval_is_changed_or_taken_out(desk: Desk) -> None:
    grant(desk, ask(desk, desk.drafted((SHALLOW, 1))))
    for table in ("approvals", "approval_acts"):
        for statement in (f"DELETE FROM {table}", f"UPDATE {table} SET id = id + 7"):
            with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
                db.execute(statement)


def test_the_fingerprint_knows_no_order_and_no_finish(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    priced = quoting.price_revision(desk.store, CLERK, number, "A", NOW)
    one = priced.answers[0]
    assert one is not None
    structure = structure_of(one.book, one.answer.settled)
    assert fingerprint(dict(reversed(structure.items()))) == fingerprint(structure)
    assert "colour" not in structure
    assert {"series", "market", "wheel-well"} <= structure.keys()
    with desk.store.reading() as db:
        assert kept.waiting(db) == 0


def test_the_desk_s_list_no_longer_names_what_was_given(desk: Desk) -> None:
    number = desk.drafted((SHALLOW, 1))
    asked = ask(desk, number)
    desk.issue(number)

    def needed() -> tuple[str, ...]:
        (row,) = listing.listed(desk.store, CLERK, quoting.quotations(desk.store, CLERK, NOW).rows, NOW)
        return row.approvals

    assert needed() == ("A3", "A4")
    grant(desk, asked)
    assert needed() == ("A3",)

"""What changed between two revisions: nothing is told that did not change, and nothing that did is left out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.quotations.changes import (
    AnswerChange,
    Changes,
    Days,
    ExtraChange,
    Facts,
    LineFacts,
    Moved,
    changes_between,
    pairs,
)
from app.domain.quotations.quotation import DeliveryPlace, Draft, DraftLine, ExtraSold
from app.services.quotations import comparing, enquiring, quoting
from app.services.quotations.working_out import work_out
from rules.answer import Depends
from rules.specification import Origin, Specification, Taken
from tests.app.desk import CLERK, NOW, S3_ROADSTER, Desk

NOTHING = Facts("A", 1, "GBP", DeliveryPlace("GB"), (), {}, None)

ROADSTER = LineFacts(1, {"body": "roadster", "finish": "primed", "packing": "dolly"})
COUPE = LineFacts(1, {"body": "coupe", "finish": "primed", "packing": "dolly"})
PAINTED = LineFacts(1, {"body": "coupe", "finish": "painted", "packing": "crate"})

#: A small-window coupé waits for a sound old ring (P4), as case 11 says; the large window asks for nothing.
SMALL = {"body": "coupe", "market": "home", "series": "s2", "rear-window": "small"}
LARGE = {**SMALL, "rear-window": "large"}


def test_nothing_has_changed_between_a_revision_and_itself() -> None:
    facts = replace(NOTHING, lines=(ROADSTER, COUPE), extras={"photo-book": 1})
    changes = changes_between(facts, facts)
    assert (changes.lines, changes.extras, changes.any) == ((), (), False)


def test_a_shell_taken_out_of_the_middle_is_told_as_that_and_not_as_a_change_of_those_that_follow() -> None:
    before, after = (replace(NOTHING, lines=lines) for lines in ((ROADSTER, COUPE, PAINTED), (ROADSTER, PAINTED)))
    (line,) = changes_between(before, after).lines
    assert (line.number, line.quantity, line.went, line.answers) == (Moved(2, None), Moved(1, 0), True, ())


def test_a_shell_put_in_at_the_front_is_told_as_that() -> None:
    before, after = (replace(NOTHING, lines=lines) for lines in ((COUPE,), (PAINTED, COUPE)))
    (line,) = changes_between(before, after).lines
    assert (line.number, line.came) == (Moved(None, 1), True)


@pytest.mark.parametrize(
    ("before", "after", "paired"),
    [
        ((), (), ()),
        ((ROADSTER,), (), ((0, None),)),
        ((ROADSTER, COUPE), (COUPE, PAINTED), ((0, 0), (1, 1))),
        ((COUPE, COUPE), (COUPE,), ((0, 0), (1, None))),
        ((PAINTED,), (ROADSTER, COUPE, PAINTED), ((None, 0), (None, 1), (0, 2))),
    ],
)
def test_as_many_lines_are_paired_as_can_be(
    before: tuple[LineFacts, ...], after: tuple[LineFacts, ...], paired: tuple[tuple[int | None, int | None], ...]
) -> None:
    assert pairs(before, after) == paired


def test_of_one_line_everything_is_told_at_once() -> None:
    was = replace(COUPE, depends=Depends(parts=("P4",)), net=14_220_00, ready=Days(33, 40))
    now = replace(PAINTED, quantity=2, depends=Depends(cautions=("C6",)), net=16_000_00, ready=Days(41, 48))
    (line,) = changes_between(replace(NOTHING, lines=(was,)), replace(NOTHING, lines=(now,))).lines
    assert line.answers == (
        AnswerChange("finish", "primed", "painted"),
        AnswerChange("packing", "dolly", "crate"),
    )
    assert (line.quantity, line.net) == (Moved(1, 2), Moved(14_220_00, 16_000_00))
    assert (line.come, line.gone) == (Depends(cautions=("C6",)), Depends(parts=("P4",)))
    assert line.ready == Moved(Days(33, 40), Days(41, 48))


def test_a_part_that_another_line_still_asks_for_has_not_fallen_away() -> None:
    asking = replace(COUPE, depends=Depends(parts=("P4",)))
    before = replace(NOTHING, lines=(asking, replace(PAINTED, depends=Depends(parts=("P4",)))))
    after = replace(NOTHING, lines=(asking, PAINTED))
    changes = changes_between(before, after)
    assert (changes.gone.parts, changes.lines[0].gone.parts) == ((), ("P4",))


def test_extras_are_told_by_how_many_there_were_and_are() -> None:
    before, after = (replace(NOTHING, extras=sold) for sold in ({"a": 1, "b": 2, "c": 1}, {"b": 3, "c": 1, "d": 1}))
    told = {(one.extra, one.before, one.after) for one in changes_between(before, after).extras}
    assert told == {("a", 1, 0), ("b", 2, 3), ("d", 0, 1)}


def test_case_11_changed_to_the_large_window_the_ring_falls_away_and_it_costs_864_pounds_less(desk: Desk) -> None:
    """Case 11: 17 064.00 with the small window, 16 200.00 with the large one."""
    number = desk.drafted((SMALL, 1))
    desk.issue(number)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    changes = _retyped(desk, number, LARGE)
    (line,) = changes.lines
    assert AnswerChange("rear-window", "small", "large") in line.answers
    assert changes.gone.parts == ("P4",)
    assert changes.come.parts == ()
    assert changes.sums.before is not None
    assert changes.sums.after is not None
    assert [case.with_tax for case in changes.sums.before.cases] == [17_064_00]
    assert [case.with_tax for case in changes.sums.after.cases] == [16_200_00]
    assert [case.deposit for case in changes.sums.before.cases] == [4_266_00]  # a quarter
    assert changes.ready == Moved(Days(33, 43), Days(26, 36))  # as the form says of each; the spread is 10


def test_an_issued_revision_tells_what_its_draft_told(desk: Desk) -> None:
    number = desk.drafted((SMALL, 1), extras=(ExtraSold("photo-book", 1),))
    desk.issue(number)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    as_a_draft = _retyped(desk, number, LARGE, "Sent by post.")
    desk.issue(number, "B")
    quotation = quoting.quotation(desk.store, CLERK, number, NOW)
    assert comparing.changes_of_issued(desk.store, quotation, quotation.revisions[-1]) == as_a_draft
    assert as_a_draft.note == Moved("", "Sent by post.")
    assert as_a_draft.extras == (ExtraChange("photo-book", 1, 0),)
    assert comparing.changes_of_issued(desk.store, quotation, quotation.revisions[0]) is None


def test_a_draft_that_can_t_be_built_has_no_total_to_compare(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    changes = _retyped(desk, number, {**S3_ROADSTER, "bumpers": "impact"})  # D1: never on an S3
    assert changes.sums.before is not None
    assert changes.sums.after is None
    assert changes.ready.after is None


def _retyped(desk: Desk, number: str, chosen: dict[str, str], note: str = "") -> Changes:
    """Draft B with one shell, no extras and a note, compared as it stands."""
    usual = desk.specification(chosen).answers
    typed = Specification({**usual, **{option: Taken(choice, Origin.CHOSEN) for option, choice in chosen.items()}})
    draft = Draft("GBP", DeliveryPlace("GB"), note, (DraftLine(typed),))
    revision = quoting.save_draft(desk.store, CLERK, number, "B", draft, NOW, expected=1)
    quotation = quoting.quotation(desk.store, CLERK, number, NOW)
    worked = work_out(desk.store, enquiring.enquiry(desk.store, CLERK, quotation.enquiry), revision, NOW)
    changes = comparing.changes_of(desk.store, quotation, revision, worked)
    assert changes is not None
    return changes

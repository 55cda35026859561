"""Customers' parts as they are taken in: who may say what of them, what can't pass, and what opens their gates."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from importlib import import_module

import pytest
from sqlite_utils import Database

from app import calendar
from app.domain.errors import BadInput, CodeRefused, MayNotSign, NotFound, PartBarred
from app.domain.floor.shell import Deed, Done, Stop
from app.domain.floor.stopping import stopped_by
from app.domain.part import Finding, PartAct, PartStands, finding_of, verdict_faults
from app.domain.quotations.quotation import Reply
from app.services.floor.signing import Signature
from app.services.orders import cancelling, ordering
from app.services.parts import taking_in
from app.services.planning import promising
from app.services.quotations import quoting, settling
from app.services.quotations.tagging import Tag
from app.store import parts
from app.store.migrations import modules
from rules.model import Bound, Remark, Remarked
from tests.app.desk import CLERK, HOLLIN, MANAGER, NOW, S3_ROADSTER, Desk
from tests.app.test_building import CHEAP, CODES, LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_case_25 import CAME, PERFORATED, S1_OWN_TUNNEL, SOUND, came, judge, ordered
from tests.app.test_confirming import confirm

FLAT = Remarked(Remark.LIMIT, {"en": "Flat within {2 mm}."}, Bound.MOST)
CLEAR = Remarked(Remark.LIMIT, {"en": "Clear by {150 mm}."}, Bound.LEAST)
WHOLE = Remarked(Remark.LIMIT, {"en": "No perforation."})


@pytest.mark.parametrize(
    ("limit", "met", "measured", "finding"),
    [
        (WHOLE, True, None, Finding(True)),
        (WHOLE, None, None, Finding()),
        (FLAT, None, Decimal("2"), Finding(True, Decimal("2"))),  # a limit is met at the limit
        (FLAT, None, Decimal("2.01"), Finding(False, Decimal("2.01"))),
        (FLAT, True, Decimal("3"), Finding(False, Decimal("3"))),  # whatever somebody ticked
        (FLAT, True, None, Finding()),  # a tick is no measure
        (CLEAR, None, Decimal("149.9"), Finding(False, Decimal("149.9"))),
        (CLEAR, None, Decimal("150"), Finding(True, Decimal("150"))),
    ],
)
def test_what_is_measured_is_held_against_the_limit_s_own_length(
    limit: Remarked, met: bool | None, measured: Decimal | None, finding: Finding
) -> None:
    assert finding_of(limit, met, measured) == finding


@pytest.mark.parametrize(
    ("findings", "why", "passed", "at_fault"),
    [
        ((Finding(True), Finding(True)), "", True, []),
        ((Finding(True), Finding()), "", True, ["limit-blank"]),
        ((Finding(False), Finding(True)), "", True, ["limit-not-met"]),
        ((Finding(False), Finding()), "", False, []),  # one miss is enough
        ((Finding(True), Finding(True)), "", False, ["part-fails-for-nothing"]),
        ((Finding(True), Finding(True)), "Bent.", False, []),
    ],
)
def test_blanks_cant_pass_and_nothing_fails_without_a_reason(
    findings: tuple[Finding, ...], why: str, passed: bool, at_fault: list[str]
) -> None:
    assert [fault.code for fault in verdict_faults(findings, why, passed=passed)] == at_fault


def test_a_part_s_gate_is_never_written_open_by_hand(workshop: Desk) -> None:  # noqa: F811
    order, tag = ordered(workshop)
    asked = (workshop.store, CLERK, order, 1, ("parts", "P1"))

    def say(day: date) -> None:
        promising.say_gate(*asked, day, calendar.around, CAME)

    with pytest.raises(BadInput):
        say(CAME.date())
    say(date(2027, 1, 4))
    assert gate(workshop, order) == (False, date(2027, 1, 4))
    came(workshop, tag)
    judge(workshop, tag, *PERFORATED, passed=False, at=CAME + timedelta(minutes=5))
    assert gate(workshop, order) == (False, CAME.date())  # what was expected before it failed counts no more


def gate(desk: Desk, order: str) -> tuple[bool, date]:
    (shell,) = promising.order_dates(desk.store, CLERK, order, calendar.around, CAME).shells
    (found,) = [due.gate for due in shell.due if due.gate.name == "parts"]
    return found.opened, found.day


def test_a_part_that_passed_and_turns_out_bad_is_inspected_again_and_shuts_its_gate(
    workshop: Desk,  # noqa: F811
) -> None:
    order, tag = ordered(workshop)
    came(workshop, tag)
    judge(workshop, tag, *SOUND, passed=True)
    assert gate(workshop, order) == (True, CAME.date())
    judge(workshop, tag, *PERFORATED, passed=False, at=CAME + timedelta(hours=1))
    assert gate(workshop, order)[0] is False


def test_lead_and_inspector_sign_for_parts_and_nobody_without_his_code(workshop: Desk) -> None:  # noqa: F811
    _, tag = ordered(workshop)
    came(workshop, tag)
    for name, code, refusal in (("idris", CODES["idris"], MayNotSign), ("oona", "0000", CodeRefused)):
        signature = Signature(name, code, "10.0.0.1", CHEAP)
        with pytest.raises(refusal):
            taking_in.judge(workshop.store, LEAD, tag, True, SOUND, "", signature, CAME)


def test_another_comes_once_the_first_has_failed_and_none_fails_without_a_picture(workshop: Desk) -> None:  # noqa: F811
    _, tag = ordered(workshop)
    taking_in.arrive(workshop.store, LEAD, tag, CAME.date(), "", CAME)
    with pytest.raises(PartBarred):
        taking_in.arrive(workshop.store, LEAD, tag, CAME.date(), "", CAME)
    with pytest.raises(PartBarred) as refused:
        judge(workshop, tag, *PERFORATED, passed=False)
    assert refused.value.facts["why"] == "no-photograph"
    with pytest.raises(BadInput):
        taking_in.act(workshop.store, LEAD, tag, PartAct.KEPT, CAME.date() + timedelta(days=1), "", CAME)


def test_another_house_s_part_is_not_there(workshop: Desk) -> None:  # noqa: F811
    _, tag = ordered(workshop)
    for who, asked in (
        (HOLLIN, tag),
        (CLERK, Tag(tag.quotation, 1, 2, "P1")),
        (CLERK, Tag("Q-2026-99999", 1, 1, "P1")),
    ):
        with pytest.raises(NotFound):
            taking_in.part(workshop.store, who, asked, CAME)


def test_a_gate_that_was_written_open_by_hand_is_taken_over_as_a_part_that_passed() -> None:
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        connection.row_factory = sqlite3.Row
        db = Database(connection, execute_plugins=False)
        up = {name: import_module(f"app.store.migrations.{name}").up for name in modules()}
        for name in modules()[: modules().index("m0028_parts")]:
            up[name](db)
        db.execute("INSERT INTO orders (id, number, quotation, made_at, made_by) VALUES (1, 'O-2026-00001', 1, '', '')")
        # said on 25 November: the one opened on the 20th, the other is expected in January
        for of, day in (("P1", "2026-11-20"), ("P4", "2027-01-20")):
            db.execute(
                "INSERT INTO gate_days (order_id, seat, gate, of, day, at, by) VALUES (1, 1, 'parts', ?, ?, ?, ?)",
                [of, day, "2026-11-25T10:00:00+00:00", "imogen"],
            )
        up["m0028_parts"](db)
        (one,) = parts.of_order(db, 1)
    assert (one.rule, one.stands, one.by_hand, one.day) == ("P1", PartStands.PASSED, True, date(2026, 11, 20))
    assert one.verdict is not None
    assert (one.verdict.signed, one.verdict.findings) == ("imogen", ())


def test_a_failed_part_holds_what_waits_for_release_and_stops_what_is_built_before_the_stage_that_needs_it() -> None:
    doors, route = [("parts", "P2a", "fit-and-gap")], (Stop("sub-assembly"), Stop("framing"), Stop("fit-and-gap"))
    released = Done(Deed.RELEASED, CAME, "tomasz")
    through = [Done(Deed.DONE, CAME, "tomasz", stage) for stage in ("sub-assembly", "framing")]

    def stops(*deeds: Done, failed: tuple[str, ...] = ("P2a",)) -> list[str]:
        return [one.what for one in stopped_by(deeds, route, (), doors, failed=failed)]

    assert stops() == ["part-failed"]
    assert stops(failed=()) == []  # nobody knows of a door yet, and it may come later
    assert stops(released) == []
    assert stops(released, *through) == ["part-failed"]
    assert stops(released, *through, failed=()) == ["parts"]


def test_what_lies_here_and_is_not_built_in_is_listed_until_it_went_back(workshop: Desk) -> None:  # noqa: F811
    order, tag = ordered(workshop)  # and not confirmed
    came(workshop, tag)
    judge(workshop, tag, *PERFORATED, passed=False)

    def listed() -> list[str]:
        return [one.tag.number for one in taking_in.awaited(workshop.store, LEAD, calendar.around, CAME)]

    assert listed() == [tag.number]
    taking_in.act(workshop.store, LEAD, tag, PartAct.RETURNED, CAME.date(), "With the carrier.", CAME)
    assert listed() == []
    with pytest.raises(PartBarred):
        taking_in.act(workshop.store, LEAD, tag, PartAct.KEPT, CAME.date(), "", CAME)
    confirm(workshop, order)
    assert listed() == [tag.number]  # its shell waits for his choice


def test_of_a_cancelled_shell_no_part_is_asked_for_and_what_came_stays_his(workshop: Desk) -> None:  # noqa: F811
    order, tag = ordered(workshop)
    confirm(workshop, order)
    came(workshop, tag)
    judge(workshop, tag, *PERFORATED, passed=False)
    (shell,) = ordering.order(workshop.store, CLERK, order, CAME).shells
    assert taking_in.part(workshop.store, LEAD, tag, CAME).needed
    cancelling.cancel(workshop.store, MANAGER, shell.id, None, "He gave up the car.", CAME)
    assert not taking_in.part(workshop.store, LEAD, tag, CAME).needed
    with pytest.raises(PartBarred):
        taking_in.arrive(workshop.store, LEAD, tag, CAME.date(), "Another.", CAME)
    assert [one.tag for one in taking_in.awaited(workshop.store, LEAD, calendar.around, CAME)] == [tag]
    taking_in.act(workshop.store, LEAD, tag, PartAct.RETURNED, CAME.date(), "With the carrier.", CAME)
    assert taking_in.awaited(workshop.store, LEAD, calendar.around, CAME) == ()


def test_what_came_goes_with_its_shell_where_a_later_yes_drops_the_one_before_it(workshop: Desk) -> None:  # noqa: F811
    desk = workshop
    number = desk.drafted((S3_ROADSTER, 1), (S1_OWN_TUNNEL, 1))
    desk.issue(number)
    accept(desk, number, "A")
    came(desk, Tag(number, 2, 1, "P1"))
    drop_the_first(desk, number)
    for printed in ((1, 1), (2, 1)):  # B's tag, and A's, which is tied to the part
        part = taking_in.part(desk.store, CLERK, Tag(number, *printed, "P1"), CAME)
        assert (part.seat.place, part.stands, len(part.arrivals)) == (1, PartStands.ARRIVED, 1)


def test_what_came_for_a_shell_that_was_dropped_is_no_other_shell_s(workshop: Desk) -> None:  # noqa: F811
    """The second tunnel shell moves up; what passed for the first opens nothing of hers and waits to be sent back."""
    desk = workshop
    number = desk.drafted((S1_OWN_TUNNEL, 1), ({**S1_OWN_TUNNEL, "holes": "open"}, 1))
    desk.issue(number)
    accept(desk, number, "A")
    came(desk, Tag(number, 1, 1, "P1"))
    judge(desk, Tag(number, 1, 1, "P1"), *SOUND, passed=True)
    drop_the_first(desk, number)
    order = ordering.order_of(desk.store, CLERK, number)
    told = {one.seat.place: one for one in taking_in.parts_of(desk.store, CLERK, order, calendar.around, CAME)}
    assert (told[1].needed, told[1].stands) == (True, PartStands.EXPECTED)
    (left,) = [one for one in told.values() if one.shell is None]
    assert (left.needed, left.stands, left.tag.line) == (False, PartStands.PASSED, 0)
    taking_in.act(desk.store, LEAD, left.tag, PartAct.RETURNED, CAME.date(), "", CAME)


def drop_the_first(desk: Desk, number: str) -> None:
    """A later yes, to all lines but the first."""
    revision = quoting.next_revision(desk.store, CLERK, number, CAME)
    draft = replace(revision.draft(), lines=revision.draft().lines[1:])
    quoting.save_draft(desk.store, CLERK, number, "B", draft, CAME, expected=revision.version)
    version = desk.revision(number, "B", at=CAME).version
    quoting.issue(desk.store, CLERK, number, "B", CAME, expected=version, replaces_yes=True)
    accept(desk, number, "B", at=CAME)


def accept(desk: Desk, number: str, letter: str, at: datetime = NOW) -> None:
    version = desk.revision(number, letter, at=at).version
    settling.accept(desk.store, CLERK, number, letter, Reply(at, "Agnes"), at, expected=version)

"""Customers' parts as they are taken in: who may say what of them, what can't pass, and what opens their gates."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from app import calendar
from app.domain.errors import BadInput, CodeRefused, MayNotSign, NotFound, PartBarred
from app.domain.part import Finding, PartAct, PartStands, finding_of, verdict_faults
from app.services import promising, taking_in
from app.services.signing import Signature
from app.services.tagging import Tag
from app.store import parts
from app.store.db import Store
from app.store.migrations import modules
from rules.model import Bound, Remark, Remarked
from tests.app.desk import CLERK, HOLLIN, Desk
from tests.app.test_building import CHEAP, CODES, LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_case_25 import CAME, PERFORATED, SOUND, came, judge, ordered
from tests.app.test_upgrade import of_release

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


def test_a_gate_that_was_written_open_by_hand_is_taken_over_as_a_part_that_passed(tmp_path: Path) -> None:
    file = of_release(tmp_path / "desk.sqlite3", modules().index("m0028_parts"))
    with closing(sqlite3.connect(file)) as db, db:
        row = "INSERT INTO orders (id, number, quotation, made_at, made_by) VALUES (1, 'O-2026-00001', 1, '', '')"
        db.execute(row)
        said = [
            ("P1", "2026-11-20"),  # opened, as of that day
            ("P4", "2027-01-20"),  # expected
        ]
        for of, day in said:
            at = "2026-11-25T10:00:00+00:00"
            db.execute(
                "INSERT INTO gate_days (order_id, seat, gate, of, day, at, by) VALUES (1, 1, 'parts', ?, ?, ?, ?)",
                [of, day, at, "imogen"],
            )
    store = Store(file)
    with store.reading() as db_:
        (one,) = parts.of_order(db_, 1)
    store.close()
    assert (one.rule, one.stands, one.by_hand, one.day) == ("P1", PartStands.PASSED, True, date(2026, 11, 20))
    assert one.verdict is not None
    assert (one.verdict.signed, one.verdict.findings) == ("imogen", ())

"""What is proposed for the lists of a packing: customers' parts by their records, what the book sends, no typing."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from app.domain.despatch.packing_up import Into, Origin, Proposal, goes
from app.domain.part import ActDone, Arrival, PartAct, Verdict
from app.services.despatch import despatching, leaving, proposing
from app.services.floor import kitting
from app.services.money import balancing
from app.services.orders import ordering
from app.services.parts import taking_in
from app.services.quotations.tagging import Tag
from tests.app.desk import CLERK, S3_ROADSTER, Desk
from tests.app.test_billing import receive
from tests.app.test_building import LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_case_25 import CAME, PERFORATED, SOUND, came, judge, ordered
from tests.app.test_confirming import LATER, accepted, confirm
from tests.app.test_consigning import gone
from tests.app.test_despatching import PACKED, leave, make_ready, shells

PAINTED = {"finish": "painted", "colour": "reference", "scope": "outside", "primer": "epoxy-and-filler"}
AT = datetime(2026, 12, 11, 14, 30, tzinfo=UTC)
HERE = Arrival(1, 1, "P1", date(2026, 12, 11), "", AT, "tomasz")
BACK = ActDone(PartAct.RETURNED, date(2026, 12, 14), "", AT, "tomasz")


def judged(passed: bool) -> Arrival:
    return replace(HERE, verdicts=(Verdict(passed, (), "", HERE.day, AT, "tomasz", "oona", 1),))


@pytest.mark.parametrize(
    ("arrival", "needed", "welded", "belongs"),
    [
        (judged(False), True, True, (Into.RETURNED, Origin.FAILED)),
        (judged(False), False, False, (Into.RETURNED, Origin.FAILED)),
        (judged(True), False, True, (Into.RETURNED, Origin.NOT_NEEDED)),
        (judged(True), True, True, None),  # it is the shell
        (judged(True), True, False, (Into.LOOSE, Origin.PASSED)),  # a door: hung, or beside it
        (HERE, True, False, (Into.LOOSE, Origin.UNJUDGED)),
        (HERE, True, True, None),
        (replace(judged(False), acts=(BACK,)), True, True, None),  # it went back long ago
    ],
)
def test_what_came_goes_with_the_shell_or_back_to_its_owner(
    arrival: Arrival, needed: bool, welded: bool, belongs: tuple[Into, Origin] | None
) -> None:
    assert goes(arrival, needed=needed, welded=welded) == belongs


def proposed(desk: Desk, shell: int) -> list[Proposal]:
    return list(proposing.proposals(desk.store, LEAD, shell, CAME))


def test_the_tunnel_that_failed_goes_back_and_the_one_that_passed_is_in_the_shell(workshop: Desk) -> None:  # noqa: F811
    order, tag = ordered(workshop)
    (shell,) = shells(workshop, order)
    assert proposed(workshop, shell) == []
    came(workshop, tag)
    judge(workshop, tag, *PERFORATED, passed=False)
    (failed,) = proposed(workshop, shell)
    assert (failed.into, failed.origin, failed.sure) == (Into.RETURNED, Origin.FAILED, True)
    assert (failed.line, failed.day) == (f"Tag {tag.number}: original narrow tunnel", CAME.date())

    came(workshop, tag)
    judge(workshop, tag, *SOUND, passed=True)
    assert proposed(workshop, shell) == [failed]
    taking_in.act(workshop.store, LEAD, tag, PartAct.RETURNED, CAME.date(), "With the carrier.", CAME)
    assert proposed(workshop, shell) == []


def test_hung_parts_and_what_came_with_them_wait_for_the_packer_s_tick(workshop: Desk) -> None:  # noqa: F811
    order = accepted(workshop, {**S3_ROADSTER, **PAINTED, "own-doors": "yes"})
    (shell,) = shells(workshop, order)
    found = proposed(workshop, shell)
    assert [(one.into, one.origin, one.line) for one in found] == [
        (Into.RETURNED, Origin.SENT, "A panel that has kept its colour, the filler flap for one")
    ]
    quotation = ordering.order(workshop.store, CLERK, order, LATER).quotation
    tag = Tag(quotation, 1, 1, "P2a")
    taking_in.arrive(workshop.store, LEAD, tag, LATER.date(), "", LATER)
    door, company, _ = proposed(workshop, shell)
    assert (door.origin, door.line, door.sure) == (Origin.UNJUDGED, f"Tag {tag.number}: doors", False)
    assert company.line == f"With tag {tag.number}: The doors’ hinges with their shims, and the door seals"


def test_nothing_is_proposed_for_a_shell_that_has_left(workshop: Desk) -> None:  # noqa: F811
    assert proposed(workshop, gone(workshop, PACKED)) == []


def test_what_goes_back_with_the_shell_is_written_down_as_returned_once_it_has_left(workshop: Desk) -> None:  # noqa: F811
    order, tag = ordered(workshop)
    for sound in (False, True):
        came(workshop, tag, LATER)
        judge(workshop, tag, *(SOUND if sound else PERFORATED), passed=sound, at=LATER)
    confirm(workshop, order)
    (shell,) = shells(workshop, order)
    kitting.all_present(workshop.store, LEAD, shell, LATER)
    make_ready(workshop, shell)
    balancing.bill_balance(workshop.store, CLERK, order, LATER, shell=shell)
    (failed,) = proposing.proposals(workshop.store, LEAD, shell, LATER)
    packing = replace(PACKED, returned=("His old jack", failed.line))
    despatching.pack(workshop.store, LEAD, shell, packing, LATER)
    open_ = leaving.of_shell(workshop.store, CLERK, shell, LATER).standing.open
    receive(workshop, order, open_, day=LATER.date(), at=LATER)
    leave(workshop, shell)

    first, second = taking_in.part(workshop.store, CLERK, tag, LATER).arrivals
    (back,) = first.acts
    assert (back.act, back.day, back.note) == (PartAct.RETURNED, LATER.date(), "S-2026-00001, D-2026-00001")
    assert second.acts == ()
    history = ordering.order(workshop.store, CLERK, order, LATER).history
    assert [one.facts["rule"] for one in history if one.what == "part-returned"] == ["P1"]

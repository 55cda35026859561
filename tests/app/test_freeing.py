"""A shell that goes through sooner than planned takes none of the days to come; nobody else's promise moves by it."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from app import calendar
from app.domain.floor.shell import Deed, ShellState
from app.domain.planning.slots import Barred, still_taken
from app.services.floor import building, overseeing
from app.services.planning import promising
from app.services.planning.bettering import better_weeks
from app.services.planning.shop_calendar import shop_calendar
from app.store import slots
from rules.schedule.capacity import Visit
from tests.app.desk import CLERK, MANAGER, Desk
from tests.app.test_building import INSPECTOR, LEAD, sign
from tests.app.test_building import shells as keys
from tests.app.test_building import workshop as workshop
from tests.app.test_confirming import LATER, confirmed_order
from tests.app.test_promising import kept, shells

TODAY = LATER.date()
DAY = timedelta(days=1)
BODYWORK = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap", "inspection")


def visits(desk: Desk, number: str, place: int = 1) -> dict[str, tuple[date, date]]:
    seat = shells(desk, number)[place - 1].seat
    with desk.store.reading() as db:
        return {one.stage: (one.start, one.end) for one in slots.visits(db, seat)}


def used(desk: Desk, stage: str) -> Decimal:
    plan = shop_calendar(desk.store, CLERK, None, 26, calendar.around, LATER)
    (row,) = (one for one in plan.rows if one.stage.id == stage)
    return sum((load.used for load in row.loads), Decimal(0))


def through(desk: Desk, number: str, *stages: str) -> int:
    (key, *_) = keys(desk, number)
    building.release(desk.store, LEAD, key, LATER)
    for stage in stages:
        sign(desk, key, stage, "oona" if stage == "inspection" else "idris")
    return key


A, B, C = TODAY - 9 * DAY, TODAY, TODAY + 9 * DAY


@pytest.mark.parametrize(
    ("visit", "done", "left"),
    [
        # not done: as it was
        (Visit("framing", A, C), (), Visit("framing", A, C)),
        # under way when it was done: today ends it
        (Visit("framing", A, C), ("framing",), Visit("framing", A, B)),
        (Visit("framing", B, C), ("framing",), Visit("framing", B, B)),
        # over before: as it was
        (Visit("framing", A, B), ("framing",), Visit("framing", A, B)),
        # tomorrow is to come, and nothing is left of it
        (Visit("framing", B + DAY, C), ("framing",), None),
    ],
)
def test_what_is_done_ends_today_and_what_was_to_come_of_it_is_free(
    visit: Visit, done: tuple[str, ...], left: Visit | None
) -> None:
    assert still_taken([visit], done, TODAY) == (() if left is None else (left,))


def test_a_shell_that_is_framed_before_its_slot_leaves_the_slot_to_whoever_comes_next(workshop: Desk) -> None:
    early = confirmed_order(workshop)
    promise, planned = kept(workshop, early), visits(workshop, early)
    assert promise.slot > TODAY
    assert used(workshop, "framing") == 1
    through(workshop, early, "sub-assembly", "framing")
    assert "framing" not in visits(workshop, early)
    assert visits(workshop, early)["fit-and-gap"] == planned["fit-and-gap"]
    assert used(workshop, "framing") == 0
    # his promise stands, and the day is the next one's
    assert kept(workshop, early) == promise
    assert not shells(workshop, early)[0].adrift
    late = confirmed_order(workshop)
    assert kept(workshop, late).slot == promise.slot
    proposal = promising.propose(workshop.store, CLERK, early, 1, promise.slot + 7 * DAY, False, calendar.around, LATER)
    assert proposal.barred is Barred.BEGUN
    assert better_weeks(workshop.store, LEAD, 8, calendar.around, LATER).shells == 1


def test_a_shell_that_is_ready_early_stands_in_no_week_to_come_and_nobody_else_has_moved(workshop: Desk) -> None:
    early, other = confirmed_order(workshop), confirmed_order(workshop)
    before = kept(workshop, other), visits(workshop, other)
    key = through(workshop, early, *BODYWORK)
    route = overseeing.shell(workshop.store, LEAD, key, LATER).shell.route
    for stop in route[len(BODYWORK) :]:
        if overseeing.shell(workshop.store, LEAD, key, LATER).shell.state is not ShellState.READY:
            sign(workshop, key, stop.stage)
    found = overseeing.shell(workshop.store, LEAD, key, LATER)
    assert found.shell.state is ShellState.READY
    assert all(end <= TODAY for _, end in visits(workshop, early).values())
    plan = shop_calendar(workshop.store, CLERK, TODAY + 7 * DAY, 20, calendar.around, LATER)
    assert {ticket.seat.number for ticket in plan.tickets} == {other}
    assert (kept(workshop, other), visits(workshop, other)) == before


def test_what_is_built_in_the_place_of_a_rejected_shell_has_its_days_again(workshop: Desk) -> None:
    number = confirmed_order(workshop)
    planned = visits(workshop, number)
    key = through(workshop, number, "sub-assembly", "framing")
    assert visits(workshop, number) != planned
    building.say(workshop.store, INSPECTOR, key, Deed.REJECTED, "The sill is torn.", LATER)
    building.replace(workshop.store, MANAGER, key, calendar.around, LATER)
    assert visits(workshop, number) == planned

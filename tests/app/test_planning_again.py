"""What is built in the place of a rejected shell is planned anew; what the customer was told stays written."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest

from app import calendar
from app.domain.floor.shell import Deed
from app.domain.planning.slots import Kept
from app.services.books import tools
from app.services.floor import building, kitting
from app.services.letters.writing_moved import letter_of
from app.services.planning import promising
from app.services.planning.bettering import Stays, better_weeks
from app.services.planning.promising import Shown
from app.services.planning.shop_calendar import shop_calendar
from rules.model import ToolCondition
from rules.schedule.promise import Binds
from tests.app.desk import CLERK, MANAGER, Desk
from tests.app.test_building import INSPECTOR, LEAD
from tests.app.test_building import shells as keys
from tests.app.test_building import workshop as workshop
from tests.app.test_confirming import LATER, confirmed_order
from tests.app.test_freeing import BODYWORK, through, visits

TODAY = LATER.date()
DAY = timedelta(days=1)


def shown(desk: Desk, number: str, now: datetime = LATER) -> Shown:
    (one,) = promising.order_dates(desk.store, CLERK, number, calendar.around, now).shells
    return one


def held(desk: Desk, number: str, now: datetime = LATER) -> Kept:
    kept = shown(desk, number, now).kept
    assert kept is not None
    return kept


def rejected(desk: Desk, key: int, now: datetime = LATER) -> int:
    """Rejected, and another begun."""
    building.say(desk.store, INSPECTOR, key, Deed.REJECTED, "The sill is torn.", now)
    return building.replace(desk.store, MANAGER, key, calendar.around, now)


def set_deck(desk: Desk, state: ToolCondition, until: date | None = None) -> None:
    number, note = tools.tool_states(desk.store).number, "" if state is ToolCondition.OK else "Cracked."
    tools.set_tool(desk.store, LEAD, "roadster-deck", state, LATER, until=until, note=note, expected=number)


@pytest.fixture
def overtaken(workshop: Desk) -> tuple[str, str]:
    """An order whose shell was framed before its slot and rejected, and the order that was promised its slot."""
    number = confirmed_order(workshop)
    key = through(workshop, number, "sub-assembly", "framing")
    other = confirmed_order(workshop)
    assert held(workshop, other).promise.slot == held(workshop, number).promise.slot
    rejected(workshop, key)
    return number, other


def test_where_another_was_promised_its_slot_it_has_the_next_that_is_free_and_all_the_days_behind_it(
    workshop: Desk, overtaken: tuple[str, str]
) -> None:
    number, other = overtaken
    planned, told = held(workshop, number).promise, held(workshop, number).promised
    assert (told.slot, planned.slot) == (date(2026, 11, 10), date(2026, 11, 11))
    assert held(workshop, other).promise.slot == told.slot
    assert visits(workshop, number) == {step.stage: (step.start, step.end) for step in planned.steps}
    third = held(workshop, confirmed_order(workshop)).promise
    assert third.slot == date(2026, 11, 12)


def test_what_was_promised_is_seen_to_be_at_risk_with_the_new_days_and_what_binds_them(
    workshop: Desk, overtaken: tuple[str, str]
) -> None:
    one = shown(workshop, overtaken[0])
    assert one.adrift
    assert one.now is not None
    assert one.kept is not None
    assert one.kept.late
    assert one.now.ready == one.kept.promise.ready == one.kept.promised.ready + DAY
    assert [(b.kind, b.what, b.days) for b in one.kept.promise.bindings] == [(Binds.CAPACITY, "framing", 1)]
    assert one.kept.promise.bindings[0].until == date(2026, 11, 11)
    (ticket,) = (
        one
        for one in shop_calendar(workshop.store, CLERK, None, 8, calendar.around, LATER).tickets
        if one.seat.number == overtaken[0]
    )
    assert ticket.late


def test_the_history_says_that_it_is_built_anew_and_with_which_slot(workshop: Desk, overtaken: tuple[str, str]) -> None:
    history = promising.order_dates(workshop.store, CLERK, overtaken[0], calendar.around, LATER).order.history
    assert [entry.what for entry in history][-2:] == ["shell-replaced", "slot-again"]
    assert history[-1].facts["day"] == "2026-11-11"


def test_moving_it_be_it_to_the_same_day_shows_the_letter_with_the_days_that_were_told_and_tells_them(
    workshop: Desk, overtaken: tuple[str, str]
) -> None:
    number, had = overtaken[0], held(workshop, overtaken[0])
    asked = (number, 1, had.promise.slot, False)
    proposal = promising.propose(workshop.store, CLERK, *asked, calendar.around, LATER)
    (move,) = proposal.moves
    assert (move.before, move.after and move.after.ready) == (had.promised, had.promise.ready)
    letter = letter_of(workshop.store, CLERK, move, LATER)
    assert letter is not None
    assert "between 9 December 2026 and" in letter.text
    assert "it will now be ready between 10 December 2026 and" in letter.text
    promising.move(workshop.store, CLERK, *asked, proposal.token, calendar.around, LATER)
    one = shown(workshop, number)
    assert one.kept is not None
    assert (one.kept.told, one.kept.promise.slot, one.adrift) == (None, had.promise.slot, False)


def test_no_better_order_of_the_weeks_moves_it_before_somebody_has_spoken_with_the_customer(
    workshop: Desk, overtaken: tuple[str, str]
) -> None:
    found = better_weeks(workshop.store, LEAD, 8, calendar.around, LATER)
    assert [(seat.number, why) for seat, why in found.stays] == [(overtaken[0], Stays.LATE)]


def test_rejected_at_its_inspection_long_after_its_slot_it_is_dated_as_who_begins_today(workshop: Desk) -> None:
    number = confirmed_order(workshop)
    told = held(workshop, number).promise
    key = through(workshop, number, *BODYWORK)
    now = LATER + 35 * DAY
    assert told.slot < now.date()
    rejected(workshop, key, now)
    planned = held(workshop, number, now)
    assert planned.promised == told
    # five working days of sub-assembly, from Tuesday 8 December
    assert (now.date(), planned.promise.slot) == (date(2026, 12, 8), date(2026, 12, 15))
    assert planned.promise.steps[0].start == now.date()
    assert shown(workshop, number, now).adrift


def test_rejected_again_the_customer_was_still_told_the_first_days(workshop: Desk, overtaken: tuple[str, str]) -> None:
    number, told = overtaken[0], held(workshop, overtaken[0]).promised
    (key,) = keys(workshop, number)
    kitting.all_present(workshop.store, LEAD, key, LATER)
    building.release(workshop.store, LEAD, key, LATER)
    now = LATER + 35 * DAY
    rejected(workshop, key, now)
    again = held(workshop, number, now)
    assert (again.promised, again.promise.slot) == (told, date(2026, 12, 15))


def test_where_its_slot_is_free_nothing_is_said_to_move(workshop: Desk) -> None:
    number = confirmed_order(workshop)
    had = held(workshop, number)
    rejected(workshop, through(workshop, number, "sub-assembly"))
    assert held(workshop, number) == had
    assert not shown(workshop, number).adrift


def test_where_nobody_knows_when_its_tool_is_back_it_gives_its_slot_back_and_has_no_day(workshop: Desk) -> None:
    set_deck(workshop, ToolCondition.DOWN, TODAY + 7 * DAY)
    number = confirmed_order(workshop)
    set_deck(workshop, ToolCondition.OK)
    key = through(workshop, number, "sub-assembly", "framing")
    building.say(workshop.store, INSPECTOR, key, Deed.REJECTED, "The sill is torn.", LATER)
    set_deck(workshop, ToolCondition.DOWN)
    building.replace(workshop.store, MANAGER, key, calendar.around, LATER)
    one = shown(workshop, number)
    assert (one.kept, one.now, one.undated) == (None, None, ("roadster-deck",))
    assert visits(workshop, number) == {}

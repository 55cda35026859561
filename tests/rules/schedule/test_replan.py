"""The promise of a shell in the workshop once something changes. Working days by hand, in weeks without a holiday."""

from __future__ import annotations

from datetime import date

from app.calendar import working_days
from rules.schedule.capacity import Visit, shop
from rules.schedule.days import route_days
from rules.schedule.promise import Promise, Wanted, dated
from rules.schedule.replan import replanned
from tests.rules.demo_book import NO_DONOR, whole

BOOK = whole()
ENGLAND = working_days(BOOK.calendar, 2026, 2030)
PRIMED = {"body": "coupe", "finish": "primed", "roof": "none"}
#: On the jig Mon 11 January 2027; by the case book primed is ready on 9 February.
SLOT, TODAY = date(2027, 1, 11), date(2027, 1, 19)
WAY = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap", "inspection", "preparation", "buffer")


def wanted(**changes: str) -> Wanted:
    return Wanted(route_days(BOOK, {**PRIMED, **changes}, NO_DONOR), (), {}, SLOT)


def made() -> Promise:
    return dated(BOOK, wanted(), shop(BOOK, ENGLAND), date(2026, 12, 1))


def anew(through: int, *planned: Visit, today: date = TODAY, **changes: str) -> Promise:
    """Once so many stages of the way are through."""
    route = wanted().route
    return replanned(BOOK, made(), route, wanted(**changes), WAY[:through], shop(BOOK, ENGLAND, planned), today)


def test_by_the_case_book_it_is_ready_on_9_february() -> None:
    assert (made().slot, made().ready) == (SLOT, date(2027, 2, 9))


def test_what_comes_before_the_slot_ends_with_it() -> None:
    """Five working days before Mon 11 January 2027 is Mon 4 January."""
    first = made().steps[0]
    assert (first.stage, first.start, first.end) == ("sub-assembly", date(2027, 1, 4), SLOT)


def test_a_change_that_takes_no_day_moves_none() -> None:
    assert anew(3, holes="blanked") == made()


def test_days_of_a_stage_ahead_move_what_follows_and_nothing_before() -> None:
    after = anew(2, roof="folding")
    assert after.steps[:3] == made().steps[:3]
    assert after.ready == date(2027, 2, 19)


def test_days_of_a_stage_that_is_through_are_spent_where_the_shell_is() -> None:
    after = anew(4, roof="folding")
    assert after.steps[:4] == made().steps[:4]
    at, before = (next(s for s in promise.steps if s.stage == "fit-and-gap") for promise in (after, made()))
    assert (at.start, ENGLAND.between(before.end, at.end)) == (before.start, 8)
    assert after.ready == date(2027, 2, 19)


def test_a_stage_that_comes_anew_begins_on_no_day_that_is_past() -> None:
    """All is through on 9 February; on the 15th it is to be painted after all: the booth takes it then, 20 days."""
    after = anew(8, today=date(2027, 2, 15), finish="painted")
    paint = next(step for step in after.steps if step.stage == "paint")
    assert (paint.start, paint.end, after.ready) == (date(2027, 2, 15), date(2027, 3, 15), date(2027, 3, 15))


def test_a_full_stage_takes_it_later() -> None:
    """The booth takes two a week, and 85 % of four over two weeks: three."""
    full = [Visit("paint", date(2027, 2, day), date(2027, 3, day)) for day in (15, 16, 22)]
    after = anew(8, *full, today=date(2027, 2, 15), finish="painted")
    paint = next(step for step in after.steps if step.stage == "paint")
    assert paint.start >= date(2027, 3, 1)

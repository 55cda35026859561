"""A stage's week: slots where a rate is set, days of its bays where those are, and the line over neighbouring weeks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from app.calendar import working_days
from rules.schedule.capacity import Shop, Visit, WeekLoad, shop
from tests.rules.demo_book import whole

BOOK = whole()
ENGLAND = working_days(BOOK.calendar, 2026, 2028)
MONDAY, NEXT = date(2027, 1, 11), date(2027, 1, 18)
STAGES = {stage.id: stage for stage in BOOK.stages}


def framed(*days: date) -> Shop:
    return shop(BOOK, ENGLAND, [Visit("framing", day, day + timedelta(days=2), "roadster") for day in days])


def in_bays(shells: int, first: date, days: int) -> Shop:
    visit = Visit("fit-and-gap", first, first + timedelta(days=days))
    return shop(BOOK, ENGLAND, [visit] * shells)


def test_a_week_of_slots_says_what_is_used_what_there_is_and_the_line() -> None:
    full = framed(MONDAY, MONDAY + timedelta(days=1))
    line = Decimal("2.55")
    assert full.week_load(STAGES["framing"], MONDAY) == WeekLoad(MONDAY, Decimal(2), Decimal(3), line, over=False)
    assert full.week_load(STAGES["framing"], NEXT) == WeekLoad(NEXT, Decimal(0), Decimal(3), line, over=False)


def test_over_two_weeks_six_are_over_the_line_and_five_are_not() -> None:
    """The line is 85 % of six over two weeks: 5.1."""
    five = [MONDAY + timedelta(days=day) for day in (0, 1, 2, 7, 8)]
    assert [_over(framed(*five), week) for week in (MONDAY, NEXT)] == [False, False]
    assert [_over(framed(*five, NEXT + timedelta(days=2)), week) for week in (MONDAY, NEXT)] == [True, True]


def test_a_week_beside_one_that_is_full_is_over_with_it_even_while_it_is_empty_itself() -> None:
    many = framed(*(MONDAY + timedelta(days=day) for day in range(5)), MONDAY + timedelta(days=4))
    assert [_over(many, MONDAY + timedelta(days=7 * week)) for week in (-2, -1, 0, 1, 2)] == [
        False, True, True, True, False,
    ]  # fmt: skip


def test_a_closed_week_takes_nothing() -> None:
    load = framed().week_load(STAGES["framing"], date(2027, 8, 2))
    assert load == WeekLoad(date(2027, 8, 2), Decimal(0), Decimal(0), Decimal(0), over=False)


def test_bays_are_counted_in_days_that_are_worked() -> None:
    """Three bays, five days: fifteen; from Friday to Tuesday a shell takes Friday and Monday."""
    full = in_bays(2, date(2027, 1, 15), 4)
    assert full.week_load(STAGES["fit-and-gap"], MONDAY) == WeekLoad(
        MONDAY, Decimal(2), Decimal(15), Decimal("12.75"), over=False
    )
    assert full.week_load(STAGES["fit-and-gap"], NEXT) == WeekLoad(
        NEXT, Decimal(2), Decimal(15), Decimal("12.75"), over=False
    )


def test_bays_are_over_the_line_where_two_weeks_together_are() -> None:
    """85 % of thirty days is 25.5: three shells for nine days are 27 and over it, three for eight are 24."""
    weeks = (MONDAY, NEXT)
    assert [_bays_over(in_bays(3, MONDAY, 10), week) for week in weeks] == [False, False]
    assert [_bays_over(in_bays(3, MONDAY, 11), week) for week in weeks] == [True, True]
    assert [_bays_over(in_bays(6, MONDAY, 5), week) for week in (*weeks, NEXT + timedelta(days=7))] == [
        True,
        True,
        False,
    ]


def test_a_stage_that_knows_neither_rate_nor_bays_has_no_week() -> None:
    free = replace(STAGES["framing"], per_week=None, bays=None)
    assert framed(MONDAY).week_load(free, MONDAY) is None


def _over(full: Shop, week: date) -> bool:
    load = full.week_load(STAGES["framing"], week)
    assert load is not None
    return load.over


def _bays_over(full: Shop, week: date) -> bool:
    load = full.week_load(STAGES["fit-and-gap"], week)
    assert load is not None
    return load.over

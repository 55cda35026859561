"""What holds of every promise. Working days are held against `dateutil.rrule` (PyPI python-dateutil), which knows
neither this code nor its way of counting: it lists the week-days, less the days that are excluded.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta

from dateutil.rrule import DAILY, FR, MO, TH, TU, WE, rrule, rruleset
from hypothesis import given
from hypothesis import strategies as st

from app.calendar import working_days
from rules.schedule.capacity import Visit, shop, slots_used
from rules.schedule.days import WorkingDays, route_days
from rules.schedule.promise import Binds, GateDay, Promise, Wanted, dated, promise, visits_of
from tests.rules.demo_book import NO_DONOR, whole

BOOK = whole()
ENGLAND = working_days(BOOK.calendar, 2026, 2030)
DAYS = st.dates(date(2026, 6, 1), date(2027, 12, 31))
COUNTS = st.integers(0, 60)
CHOICES = st.sampled_from(
    (
        {"body": "roadster"},
        {"body": "coupe", "finish": "painted"},
        {"body": "roadster", "suspension": "four-link", "trial-fit": "our-trim"},
        {"body": "coupe", "roof": "folding", "finish": "painted", "colour": "frost"},
    )
)


def listed(start: date, many: int) -> list[date]:
    """The first working days after `start`, as dateutil lists them."""
    rules, first = rruleset(), datetime(start.year, start.month, start.day) + timedelta(days=1)  # noqa: DTZ001
    rules.rrule(rrule(DAILY, byweekday=(MO, TU, WE, TH, FR), dtstart=first, until=first + timedelta(days=180)))
    for holiday in ENGLAND.holidays:
        rules.exdate(datetime(holiday.year, holiday.month, holiday.day))  # noqa: DTZ001
    for year in range(2026, 2031):
        rules.exrule(rrule(DAILY, dtstart=datetime(year, 8, 2), until=datetime(year, 8, 13)))  # noqa: DTZ001
    return [day.date() for _, day in zip(range(many), rules, strict=False)]


@given(DAYS, st.integers(1, 60))
def test_days_are_added_as_dateutil_lists_them(start: date, count: int) -> None:
    assert ENGLAND.add(start, count) == listed(start, count)[-1]


@given(DAYS, COUNTS)
def test_days_added_and_counted_are_as_many(start: date, count: int) -> None:
    begun = ENGLAND.first_from(start)
    assert ENGLAND.between(begun, ENGLAND.add(begun, count)) == count


@given(DAYS, COUNTS)
def test_going_back_is_the_last_day_from_which_it_is_in_time(end: date, count: int) -> None:
    begun = ENGLAND.back(end, count)
    assert ENGLAND.add(begun, count) <= ENGLAND.first_from(end)
    later = ENGLAND.first_from(begun + timedelta(days=1))
    assert ENGLAND.add(later, count) > end


def asked(choices: dict[str, str], *gates: GateDay) -> Wanted:
    return Wanted(route_days(BOOK, choices, NO_DONOR), gates, {"framing": choices["body"]})


def queue(days: list[date]) -> Iterator[Visit]:
    """Shells on their way through the shop, each as it was promised: what stands in the way of the next."""
    taken: list[Visit] = []
    for place, day in enumerate(days):
        choices = {"body": "coupe" if place % 2 else "roadster", "finish": "painted" if place % 3 else "primed"}
        made = dated(BOOK, asked(choices), shop(BOOK, ENGLAND, taken), day)
        taken += visits_of(made, {"framing": choices["body"]})
    yield from taken


BUSY = list(queue([date(2027, 1, 4)] * 12 + [date(2027, 6, 14)] * 8))


@given(CHOICES, st.dates(date(2027, 1, 4), date(2027, 9, 30)), st.integers(0, 40))
def test_a_later_gate_never_makes_an_earlier_promise(choices: dict[str, str], day: date, later: int) -> None:
    today, full = date(2027, 1, 4), shop(BOOK, ENGLAND, BUSY)
    early, late = (
        dated(BOOK, asked(choices, GateDay("deposit", on, "framing", 5)), full, today)
        for on in (day, day + timedelta(days=later))
    )
    assert early.slot <= late.slot
    assert early.ready <= late.ready


@given(CHOICES, DAYS, st.sets(st.integers(0, 120), max_size=15))
def test_closing_days_never_makes_a_promise_earlier(choices: dict[str, str], day: date, closed: set[int]) -> None:
    fewer = replace(ENGLAND, holidays=ENGLAND.holidays | {day + timedelta(days=n) for n in closed})
    before, after = (dated(BOOK, asked(choices), shop(BOOK, days), day) for days in (ENGLAND, fewer))
    assert before.ready <= after.ready
    assert before.ready_by <= after.ready_by


@given(CHOICES, st.dates(date(2027, 1, 4), date(2027, 9, 30)))
def test_what_a_promise_takes_fitted_before_it_was_taken(choices: dict[str, str], day: date) -> None:
    full, wish = shop(BOOK, ENGLAND, BUSY), asked(choices)
    made = dated(BOOK, wish, full, day)
    assert all(full.fits(visit) for visit in visits_of(made, wish.kinds) if visit.stage != "sub-assembly")


@given(CHOICES, st.dates(date(2027, 1, 4), date(2027, 9, 30)))
def test_without_what_binds_it_a_promise_is_earlier_and_nothing_else_is_named(
    choices: dict[str, str], day: date
) -> None:
    made = promise(BOOK, asked(choices), shop(BOOK, ENGLAND, BUSY), day)
    assert made is not None
    assert all(one.days > 0 for one in made.bindings)
    assert {one.of for one in made.bindings if one.kind is Binds.CAPACITY} <= {""}
    assert [one.days for one in made.bindings] == sorted((one.days for one in made.bindings), reverse=True)
    if not made.bindings:
        assert made.ready == dated(BOOK, asked(choices), shop(BOOK, replace(ENGLAND, closures=())), day).ready


def test_a_plan_of_the_shop_keeps_below_the_line_over_any_two_weeks() -> None:
    full = shop(BOOK, ENGLAND, BUSY)
    for stage in BOOK.stages:
        weeks = sorted(slots_used(stage, full.loads[stage.id].queue)) if stage.id in full.loads else []
        for week in weeks:
            two = (week, week + timedelta(days=7))
            used = sum(full.used(stage.id, one) for one in two)
            assert stage.per_week is None or used <= full.planned(stage, two)


def test_a_changeover_over_a_week_end_counts_in_the_week_of_the_shell_before_it() -> None:
    framing = next(stage for stage in BOOK.stages if stage.id == "framing")
    used = slots_used(framing, [(date(2027, 1, 15), "roadster"), (date(2027, 1, 18), "coupe")])
    assert [float(one) for one in used.values()] == [1.5, 1.0]


def test_a_week_full_to_its_line_does_not_bar_the_other_body_for_ever() -> None:
    taken = [Visit("framing", date(2027, 1, day), date(2027, 1, day + 2), "roadster") for day in (4, 5, 6, 11, 12)]
    coupe = asked({"body": "coupe"})
    made = dated(BOOK, coupe, shop(BOOK, ENGLAND, taken), date(2027, 1, 4))
    assert made.slot == date(2027, 1, 25)
    framing = next(stage for stage in BOOK.stages if stage.id == "framing")
    used = slots_used(framing, [(visit.start, visit.kind) for visit in (*taken, *visits_of(made, coupe.kinds)[1:2])])
    assert [float(used[week]) for week in sorted(used)] == [3, 2, 1.5]


def test_no_gate_and_nothing_planned_binds_nothing() -> None:
    made = promise(BOOK, asked({"body": "roadster"}), shop(BOOK, ENGLAND), date(2027, 1, 4))
    assert isinstance(made, Promise)
    assert (made.slot, made.ready, made.bindings) == (date(2027, 1, 4), date(2027, 2, 2), ())


def test_of_two_gates_on_one_day_one_is_named() -> None:
    gates = [GateDay(name, date(2027, 2, 1), "framing", 5) for name in ("deposit", "specification")]
    made = promise(BOOK, asked({"body": "roadster"}, *gates), shop(BOOK, ENGLAND), date(2027, 1, 4))
    assert made is not None
    assert [(one.what, one.until) for one in made.bindings] == [("deposit", date(2027, 2, 1))]


def test_a_full_booth_that_hides_behind_a_full_jig_is_named() -> None:
    jig = [Visit("framing", date(2027, 1, day), date(2027, 1, day + 2), "roadster") for day in (4, 5, 6)]
    monday = date(2027, 1, 18)
    booth = [
        Visit("paint", monday + timedelta(days=7 * week + day), monday + timedelta(days=7 * week + day + 28))
        for week in range(4)
        for day in range(1 + week % 2)
    ]
    made = promise(
        BOOK, asked({"body": "roadster", "finish": "painted"}), shop(BOOK, ENGLAND, [*jig, *booth]), date(2027, 1, 4)
    )
    assert made is not None
    assert made.bindings[0].what == "paint"


def test_a_gate_before_a_late_stage_holds_the_shell_there_alone() -> None:
    doors = GateDay("parts", date(2027, 3, 1), "fit-and-gap", 0, "P2")
    made = promise(BOOK, asked({"body": "roadster"}, doors), shop(BOOK, ENGLAND), date(2027, 1, 4))
    assert made is not None
    assert made.slot == date(2027, 1, 4)
    assert next(step.start for step in made.steps if step.stage == "fit-and-gap") == date(2027, 3, 1)
    assert [(one.kind, one.of) for one in made.bindings] == [(Binds.GATE, "P2")]


def test_a_week_closed_takes_nothing() -> None:
    framing = next(stage for stage in BOOK.stages if stage.id == "framing")
    assert shop(BOOK, ENGLAND).takes(framing, date(2027, 8, 2)) == 0
    assert isinstance(ENGLAND, WorkingDays)

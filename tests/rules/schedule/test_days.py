"""Working days and the days of a specification.

Public holidays of England are those of the PyPI package `holidays`; that 18 December 2026 + 10 is 6 January 2027 was
worked out with it (subdiv ENG) before this code was written.
"""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.calendar import public_holidays, working_days
from rules.condition import Is
from rules.model import Addition, Book, Calendar, Choice, Closure, Option, Stage
from rules.schedule.days import AddedDays, DateRange, HolidaysUnknown, WorkingDays, date_range, route_days
from rules.specification import Donor

AUGUST = Closure({"en": "summer closure"}, (8, 2), (8, 13))
ENGLAND = Calendar(zone="Europe/London", country="GB", subdivision="ENG", closures=(AUGUST,), spread=10)
WORKING = working_days(ENGLAND, 2026, 2028)


def _option(option: str, *choices: str) -> Option:
    return Option(option, "structure", {}, tuple(Choice(choice, {}) for choice in choices))


def _when(option: str, *choices: str) -> Is:
    return Is(option, frozenset(choices))


#: The workshop's days as the demo firm has them: 5 before the slot, 21 from it.
BOOK = Book(
    id="days",
    title={},
    languages=("en",),
    options=(
        _option("tunnel", "narrow", "wide"),
        _option("rear-window", "none", "small"),
        _option("suspension", "leaf", "four-link"),
        _option("finish", "primed", "painted"),
        _option("packing", "dolly", "crate"),
    ),
    stages=(
        Stage("sub-assembly", {}, 5, before_slot=True),
        Stage("framing", {}, 2),
        Stage("rollover", {}, 3),
        Stage("skinning", {}, 4),
        Stage("fit-and-gap", {}, 4),
        Stage("inspection", {}, 1),
        Stage("paint", {}, 0),
        Stage("preparation", {}, 2),
        Stage("buffer", {}, 5),
    ),
    additions=(
        Addition("narrow-tunnel", "framing", 15, _when("tunnel", "narrow"), {}, from_gate=True),
        Addition("small-window", "framing", 12, _when("rear-window", "small"), {}, from_gate=True),
        Addition("four-link-brackets", "sub-assembly", 4, _when("suspension", "four-link"), {}),
        Addition("four-link-weld", "rollover", 6, _when("suspension", "four-link"), {}),
        Addition("painted", "paint", 20, _when("finish", "painted"), {}),
        Addition("crate", "preparation", 2, _when("packing", "crate"), {}),
    ),
    calendar=ENGLAND,
)
PLAIN = {"tunnel": "wide", "rear-window": "none", "suspension": "leaf", "finish": "primed", "packing": "dolly"}


@pytest.mark.parametrize(
    ("start", "days", "end"),
    [
        # over Christmas and New Year
        (date(2026, 12, 18), 10, date(2027, 1, 6)),
        # a recovered tunnel that passes on 11 December, 4 and 18 January: 15 days to framing
        (date(2026, 12, 11), 15, date(2027, 1, 6)),
        (date(2027, 1, 4), 15, date(2027, 1, 25)),
        (date(2027, 1, 18), 15, date(2027, 2, 8)),
        # the slot of 11 January: primed, painted, metallic
        (date(2027, 1, 11), 21, date(2027, 2, 9)),
        (date(2027, 1, 11), 41, date(2027, 3, 9)),
        (date(2027, 1, 11), 44, date(2027, 3, 12)),
        # painted and crated from the slot of 22 February, over Easter
        (date(2027, 2, 22), 43, date(2027, 4, 26)),
        # over the August closure and the bank holiday after it
        (date(2027, 7, 19), 21, date(2027, 9, 1)),
        # from a Saturday
        (date(2027, 1, 9), 1, date(2027, 1, 11)),
    ],
)
def test_working_days_are_added_without_counting_the_day_they_start_from(start: date, days: int, end: date) -> None:
    assert WORKING.add(start, days) == end
    assert WORKING.between(start, end) == days


def test_without_closures_the_july_slot_is_ready_in_the_middle_of_august() -> None:
    open_all_year = WorkingDays(WORKING.holidays)
    assert open_all_year.add(date(2027, 7, 19), 21) == date(2027, 8, 17)


def test_the_august_closure_takes_ten_working_days() -> None:
    open_all_year = WorkingDays(WORKING.holidays)
    lost = open_all_year.between(date(2027, 7, 31), date(2027, 8, 15))
    assert lost == 10
    assert WORKING.between(date(2027, 7, 31), date(2027, 8, 15)) == 0


def test_no_day_at_all_from_a_holiday_is_the_next_working_day() -> None:
    assert WORKING.add(date(2026, 12, 25), 0) == date(2026, 12, 29)
    assert WORKING.add(date(2026, 12, 29), 0) == date(2026, 12, 29)


def test_a_closure_may_run_over_the_end_of_the_year() -> None:
    days = WorkingDays(closures=(Closure({}, (12, 24), (1, 3)),))
    assert days.add(date(2026, 12, 23), 1) == date(2027, 1, 4)


def test_a_closure_comes_every_year() -> None:
    assert not WORKING.is_working(date(2026, 8, 3))
    assert not WORKING.is_working(date(2028, 8, 3))


def test_counting_past_the_known_holidays_is_refused_not_guessed() -> None:
    with pytest.raises(HolidaysUnknown, match=r"Hand in those of 2029 too\."):
        WORKING.add(date(2028, 12, 28), 5)


def test_closures_that_leave_no_day_are_refused() -> None:
    with pytest.raises(ValueError, match=r"Leave some days open\."):
        WorkingDays(closures=(Closure({}, (1, 1), (12, 31)),))


def test_scotland_keeps_a_holiday_that_england_does_not() -> None:
    second_of_january = date(2026, 1, 2)
    assert second_of_january in public_holidays("GB", "SCT", 2026, 2026)
    assert second_of_january not in public_holidays("GB", "ENG", 2026, 2026)


def test_a_calendar_without_a_country_has_no_holidays_and_an_unknown_one_is_refused() -> None:
    assert public_holidays("", None, 2026, 2027) == frozenset()
    with pytest.raises(ValueError, match=r"Name an ISO 3166 country"):
        public_holidays("XX", None, 2026, 2027)


def test_a_plain_shell_takes_five_days_before_its_slot_and_twenty_one_after() -> None:
    route = route_days(BOOK, PLAIN, Donor())
    assert (route.before_slot, route.gate, route.after_slot) == (5, 0, 21)


def test_painted_and_crated_takes_forty_three_days_from_the_slot() -> None:
    route = route_days(BOOK, {**PLAIN, "finish": "painted", "packing": "crate"}, Donor())
    assert route.after_slot == 43
    assert [added for stage in route.stages for added in stage.added] == [
        AddedDays("painted", 20),
        AddedDays("crate", 2),
    ]


def test_the_four_link_adds_before_the_slot_and_at_the_rollover_weld() -> None:
    route = route_days(BOOK, {**PLAIN, "suspension": "four-link"}, Donor())
    assert (route.before_slot, route.after_slot) == (9, 27)


def test_a_tunnel_and_a_window_from_the_gate_run_side_by_side_and_beside_the_sub_assembly() -> None:
    route = route_days(BOOK, {**PLAIN, "tunnel": "narrow", "rear-window": "small"}, Donor())
    assert (route.before_slot, route.gate, route.to_slot, route.after_slot) == (5, 15, 15, 21)


def test_a_comparison_quotes_the_full_days_of_the_gate() -> None:
    narrow, small, plain = (
        route_days(BOOK, {**PLAIN, **change}, Donor())
        for change in ({"tunnel": "narrow"}, {"rear-window": "small"}, {})
    )
    assert narrow.compared - plain.compared == 15
    assert small.compared - plain.compared == 12


def test_what_is_still_open_adds_no_days_yet() -> None:
    assert route_days(BOOK, {}, Donor()).compared == 26


def test_a_quotation_names_a_range_from_the_day_the_gates_open() -> None:
    # 4 January + 5 = 11 January, + 21 = 9 February, + 10 = 23 February
    assert date_range(BOOK, PLAIN, Donor(), WORKING, date(2027, 1, 4)) == DateRange(
        date(2027, 1, 11), date(2027, 2, 9), date(2027, 2, 23)
    )


def test_a_range_waits_for_the_longer_of_gate_and_sub_assembly() -> None:
    narrow = date_range(BOOK, {**PLAIN, "tunnel": "narrow"}, Donor(), WORKING, date(2027, 1, 4))
    assert narrow.framing == date(2027, 1, 25)


@given(st.dates(date(2026, 1, 1), date(2027, 6, 30)), st.integers(0, 60), st.integers(0, 60))
def test_days_added_in_two_goes_are_the_days_added_at_once(start: date, first: int, then: int) -> None:
    assert WORKING.add(WORKING.add(start, first), then) == WORKING.add(start, first + then)

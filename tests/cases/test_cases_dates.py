"""Cases 18, 25, 26, 27: what is ready when, and what binds it, to the day, from the demo firm's own rule book.

Public holidays of England come from the PyPI package `holidays`; the days were worked out by hand before the code was.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from app.calendar import working_days
from rules.donor.usual import usual_specification
from rules.schedule.capacity import Shop, Visit, shop
from rules.schedule.days import WorkingDays, route_days
from rules.schedule.promise import Binds, GateDay, Promise, Wanted, earliest_slot, needed_by, promise, visits_of
from tests.rules.demo_book import NO_DONOR, whole

BOOK = whole()
ENGLAND = working_days(BOOK.calendar, 2026, 2029)
JIG = next(stage for stage in BOOK.stages if stage.id == "framing")


def made(series: str = "s3", body: str = "roadster", **choices: str) -> dict[str, str]:
    """The usual one at home, or with these choices."""
    usual = usual_specification(BOOK, {"series": series, "market": "home", "body": body}, NO_DONOR)
    return {**usual, **choices}


def wanted(choices: Mapping[str, str], *gates: GateDay, slot: date | None = None) -> Wanted:
    return Wanted(route_days(BOOK, choices, NO_DONOR), gates, {"framing": choices["body"]}, slot)


def empty(working: WorkingDays = ENGLAND) -> Shop:
    return shop(BOOK, working)


def dated(asked: Wanted, today: date, at: Shop | None = None) -> Promise:
    made_out = promise(BOOK, asked, at or empty(), today)
    assert made_out is not None
    return made_out


def test_case_18_south_africa_is_ready_on_26_april() -> None:
    crated = made(body="coupe", finish="painted", colour="oat", scope="outside", packing="crate", delivery="port")
    deposit = GateDay("deposit", date(2027, 1, 4), "framing", 5, opened=True)
    out = dated(wanted(crated, deposit, slot=date(2027, 2, 22)), date(2027, 1, 4))
    assert (out.slot, out.ready) == (date(2027, 2, 22), date(2027, 4, 26))


@pytest.mark.parametrize(
    ("passed", "framing"),
    [
        (date(2026, 12, 11), date(2027, 1, 6)),  # had it passed at once
        (date(2027, 1, 4), date(2027, 1, 25)),
        (date(2027, 1, 18), date(2027, 2, 8)),
    ],
)
def test_case_25_a_tunnel_that_passes_late_moves_the_framing(passed: date, framing: date) -> None:
    tunnel = GateDay("parts", passed, "framing", 15, "P1", opened=True)
    asked = wanted(made("s1", scuttle="plain", tunnel="narrow"), tunnel)
    assert earliest_slot(asked, empty(), date(2026, 12, 11)) == framing
    assert dated(asked, date(2026, 12, 11)).slot == framing


def test_case_25_the_late_tunnel_is_named_as_what_binds() -> None:
    tunnel = GateDay("parts", date(2027, 1, 4), "framing", 15, "P1")
    deposit = GateDay("deposit", date(2026, 12, 11), "framing", 5, opened=True)
    out = dated(wanted(made("s1", scuttle="plain", tunnel="narrow"), deposit, tunnel), date(2026, 12, 11))
    first = out.bindings[0]
    assert (first.kind, first.what, first.of, first.until) == (Binds.GATE, "parts", "P1", date(2027, 1, 4))
    assert first.days == ENGLAND.between(date(2027, 1, 6), date(2027, 1, 25))


def test_case_25_the_slot_of_11_january_says_by_when_the_tunnel_must_pass() -> None:
    tunnel = GateDay("parts", date(2026, 12, 11), "framing", 15, "P1")
    out = dated(
        wanted(made("s1", scuttle="plain", tunnel="narrow"), tunnel, slot=date(2027, 1, 11)), date(2026, 12, 11)
    )
    by = needed_by(tunnel, out, ENGLAND)
    assert by is not None
    assert ENGLAND.add(by, 15) == date(2027, 1, 11)
    assert ENGLAND.add(ENGLAND.first_from(by + timedelta(days=1)), 15) > date(2027, 1, 11)


def test_case_26_changeovers_make_the_mixed_weeks_too_full() -> None:
    two_weeks = [date(2027, 1, 11), date(2027, 1, 18)]
    for kinds, slots in (("rcrcrc", Decimal("8.5")), ("rrrccc", Decimal("6.5"))):
        full = shop(BOOK, ENGLAND, _two_weeks(kinds))
        assert sum(full.used("framing", week) for week in two_weeks) == slots
    assert empty().planned(JIG, two_weeks) == Decimal("5.1")
    assert sum(empty().takes(JIG, week) or 0 for week in two_weeks) == 6


def test_case_26_neither_order_of_six_fits_the_line() -> None:
    for kinds in ("rcrcrc", "rrrccc"):
        assert not all(_placed("framing", list(_two_weeks(kinds))))
    assert all(_placed("framing", list(_two_weeks("rrr"))))


def test_case_26_in_all_painted_weeks_the_booth_binds() -> None:
    painted = [
        stage.stage for stage in route_days(BOOK, made(finish="painted", colour="oat"), NO_DONOR).stages if stage.days
    ]
    assert _slowest(painted) == (Decimal("1.7"), "paint")
    primed = [stage.stage for stage in route_days(BOOK, made(), NO_DONOR).stages if stage.days]
    assert _slowest(primed) == (Decimal("2.55"), "framing")


def test_case_26_a_full_booth_is_named_with_the_day_until_which_it_is_full() -> None:
    monday, today = date(2027, 2, 15), date(2027, 1, 11)
    booked = [
        Visit("paint", monday + timedelta(days=7 * week + day), monday + timedelta(days=7 * week + day + 28))
        for week in range(-3, 4)
        for day in range(2 if week % 2 else 1)
    ]
    out = dated(wanted(made(finish="painted", colour="oat")), today, shop(BOOK, ENGLAND, booked))
    first = out.bindings[0]
    assert (first.kind, first.what) == (Binds.CAPACITY, "paint")
    step = next(step for step in out.steps if step.stage == "paint")
    assert (first.until, step.could < step.start) == (step.start, True)


def test_case_27_the_august_closure_adds_ten_working_days() -> None:
    out = dated(wanted(made(), slot=date(2027, 7, 19)), date(2027, 7, 5))
    assert out.ready == date(2027, 9, 1)
    first = out.bindings[0]
    assert (first.kind, first.days, first.until) == (Binds.CLOSURE, 10, date(2027, 8, 13))
    open_all_year = replace(ENGLAND, closures=())
    assert dated(wanted(made(), slot=date(2027, 7, 19)), date(2027, 7, 5), empty(open_all_year)).ready == date(
        2027, 8, 17
    )


@pytest.mark.parametrize(
    ("choices", "ready"),
    [
        ({}, date(2027, 2, 9)),
        ({"finish": "painted", "colour": "oat"}, date(2027, 3, 9)),
        ({"finish": "painted", "colour": "frost"}, date(2027, 3, 12)),
    ],
)
def test_case_27_the_slot_of_11_january(choices: dict[str, str], ready: date) -> None:
    assert dated(wanted(made(**choices), slot=date(2027, 1, 11)), date(2027, 1, 4)).ready == ready


def test_case_27_ten_working_days_over_christmas() -> None:
    assert ENGLAND.add(date(2026, 12, 18), 10) == date(2027, 1, 6)


def test_what_a_promise_takes_is_not_free_for_the_next() -> None:
    today, asked = date(2027, 1, 4), wanted(made())
    first = dated(asked, today)
    second = dated(asked, today, shop(BOOK, ENGLAND, visits_of(first, asked.kinds)))
    assert (first.slot, second.slot) == (date(2027, 1, 4), date(2027, 1, 5))


def _two_weeks(kinds: str) -> Iterator[Visit]:
    """Three a week, on Monday, Tuesday and Wednesday."""
    for place, kind in enumerate(kinds):
        day = date(2027, 1, 11) + timedelta(days=7 * (place // 3) + place % 3)
        yield Visit("framing", day, day + timedelta(days=2), kind)


def _slowest(passed: list[str]) -> tuple[Decimal, str]:
    """Shells that can be planned in a week, and at which stage it is no more."""
    rated = [stage for stage in BOOK.stages if stage.id in passed and stage.per_week is not None]
    return min((empty().planned(stage, [date(2027, 1, 11)]), stage.id) for stage in rated)


def _placed(stage: str, visits: list[Visit]) -> Iterator[bool]:
    for place, visit in enumerate(visits):
        yield shop(BOOK, ENGLAND, visits[:place]).fits(visit)

"""Case 29 of the case book: what an inspection says, to the digit."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

from app.domain.inspection.inspection import (
    Gauge,
    GaugeSort,
    Lack,
    Looked,
    Reading,
    Verdict,
    Void,
    lacking,
    own_zones,
    standing,
)
from rules.inspection.colour import Lab
from rules.inspection.judging import Between, Mark, all_judged, compared, film_of, judged, predicted
from rules.inspection.listing import subjects_of
from rules.inspection.subject import Kind, Limit, Phase, Subject, Value
from rules.making import Limits
from tests.rules.demo_book import whole
from tests.rules.inspection.test_limits import PAINTED
from tests.rules.workshop.test_work import HOME, settled, work

NOON = datetime(2027, 2, 8, 12, tzinfo=UTC)
FEELER = Gauge(1, "F-07", GaugeSort.FEELER, date(2026, 9, 1), date(2027, 8, 31))


def limits() -> Limits:
    found = whole().making.limits
    assert found is not None
    return found


def subjects(own: dict[str, str] = HOME) -> dict[str, Subject]:
    found = subjects_of(whole(), work(own), tuple(settled(own)), limits())
    return {one.id: one for one in found}


DOOR = {"gap:df-top-left": Decimal("3.6"), "gap:df-bottom-left": Decimal("4.7"), "gap:df-top-right": Decimal("4.6"),
        "gap:df-bottom-right": Decimal("4.6")}  # fmt: skip


def test_case_29_each_point_of_the_door_is_within_its_limits() -> None:
    marks = {one.subject.id: one.mark for one in all_judged(subjects().values(), DOOR) if one.subject.id in DOOR}
    assert marks == dict.fromkeys(DOOR, Mark.WITHIN)


def test_case_29_the_left_door_tapers_by_1_1_and_fails_left_and_right_differ_by_1_0_and_pass() -> None:
    found = {(one.kind, one.points): (one.by, one.mark) for one in compared(work(HOME).gaps, DOOR, Phase.METAL)}
    assert found == {
        (Between.TAPER, ("df-top-left", "df-bottom-left")): (Decimal("1.1"), Mark.OUT),
        (Between.TAPER, ("df-top-right", "df-bottom-right")): (Decimal("0.0"), Mark.WITHIN),
        (Between.ACROSS, ("df-top-left", "df-top-right")): (Decimal("1.0"), Mark.WITHIN),
        (Between.ACROSS, ("df-bottom-left", "df-bottom-right")): (Decimal("0.1"), Mark.WITHIN),
    }


def test_case_29_3_5_and_5_5_pass_3_4_and_5_6_fail() -> None:
    gap = subjects()["gap:df-top-left"]
    assert [judged(gap, Decimal(value)).mark for value in ("3.5", "5.5", "3.4", "5.6")] == [
        Mark.WITHIN, Mark.WITHIN, Mark.OUT, Mark.OUT,
    ]  # fmt: skip


def test_case_29_a_metal_gap_of_3_8_paints_to_3_40_to_3_56_and_passes() -> None:
    (one,) = predicted(work(PAINTED).gaps, {"gap:df-top-left": Decimal("3.8")}, film_of({}, limits()))
    assert (one.least, one.most, one.mark) == (Decimal("3.400"), Decimal("3.560"), Mark.WITHIN)
    assert (one.limit.least, one.limit.most) == (Decimal("3.0"), Decimal("5.0"))


def test_case_29_measured_film_takes_the_place_of_the_expected() -> None:
    values: dict[str, Value] = {
        "gap:df-top-left": Decimal("3.8"),
        "film:bonnet": Decimal(320),
        "film:boot-lid": Decimal(150),
    }
    (one,) = predicted(work(PAINTED).gaps, values, film_of(values, limits()))
    assert (one.least, one.most) == (Decimal("3.160"), Decimal("3.500"))
    thick: dict[str, Value] = {**values, "gap:df-top-left": Decimal("3.6"), "film:bonnet": Decimal(320)}
    assert predicted(work(PAINTED).gaps, thick, film_of(thick, limits()))[0].mark is Mark.OUT


def test_case_29_a_spot_on_0_9_and_1_2() -> None:
    spot = Subject(Kind.NUGGET, Phase.METAL, "z", subjects()["nugget:z-wing-left"].limit)
    assert spot.limit == Limit(least=Decimal("3.320"), aim=Decimal("3.795"))
    marks = [judged(spot, Decimal(value)).mark for value in ("3.2", "3.5", "3.9", "3.320", "3.319", "3.795")]
    assert marks == [Mark.OUT, Mark.BELOW_AIM, Mark.WITHIN, Mark.BELOW_AIM, Mark.OUT, Mark.WITHIN]


def test_case_29_the_inspector_who_welded_the_sill_does_not_sign_alone() -> None:
    welders = {"z-sills": ("idris", "oona"), "z-wing-left": ("idris",)}
    assert own_zones("oona", welders) == ("z-sills",)
    assert own_zones("tomasz", welders) == ()


def looked(own: dict[str, str], values: dict[str, Value], conceded: frozenset[str] = frozenset()) -> Looked:
    coated = [one for one in subjects(own).values() if one.phase is Phase.COATED]
    return Looked(Phase.COATED, all_judged(coated, values), conceded=conceded)


def good(own: dict[str, str]) -> dict[str, Value]:
    """Every subject of the coated shell within its limits."""
    lab = Lab(50, 2.6772, -79.7751)
    read: dict[str, Value] = {}
    for one in subjects(own).values():
        if one.phase is Phase.COATED:
            limit = one.limit
            read[one.id] = lab if one.kind in (Kind.SAMPLE, Kind.COLOUR) else limit.most or limit.least or Decimal(0)
    return read


def test_case_29_a_film_of_320_is_conceded_or_reworked() -> None:
    assert lacking(Verdict.PASS, looked(PAINTED, good(PAINTED))) == ()
    thick = {**good(PAINTED), "film:bonnet": Decimal(320)}
    assert lacking(Verdict.PASS, looked(PAINTED, thick)) == ((Lack.FAILED, ("film:bonnet",)),)
    assert lacking(Verdict.REWORK, looked(PAINTED, thick)) == ()
    conceded = looked(PAINTED, thick, frozenset({"film:bonnet"}))
    assert lacking(Verdict.CONCESSION, conceded) == ()
    assert lacking(Verdict.PASS, conceded) == ((Lack.CONCEDED, ("film:bonnet",)),)
    assert lacking(Verdict.CONCESSION, looked(PAINTED, good(PAINTED))) == ((Lack.NOT_CONCEDED, ()),)


def reading(number: int, subject: str, value: str, minutes: int, gauge: Gauge | None = FEELER) -> Reading:
    at = NOON + timedelta(minutes=minutes)
    return Reading(number, subject, value, gauge, at, at, "oona", f"key-{number}")


def test_case_29_after_a_film_of_320_painted_gaps_are_read_again() -> None:
    before = reading(1, "painted:df-top-left", "4.0", 0)
    film = reading(2, "film:bonnet", "320", 1, replace(FEELER, sort=GaugeSort.FILM))
    told = standing((before, film), subjects(PAINTED).values(), {}, frozenset({2}))
    assert told.void == {"painted:df-top-left": (before, Void.FILM)}
    assert set(told.counts) == {"film:bonnet"}
    after = reading(3, "painted:df-top-left", "3.7", 2)
    again = standing((before, film, after), subjects(PAINTED).values(), {}, frozenset({2}))
    assert again.counts["painted:df-top-left"] is after


def test_case_29_blanks_never_pass() -> None:
    values = good(PAINTED)
    del values["adhesion"]
    assert lacking(Verdict.PASS, looked(PAINTED, values)) == ((Lack.UNREAD, ("adhesion",)),)
    assert lacking(Verdict.CONCESSION, looked(PAINTED, values))[0] == (Lack.UNREAD, ("adhesion",))


def test_what_was_read_with_a_gauge_out_of_date_is_kept_and_does_not_count() -> None:
    old = replace(FEELER, due=date(2027, 2, 7))
    told = standing((reading(1, "gap:df-top-left", "4.5", 0, old),), subjects().values(), {}, frozenset())
    assert (told.counts, told.void["gap:df-top-left"][1]) == ({}, Void.GAUGE)
    good_to_the_day = replace(FEELER, due=date(2027, 2, 8))
    kept = standing((reading(1, "gap:df-top-left", "4.5", 0, good_to_the_day),), subjects().values(), {}, frozenset())
    assert set(kept.counts) == {"gap:df-top-left"}


def test_what_was_read_before_it_was_mended_is_read_again() -> None:
    first = reading(1, "gap:df-top-left", "3.4", 0)
    mended = {"gap:df-top-left": NOON + timedelta(minutes=5)}
    assert standing((first,), subjects().values(), mended, frozenset()).void["gap:df-top-left"][1] is Void.MENDED
    second = reading(2, "gap:df-top-left", "4.4", 9)
    assert standing((first, second), subjects().values(), mended, frozenset()).counts["gap:df-top-left"] is second

"""Inspections from the serial: readings that only grow, gauges, verdicts and who signs them, primer and its day."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from app.domain.errors import (
    BadInput,
    CoatUninspected,
    InspectionLacks,
    MayNotSign,
    NotFound,
    NotYetInspected,
    SecondNeeded,
    ShellStands,
    SignedWithVerdict,
    UnknownNames,
)
from app.domain.floor.shell import Deed, ShellState
from app.domain.inspection.inspection import GaugeSort, Verdict, Void
from app.services.floor import building, conceding, overseeing, reworking, welding
from app.services.floor.conceding import Asked
from app.services.floor.reworking import Mended
from app.services.floor.signing import Signature
from app.services.inspection import inspecting, measuring, overcoating, passing, photographing_subjects
from app.services.inspection.inspecting import Inspection
from app.services.inspection.passing import Said
from app.store.inspections import Taken
from rules.inspection.judging import Mark
from rules.inspection.subject import Phase
from tests.app import inspected
from tests.app.desk import MANAGER, S3_ROADSTER, Desk
from tests.app.test_building import CHEAP, CODES, INSPECTOR, LEAD, serial_of, shells, sign
from tests.app.test_building import workshop as workshop
from tests.app.test_confirming import LATER, confirmed_order
from tests.documents.test_photograph import file

PAINTED = {"finish": "painted", "scope": "outside", "colour": "chalk", "primer": "epoxy-and-filler"}
BEFORE = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap")
METAL, COATED = Phase.METAL, Phase.COATED
SOON = LATER + timedelta(minutes=30)


def signature(who: str = "oona") -> Signature:
    return Signature(who, CODES[who], "10.0.0.1", CHEAP)


def at_inspection(desk: Desk, own: dict[str, str] | None = None) -> int:
    """A shell that has come to its inspection."""
    (shell,) = shells(desk, confirmed_order(desk, {**S3_ROADSTER, **(own or {})}))
    building.release(desk.store, LEAD, shell, LATER)
    for stage in BEFORE:
        sign(desk, shell, stage)
    return shell


@pytest.fixture
def shell(workshop: Desk) -> int:
    return at_inspection(workshop)


def opened(desk: Desk, shell: int, now=LATER) -> Inspection:  # type: ignore[no-untyped-def]
    return inspecting.inspection(desk.store, INSPECTOR, shell, now)


def decide(desk: Desk, shell: int, verdict: Verdict, phase: Phase = METAL, now=SOON, **more) -> None:  # type: ignore[no-untyped-def]
    said = Said(phase, verdict, more.pop("why", ""), more.pop("stage", ""))
    passing.decide(desk.store, INSPECTOR, shell, said, more.pop("by", signature()), now, **more)


def lacks(desk: Desk, shell: int, verdict: Verdict = Verdict.PASS, phase: Phase = METAL) -> dict[str, int]:
    with pytest.raises(InspectionLacks) as refused:
        decide(desk, shell, verdict, phase, why="Because.", stage="framing")
    return {fault.path: fault.facts["count"] for fault in refused.value.faults}


def test_a_shell_is_opened_from_its_serial_with_everything_still_to_be_read(workshop: Desk, shell: int) -> None:
    one = opened(workshop, shell)
    metal = one.looked[METAL]
    # of the demo's home S3 roadster: features, welds with nugget, spacing, overlap and seams, datums, gaps and flush,
    # holes, threads, surface
    assert len(metal.unread) == len([each for each in one.subjects if each.phase is METAL]) == 195
    assert lacks(workshop, shell) == {"unread": 195}
    found = inspecting.by_serial(workshop.store, INSPECTOR, f" {serial_of(workshop, shell).lower()}", LATER)
    assert found.found.shell.id == shell
    with pytest.raises(NotFound):
        inspecting.by_serial(workshop.store, INSPECTOR, "S-2026-09999", LATER)


def test_the_inspection_is_signed_with_its_verdict_and_no_other_way(workshop: Desk, shell: int) -> None:
    key = opened(workshop, shell).found.shell.id
    with pytest.raises(SignedWithVerdict):
        building.sign_stage(workshop.store, LEAD, key, Deed.DONE, "inspection", signature(), LATER)
    inspected.read_all(workshop.store, shell, LATER)
    with pytest.raises(MayNotSign):
        decide(workshop, shell, Verdict.PASS, by=signature("idris"))
    decide(workshop, shell, Verdict.PASS)
    found = overseeing.shell(workshop.store, LEAD, key, SOON)
    assert (found.shell.state, found.shell.deeds[-1].signed) == (ShellState.INSPECTED, "oona")
    assert opened(workshop, shell).passed(METAL) is not None


def test_one_blank_keeps_it_from_passing(workshop: Desk, shell: int) -> None:
    inspected.read_all(workshop.store, shell, LATER, without=("surface",))
    assert lacks(workshop, shell) == {"unread": 1}
    assert lacks(workshop, shell, Verdict.CONCESSION) == {"unread": 1, "not-conceded": 0}
    inspected.read(workshop.store, shell, {"surface": "no"}, LATER)
    assert lacks(workshop, shell) == {"failed": 1}


def concede(desk: Desk, shell: int, about: str, now=LATER) -> None:  # type: ignore[no-untyped-def]
    key = opened(desk, shell).found.shell.id
    asked = conceding.ask(desk.store, INSPECTOR, key, Asked(about, "It shows nowhere."), now)
    conceding.answer(desk.store, MANAGER, key, asked, True, "Looked at it.", now)


def test_a_fail_passes_by_a_granted_concession_alone_and_only_for_what_was_measured_by_then(
    workshop: Desk, shell: int
) -> None:
    inspected.read_all(workshop.store, shell, LATER, but={"datum:rails": "1042"})
    assert lacks(workshop, shell) == {"failed": 1}
    concede(workshop, shell, "datum:rails")
    assert lacks(workshop, shell) == {"conceded": 1}
    later = LATER + timedelta(minutes=5)
    inspected.read(workshop.store, shell, {"datum:rails": "1043"}, later)
    assert lacks(workshop, shell, Verdict.CONCESSION) == {"failed": 1, "outgrown": 1}
    concede(workshop, shell, "datum:rails", later)
    decide(workshop, shell, Verdict.CONCESSION, why="Conceded by the manager.")
    passed = opened(workshop, shell).passed(METAL)
    assert passed is not None
    assert passed.verdict is Verdict.CONCESSION


def test_case_29_a_door_that_tapers_fails_and_is_conceded_as_a_whole_gap(workshop: Desk, shell: int) -> None:
    door = {"gap:df-top-left": "3.6", "gap:df-bottom-left": "4.7", "gap:df-top-right": "4.6",
            "gap:df-bottom-right": "4.6"}  # fmt: skip
    one = inspected.read_all(workshop.store, shell, LATER, but=door)
    assert one.looked[METAL].failed == ("taper:df-top-left+df-bottom-left",)
    assert lacks(workshop, shell) == {"failed": 1}
    concede(workshop, shell, "gap:door-front")
    decide(workshop, shell, Verdict.CONCESSION, why="Evened out in paint.")


def test_what_failed_is_sent_back_mended_and_read_again(workshop: Desk, shell: int) -> None:
    inspected.read_all(workshop.store, shell, LATER, but={"nugget:z-wing-left": "3.2", "overlap:z-wing-left": "12"})
    decide(workshop, shell, Verdict.REWORK, now=LATER, why="Weld it once more.", stage="skinning")
    one = opened(workshop, shell)
    assert [str(each.subject) for each in one.reworks] == ["weld:z-wing-left"]
    rework = one.reworks[0].id
    mended = LATER + timedelta(minutes=10)
    reworking.mend(workshop.store, LEAD, one.found.shell.id, rework, Mended(), signature("idris"), mended)
    again = opened(workshop, shell, mended)
    assert set(again.looked[METAL].unread) == {
        f"{kind}:z-wing-left" for kind in ("weld", "nugget", "spacing", "overlap")
    }
    assert {why for _, why in again.standing.void.values()} == {Void.MENDED}
    inspected.passed(workshop.store, shell, signature(), SOON)


def test_rework_needs_something_that_failed_and_a_rejection_ends_the_shell(workshop: Desk, shell: int) -> None:
    assert lacks(workshop, shell, Verdict.REWORK) == {"nothing-failed": 0}
    with pytest.raises(BadInput):
        decide(workshop, shell, Verdict.REJECT)
    decide(workshop, shell, Verdict.REJECT, why="The sill is torn.")
    assert opened(workshop, shell).found.shell.state is ShellState.REJECTED


def test_case_29_an_inspector_who_welded_signs_with_a_second_who_did_not(workshop: Desk, shell: int) -> None:
    key = opened(workshop, shell).found.shell.id
    welding.sign_zones(workshop.store, LEAD, key, ["z-sills"], signature("oona"), LATER)
    inspected.read_all(workshop.store, shell, LATER)
    with pytest.raises(SecondNeeded):
        decide(workshop, shell, Verdict.PASS)
    with pytest.raises(SecondNeeded):
        decide(workshop, shell, Verdict.PASS, second=signature("oona"))
    with pytest.raises(MayNotSign):
        decide(workshop, shell, Verdict.PASS, second=signature("idris"))
    decide(workshop, shell, Verdict.PASS, second=signature("tomasz"))
    passed = opened(workshop, shell).passed(METAL)
    assert passed is not None
    assert (passed.signed, passed.second) == ("oona", "tomasz")


def taken(desk: Desk, shell: int, subject: str, value: str, sort: GaugeSort | None, **more) -> Taken:  # type: ignore[no-untyped-def]
    gauge = inspected.gauges(desk.store, LATER)[sort] if sort else None
    return replace(Taken(f"key-{subject}-{value}", subject, value, "mm", gauge, LATER), **more)


def test_a_tablet_that_sends_its_queue_twice_is_heard_once(workshop: Desk, shell: int) -> None:
    queue = [taken(workshop, shell, "gap:df-top-left", "4.4", GaugeSort.FEELER)]
    for _ in range(2):
        measuring.take(workshop.store, INSPECTOR, shell, queue, LATER)
    assert [one.value for one in opened(workshop, shell).readings] == ["4.4"]


def test_two_tablets_that_read_one_point_are_both_kept_and_the_later_reading_counts(workshop: Desk, shell: int) -> None:
    late = taken(workshop, shell, "gap:df-top-left", "4.4", GaugeSort.FEELER, at=SOON)
    early = taken(workshop, shell, "gap:df-top-left", "4.9", GaugeSort.FEELER)
    for one in (late, early):
        measuring.take(workshop.store, INSPECTOR, shell, [one], SOON)
    found = opened(workshop, shell, SOON)
    assert [one.value for one in found.readings] == ["4.4", "4.9"]
    assert found.standing.counts["gap:df-top-left"].value == "4.4"


#: A reading, and what is wrong with it.
NONE: list[tuple[tuple[str, str, GaugeSort | None], dict[str, Any], str, str]] = [
    (("gap:nowhere", "4.4", GaugeSort.FEELER), {}, "subject", "unknown-subject"),
    (("gap:df-top-left", "four", GaugeSort.FEELER), {}, "value", "not-read-measure"),
    (("gap:df-top-left", "4.4", GaugeSort.FEELER), {"unit": "in"}, "unit", "not-one-of"),
    (("gap:df-top-left", "4.4", None), {}, "gauge", "gauge-needed"),
    (("gap:df-top-left", "4.4", GaugeSort.FILM), {}, "gauge", "gauge-unfit"),
    (("surface", "yes", GaugeSort.FILM), {"unit": ""}, "gauge", "gauge-unfit"),
    (("gap:df-top-left", "4.4", GaugeSort.FEELER), {"at": LATER + timedelta(hours=2)}, "at", "not-when-taken"),
    (("gap:df-top-left", "4.4", GaugeSort.FEELER), {"at": LATER - timedelta(days=9)}, "at", "not-when-taken"),
]


def test_a_reading_that_is_none_is_refused_with_its_place_and_none_of_its_queue_is_kept(
    workshop: Desk, shell: int
) -> None:
    good = taken(workshop, shell, "gap:df-top-right", "4.4", GaugeSort.FEELER)
    for said, more, path, code in NONE:
        with pytest.raises((BadInput, UnknownNames)) as refused:
            measuring.take(workshop.store, INSPECTOR, shell, [good, taken(workshop, shell, *said, **more)], LATER)
        assert [(fault.path, fault.code) for fault in refused.value.faults] == [(f"readings.1.{path}", code)]
    assert opened(workshop, shell).readings == ()


def test_a_gauge_out_of_date_is_kept_with_the_reading_which_does_not_count(workshop: Desk, shell: int) -> None:
    span = inspected.calibrated(LATER)
    old = measuring.calibrate(workshop.store, INSPECTOR, "F-07", GaugeSort.FEELER, span, LATER)
    one = replace(taken(workshop, shell, "gap:df-top-left", "4.4", GaugeSort.FEELER), gauge=old)
    measuring.take(workshop.store, INSPECTOR, shell, [one], LATER)
    found = opened(workshop, shell)
    assert "gap:df-top-left" in found.looked[METAL].unread
    assert found.standing.void["gap:df-top-left"][1] is Void.GAUGE
    # calibrated anew it is another calibration under the same mark, and what was read before stays void
    fresh = (LATER.date(), LATER.date() + timedelta(days=365))
    measuring.calibrate(workshop.store, INSPECTOR, "F-07", GaugeSort.FEELER, fresh, LATER)
    assert opened(workshop, shell).standing.void["gap:df-top-left"][0].gauge.due == span[1]  # type: ignore[union-attr]
    assert [gauge.due for gauge in measuring.gauges(workshop.store) if gauge.mark == "F-07"] == [fresh[1]]
    with pytest.raises(BadInput):
        measuring.calibrate(workshop.store, INSPECTOR, "F-07", GaugeSort.FILM, fresh, LATER)


def test_readings_and_verdicts_only_grow(workshop: Desk, shell: int) -> None:
    inspected.passed(workshop.store, shell, signature(), LATER)
    for table in ("readings", "verdicts", "gauges"):
        with pytest.raises(sqlite3.IntegrityError), workshop.store.writing() as db:
            db.execute(f"DELETE FROM {table}")


def test_a_painted_shell_is_looked_at_again_in_its_paint_and_a_film_of_320_is_conceded(workshop: Desk) -> None:
    shell = at_inspection(workshop, PAINTED)
    inspected.read_all(workshop.store, shell, LATER, COATED)
    with pytest.raises(NotYetInspected):
        decide(workshop, shell, Verdict.PASS, COATED)
    inspected.passed(workshop.store, shell, signature(), LATER)
    with pytest.raises(ShellStands) as unpainted:
        decide(workshop, shell, Verdict.PASS, COATED)
    assert unpainted.value.facts["why"] == "not-begun"
    sign(workshop, shell, "paint", "tomasz", deed=Deed.BEGUN)
    inspected.read(workshop.store, shell, {"film:bonnet": "320"}, LATER + timedelta(minutes=5))
    found = opened(workshop, shell, SOON).looked[COATED]
    assert found.failed == ("film:bonnet",)
    # every painted gap and flush is read again
    assert len(found.unread) == len([one for one in found.judged if "painted" in one.subject.kind.value]) == 60
    inspected.read_all(workshop.store, shell, SOON, COATED)
    concede(workshop, shell, "film:bonnet", SOON)
    with pytest.raises(CoatUninspected):
        paint_done(workshop, shell)
    decide(workshop, shell, Verdict.CONCESSION, COATED, why="The customer was told.")
    assert opened(workshop, shell, SOON).passed(COATED) is not None
    paint_done(workshop, shell)


def paint_done(desk: Desk, shell: int) -> None:
    building.sign_stage(desk.store, LEAD, shell, Deed.DONE, "paint", signature("idris"), SOON)


def test_rework_of_the_paint_undoes_the_verdict_on_the_coat_and_not_the_one_in_metal(workshop: Desk) -> None:
    shell = at_inspection(workshop, PAINTED)
    inspected.passed(workshop.store, shell, signature(), LATER)
    sign(workshop, shell, "paint", "tomasz", deed=Deed.BEGUN)
    inspected.read_all(workshop.store, shell, LATER, COATED, but={"film:bonnet": "320"})
    decide(workshop, shell, Verdict.REWORK, COATED, now=LATER, why="Sand it back.", stage="paint")
    (rework,) = opened(workshop, shell).reworks
    # sent back once more it is the same rework, and nothing passes over it
    decide(workshop, shell, Verdict.REWORK, COATED, now=LATER, why="Still.", stage="paint")
    assert opened(workshop, shell).reworks == (rework,)
    concede(workshop, shell, "film:bonnet")
    inspected.read_all(workshop.store, shell, LATER, COATED)
    with pytest.raises(ShellStands):
        decide(workshop, shell, Verdict.CONCESSION, COATED, now=LATER, why="Enough.")
    mended = LATER + timedelta(minutes=10)
    reworking.mend(workshop.store, LEAD, shell, rework.id, Mended(), signature("idris"), mended)
    # the film first, and then every gap that was read before it was right
    for _ in range(2):
        inspected.read_all(workshop.store, shell, SOON, COATED)
    assert [opened(workshop, shell, SOON).passed(phase) is not None for phase in (METAL, COATED)] == [True, False]
    with pytest.raises(CoatUninspected):
        paint_done(workshop, shell)
    decide(workshop, shell, Verdict.PASS, COATED)
    assert opened(workshop, shell, SOON).passed(COATED) is not None


def test_a_metal_gap_that_paint_would_close_fails_before_it_is_painted(workshop: Desk) -> None:
    shell = at_inspection(workshop, PAINTED)
    # metal 5.0 ± 1.0 paints to 5.0 ± 1.0: 4.1 is within in metal, and 3.70 to 3.86 in paint
    near = dict.fromkeys(("gap:bs-left", "gap:bs-right", "gap:bs-middle"), "4.1")
    one = inspected.read_all(workshop.store, shell, LATER, but=near)
    assert one.looked[METAL].failed == tuple(f"predicted:bs-{where}" for where in ("left", "right", "middle"))
    assert {each.mark for each in one.looked[METAL].judged} == {Mark.WITHIN}


def test_case_29_primer_past_its_day_leaves_neither_as_it_is_nor_without_words(workshop: Desk, shell: int) -> None:
    inspected.passed(workshop.store, shell, signature(), LATER)
    inspected.read_all(workshop.store, shell, LATER, COATED)
    assert lacks(workshop, shell, phase=COATED) == {"undated": 0}
    overcoating.primed(workshop.store, INSPECTOR, shell, LATER.date(), LATER)
    decide(workshop, shell, Verdict.PASS, COATED)
    # dip primer: sixty days by the demo's book
    last, past = LATER + timedelta(days=60), LATER + timedelta(days=61)
    assert [stops(workshop, shell, at) for at in (last, past)] == [False, True]
    with pytest.raises(ShellStands):
        overcoating.acknowledge(workshop.store, INSPECTOR, shell, "Agnes", "I know.", last)
    overcoating.acknowledge(workshop.store, INSPECTOR, shell, "Agnes", "I prepare it myself.", past)
    assert not stops(workshop, shell, past)
    # prepared anew it has a day of its own again
    overcoating.primed(workshop.store, INSPECTOR, shell, past.date(), past)
    assert [stops(workshop, shell, past + timedelta(days=days)) for days in (60, 61)] == [False, True]


def stops(desk: Desk, shell: int, now) -> bool:  # type: ignore[no-untyped-def]
    overcoat = opened(desk, shell, now).overcoat
    assert overcoat is not None
    return overcoat.stops(now.date())


def test_those_that_wait_are_at_their_inspection_or_past_it_and_in_the_house(workshop: Desk, shell: int) -> None:
    (other,) = shells(workshop, confirmed_order(workshop))
    building.release(workshop.store, LEAD, other, LATER)
    assert [one.found.shell.id for one in inspecting.waiting(workshop.store, LATER)] == [shell]
    inspected.passed(workshop.store, shell, signature(), LATER)
    assert [one.found.shell.id for one in inspecting.waiting(workshop.store, LATER)] == [shell]
    decide(workshop, shell, Verdict.REJECT, COATED, why="Dropped.")
    assert inspecting.waiting(workshop.store, LATER) == ()


def test_a_photograph_hangs_on_its_point_and_on_no_other(workshop: Desk, shell: int) -> None:
    taken = file("PNG", (40, 30))
    made = photographing_subjects.add(workshop.store, INSPECTOR, shell, "surface", "", taken, LATER)
    assert [(one.id, one.subject, one.by) for one in opened(workshop, shell).photographs] == [(made, "surface", "oona")]
    jpeg = photographing_subjects.content(workshop.store, INSPECTOR, shell, made, LATER, small=True)
    assert jpeg.startswith(b"\xff\xd8")
    with pytest.raises(UnknownNames):
        photographing_subjects.add(workshop.store, INSPECTOR, shell, "gap:nowhere", "", taken, LATER)
    with pytest.raises(BadInput):
        photographing_subjects.add(workshop.store, INSPECTOR, shell, "surface", "", b"%PDF-1.7", LATER)
    with pytest.raises(NotFound):
        photographing_subjects.content(workshop.store, INSPECTOR, shell, made + 1, LATER, small=True)

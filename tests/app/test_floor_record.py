"""What the floor writes down of a shell: who welded which zone, concessions by another person, rework."""

from __future__ import annotations

import sqlite3
from datetime import timedelta

import pytest

from app.domain.asking.people import Person, Role
from app.domain.errors import (
    BadInput,
    ConcessionAnswered,
    ConcessionStands,
    NotFound,
    OwnConcession,
    ShellStands,
    UnknownNames,
    WeldsUnsigned,
)
from app.domain.floor.shell import Barred, Deed, ShellState, barred, progress
from app.domain.inspection.concession import ConcessionAnswer, granted_for, holding
from app.domain.inspection.subject import Subject, subject
from app.services.floor import building, conceding, finding, overseeing, reworking, welding
from app.services.floor.conceding import Asked
from app.services.floor.reworking import Mended
from app.services.floor.signing import Signature
from app.services.orders import ordering
from app.store import concessions, rework, welds
from tests.app.desk import CLERK, MANAGER, Desk
from tests.app.test_building import (
    BUILT,
    CHEAP,
    CODES,
    INSPECTOR,
    LEAD,
    LOOKED,
    ROUTE,
    SPRAYED,
    D,
    H,
    R,
    X,
    deeds,
    shells,
    sign,
    weld,
)
from tests.app.test_building import workshop as workshop
from tests.app.test_confirming import LATER, confirmed_order

SECOND = Person("maren", "Maren Tolley", Role.MANAGER)
S, M, W = Deed.SENT_BACK, Deed.MENDED, Deed.WITHDRAWN
BEFORE_INSPECTION = ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap")


def signature(who: str) -> Signature:
    return Signature(who, CODES[who], "10.0.0.1", CHEAP)


@pytest.fixture
def shell(workshop: Desk) -> int:
    """Released, nothing done."""
    (found,) = shells(workshop, confirmed_order(workshop))
    building.release(workshop.store, LEAD, found, LATER)
    return found


def stands(desk: Desk, shell: int) -> overseeing.OnFloor:
    return overseeing.shell(desk.store, LEAD, shell, LATER)


def test_a_stage_is_done_once_each_of_its_zones_has_its_welder(workshop: Desk, shell: int) -> None:
    with pytest.raises(WeldsUnsigned) as refused:
        building.sign_stage(workshop.store, LEAD, shell, D, "sub-assembly", signature("idris"), LATER)
    # by the demo's book, of an S3 home roadster
    zones = "floor tunnel-wide bulkhead-right front-inner turrets-low hangers rails well"
    assert {fault.path for fault in refused.value.faults} == {f"zones.z-{zone}" for zone in zones.split()}
    assert set(weld(workshop, shell, "sub-assembly")) == {fault.path[6:] for fault in refused.value.faults}
    building.sign_stage(workshop.store, LEAD, shell, D, "sub-assembly", signature("idris"), LATER)
    told = ordering.order(workshop.store, CLERK, stands(workshop, shell).order.number, LATER).history
    assert [entry.what for entry in told[-2:]] == ["shell-welded", "shell-stage-done"]


def test_two_may_have_welded_one_zone_and_the_inspector_is_one_of_them(workshop: Desk, shell: int) -> None:
    for who in ("idris", "oona"):
        welding.sign_zones(workshop.store, LEAD, shell, ["z-floor"], signature(who), LATER)
    with workshop.store.reading() as db:
        assert dict(welds.welders(db, shell)) == {"z-floor": ("idris", "oona")}


#: Zones, days from today, and what is wrong with signing for them.
CANNOT_SIGN: list[tuple[list[str], int, tuple[str, str]]] = [
    ([], 0, ("zones", "required")),
    (["z-floor", "z-floor"], 0, ("zones.1", "duplicate")),
    # of the stage after it
    (["z-scuttle"], 0, ("zones.0", "zone-ahead")),
    (["z-rails"], 0, ("zones.0", "zone-signed")),
    (["z-floor"], 1, ("day", "in-the-future")),
    (["z-floor"], -1, ("day", "before-release")),
]


def test_what_a_welder_cannot_sign_for(workshop: Desk, shell: int) -> None:
    welding.sign_zones(workshop.store, LEAD, shell, ["z-rails"], signature("idris"), LATER)
    for zones, days, fault in CANNOT_SIGN:
        day = LATER.date() + timedelta(days=days)
        with pytest.raises(BadInput) as refused:
            welding.sign_zones(workshop.store, LEAD, shell, zones, signature("idris"), LATER, day=day)
        assert [(one.path, one.code) for one in refused.value.faults] == [fault]


def test_a_zone_of_another_shell_is_not_known_and_nothing_of_the_signing_is_kept(workshop: Desk, shell: int) -> None:
    with pytest.raises(UnknownNames):
        welding.sign_zones(workshop.store, LEAD, shell, ["z-floor", "z-roof"], signature("idris"), LATER)
    assert all(not zone.welds for zone in stands(workshop, shell).zones)


def test_nobody_welds_a_shell_on_hold(workshop: Desk, shell: int) -> None:
    building.say(workshop.store, LEAD, shell, H, "A pressing is short.", LATER)
    with pytest.raises(ShellStands):
        weld(workshop, shell, "sub-assembly")


GAP = Asked("gap:door-left-front-top", "Too wide at the top; the customer has agreed.", "5.6 mm", "5.5 mm")


def point(desk: Desk, shell: int) -> str:
    """A point at which the shell is measured."""
    with desk.store.reading() as db:
        work = finding.work(finding.found_shell(desk.store, db, LEAD, shell, LATER))
    return work.gaps[0].points[0].id


def ask(desk: Desk, shell: int, who: Person = INSPECTOR) -> int:
    asked = Asked(f"gap:{point(desk, shell)}", GAP.why, GAP.measured, GAP.limit)
    return conceding.ask(desk.store, who, shell, asked, LATER)


def answer(desk: Desk, shell: int, concession: int, granted: bool, who: Person = MANAGER, days: int = 0) -> None:
    at = LATER + timedelta(days=days)
    conceding.answer(desk.store, who, shell, concession, granted, "He has seen it.", at)


def test_a_concession_is_asked_for_with_what_was_measured_and_granted_by_another(workshop: Desk, shell: int) -> None:
    asked = ask(workshop, shell, MANAGER)
    with pytest.raises(OwnConcession):
        answer(workshop, shell, asked, granted=True)
    with pytest.raises(ConcessionStands):
        ask(workshop, shell)
    assert [one.id for one, _ in conceding.waiting(workshop.store, MANAGER, LATER)] == [asked]
    answer(workshop, shell, asked, granted=True, who=SECOND)
    with pytest.raises(ConcessionAnswered):
        answer(workshop, shell, asked, granted=False, who=SECOND)
    (one,) = stands(workshop, shell).concessions
    assert (one.measured, one.limit, one.asked_by) == ("5.6 mm", "5.5 mm", "piers")
    assert one.answer == ConcessionAnswer(True, "He has seen it.", LATER.date(), "maren", LATER)
    assert conceding.waiting(workshop.store, MANAGER, LATER) == ()


def test_the_last_answer_about_one_thing_counts_and_about_that_thing_alone(workshop: Desk, shell: int) -> None:
    answer(workshop, shell, ask(workshop, shell), granted=True)
    found = stands(workshop, shell).concessions
    about = found[0].subject
    assert granted_for(found, about) == found[0]
    assert holding(found) == found
    assert granted_for(found, Subject(about.about, "another-point")) is None
    answer(workshop, shell, ask(workshop, shell), granted=False, days=1)
    assert granted_for(stands(workshop, shell).concessions, about) is None
    assert holding(stands(workshop, shell).concessions) == ()


def test_the_file_itself_takes_no_answer_by_who_asked_and_changes_none(workshop: Desk, shell: int) -> None:
    asked = ask(workshop, shell)
    own = ConcessionAnswer(True, "Fine.", LATER.date(), INSPECTOR.name, LATER)
    with pytest.raises(sqlite3.IntegrityError, match="by another"), workshop.store.writing() as db:
        concessions.answer(db, asked, own)
    for table in ("welds", "concessions", "concession_answers", "rework", "rework_ends"):
        with workshop.store.reading() as db:
            guards = db.execute("SELECT count(*) FROM sqlite_master WHERE name LIKE ?", [f"{table}_no_%"]).fetchone()
        assert guards[0] == 2


def test_a_concession_is_about_something_that_this_shell_has(workshop: Desk, shell: int) -> None:
    for about in ("gap", "gap:", "gap:nowhere", "weld:z-roof", "price:1", "", "hole:none"):
        with pytest.raises(UnknownNames):
            conceding.ask(workshop.store, INSPECTOR, shell, Asked(about, "It is so."), LATER)
    for about in ("weld:z-floor", "film", "surface:bonnet", "kit:bonnet-pressing", "feature:hand"):
        assert str(subject(about)) == about
        conceding.ask(workshop.store, INSPECTOR, shell, Asked(about, "It is so."), LATER)


def test_of_a_rejected_shell_nothing_is_conceded_any_more(workshop: Desk, shell: int) -> None:
    ask(workshop, shell)
    building.say(workshop.store, INSPECTOR, shell, X, "The sill is torn.", LATER)
    assert conceding.waiting(workshop.store, MANAGER, LATER) == ()
    with pytest.raises(ShellStands):
        conceding.ask(workshop.store, INSPECTOR, shell, Asked("film", "Too thick."), LATER)


@pytest.mark.parametrize(
    ("said", "state", "stage"),
    [
        # where it is sent, it is, however far it was
        ((*BUILT, (S, "jig")), ShellState.IN_BUILD, "jig"),
        ((*LOOKED, (S, "skins")), ShellState.IN_BUILD, "skins"),
        ((*SPRAYED, (D, "pack"), (S, "pack")), ShellState.IN_PAINT, "pack"),
        # mended before the inspection it goes on where it was, and mended after it is looked at again
        ((*BUILT, (S, "jig"), (M, "jig")), ShellState.IN_BUILD, "look"),
        ((*LOOKED, (S, "jig"), (M, "jig")), ShellState.IN_BUILD, "look"),
        ((*LOOKED, (S, "jig"), (M, "jig"), (D, "look")), ShellState.INSPECTED, "spray"),
        ((*SPRAYED, (S, "skins"), (M, "skins")), ShellState.IN_PAINT, "look"),
        # a run in the paint is no matter of the metal
        ((*SPRAYED, (S, "spray"), (M, "spray")), ShellState.IN_PAINT, "pack"),
        ((*LOOKED, (S, "jig"), (W, "jig")), ShellState.INSPECTED, "spray"),
        # two at one stage are two
        ((*LOOKED, (S, "jig"), (S, "jig"), (M, "jig")), ShellState.IN_BUILD, "jig"),
        ((*BUILT, (S, "skins"), (S, "jig")), ShellState.IN_BUILD, "jig"),
    ],
)
def test_how_a_shell_with_rework_stands(said: tuple, state: ShellState, stage: str) -> None:
    found = progress(deeds(*said), ROUTE)
    assert (found.state, found.stage) == (state, stage)


@pytest.mark.parametrize(
    ("deed", "stage", "said", "why"),
    [
        (D, "look", (*BUILT, (S, "jig")), Barred.IN_REWORK),
        (D, "look", (*BUILT, (S, "jig"), (M, "jig")), None),
        (S, "look", BUILT, None),
        (S, "spray", BUILT, Barred.NOT_COME),
        (S, "jig", (), Barred.PLANNED),
        (S, "jig", (R, X), Barred.OVER),
        (M, "jig", BUILT, Barred.MENDED),
        (M, "jig", (*BUILT, (S, "jig"), H), Barred.ON_HOLD),
        (W, "jig", (*BUILT, (S, "jig"), H), None),
    ],
)
def test_what_rework_bars(deed: Deed, stage: str, said: tuple, why: Barred | None) -> None:
    assert barred(deed, stage, deeds(*said), ROUTE) is why


def test_a_shell_sent_back_after_its_inspection_is_mended_under_a_code_and_inspected_again(
    workshop: Desk, shell: int
) -> None:
    for stage in BEFORE_INSPECTION:
        sign(workshop, shell, stage)
    sign(workshop, shell, "inspection", "oona")
    asked = reworking.send_back(
        workshop.store, INSPECTOR, shell, "weld:z-sills", "One spot is cold.", "rollover", LATER
    )
    with pytest.raises(ShellStands):
        sign(workshop, shell, "preparation")
    assert ordering.order(workshop.store, CLERK, stands(workshop, shell).order.number, LATER).state is (
        ShellState.IN_BUILD
    )
    mended = Mended(45, "Welded again.")
    reworking.mend(workshop.store, LEAD, shell, asked, mended, signature("idris"), LATER)
    with pytest.raises(ShellStands):
        reworking.mend(workshop.store, LEAD, shell, asked, mended, signature("idris"), LATER)
    sign(workshop, shell, "inspection", "oona")
    assert stands(workshop, shell).shell.state is ShellState.INSPECTED
    with workshop.store.reading() as db:
        (one,) = rework.of_shell(db, shell)
    assert one.end is not None
    assert (one.found_by, one.stage, one.end.by, one.end.minutes) == ("oona", "rollover", "idris", 45)


def test_rework_that_a_concession_took_the_place_of_is_withdrawn_with_the_reason(workshop: Desk, shell: int) -> None:
    sign(workshop, shell, "sub-assembly")
    asked = reworking.send_back(workshop.store, LEAD, shell, "surface", "A dent.", "sub-assembly", LATER)
    with pytest.raises(NotFound):
        reworking.withdraw(workshop.store, INSPECTOR, shell, asked + 1, "Conceded.", LATER)
    reworking.withdraw(workshop.store, INSPECTOR, shell, asked, "Conceded.", LATER)
    sign(workshop, shell, "framing")
    history = ordering.order(workshop.store, CLERK, stands(workshop, shell).order.number, LATER).history
    told = [entry for entry in history if "rework" in entry.what]
    assert [(entry.what, entry.facts["why"]) for entry in told] == [("shell-rework-withdrawn", "Conceded.")]

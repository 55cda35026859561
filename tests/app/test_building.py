"""Shells in the workshop: a serial at release, stages signed in the route's order, holds, replacements."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest
from argon2 import PasswordHasher

from app import calendar
from app.domain.asking.people import Person, Role
from app.domain.errors import (
    CoatUninspected,
    CodeRefused,
    MayNotSign,
    NotConfirmed,
    ShellStands,
    ShellStopped,
    SlowDown,
)
from app.domain.floor.shell import Barred, Deed, Done, ShellState, Stop, barred, points, progress
from app.services.books import consequences, tools
from app.services.floor import building, kitting, overseeing, signing, welding
from app.services.floor.signing import Signature
from app.services.inspection import inspecting, measuring, recording
from app.services.orders import ordering
from app.services.people import signing_in
from app.services.planning import promising
from app.store import slots
from rules.inspection.subject import Phase
from rules.model import ToolCondition, Work
from tests.app import inspected
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_confirming import LATER, accepted, confirmed_order

LEAD = Person("tomasz", "Tomasz Brandl", Role.LEAD)
WELDER = Person("idris", "Idris Vale", Role.WELDER)
INSPECTOR = Person("oona", "Oona Reyes", Role.INSPECTOR)
CHEAP = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
CODES = {"tomasz": "1111", "idris": "2222", "oona": "3333"}

ROUTE = (Stop("jig"), Stop("skins"), Stop("look", Work.INSPECTION), Stop("spray", Work.PAINT), Stop("pack"),
         Stop("spare", Work.NONE))  # fmt: skip
R, B, D, H, G, X, C = (Deed.RELEASED, Deed.BEGUN, Deed.DONE, Deed.HELD, Deed.WENT_ON, Deed.REJECTED, Deed.CANCELLED)


def deeds(*said: tuple[Deed, str | None] | Deed) -> tuple[Done, ...]:
    pairs = [one if isinstance(one, tuple) else (one, None) for one in said]
    return tuple(Done(deed, LATER, "tomasz", stage) for deed, stage in pairs)


BUILT = (R, (D, "jig"), (D, "skins"))
LOOKED = (*BUILT, (D, "look"))
SPRAYED = (*LOOKED, (B, "spray"), (D, "spray"))
PACKED = (*SPRAYED, (D, "pack"))
L = Deed.DESPATCHED


@pytest.mark.parametrize(
    ("said", "state", "stage"),
    [
        ((), ShellState.PLANNED, None),
        ((R,), ShellState.RELEASED, "jig"),
        ((R, (D, "jig")), ShellState.IN_BUILD, "skins"),
        (BUILT, ShellState.IN_BUILD, "look"),
        # through inspection, and nobody has begun to paint it
        (LOOKED, ShellState.INSPECTED, "spray"),
        ((*LOOKED, (B, "spray")), ShellState.IN_PAINT, "spray"),
        (SPRAYED, ShellState.IN_PAINT, "pack"),
        # days on which nobody works are waited for by nobody
        (PACKED, ShellState.READY, None),
        ((*PACKED, L), ShellState.DESPATCHED, None),
        ((R, H), ShellState.ON_HOLD, "jig"),
        ((R, H, G), ShellState.RELEASED, "jig"),
        ((R, H, G, H), ShellState.ON_HOLD, "jig"),
        ((*BUILT, X), ShellState.REJECTED, "look"),
        ((C,), ShellState.CANCELLED, "jig"),
    ],
)
def test_how_a_shell_stands_is_read_off_what_was_done(said: tuple, state: ShellState, stage: str | None) -> None:
    stands = progress(deeds(*said), ROUTE)
    assert (stands.state, stands.stage) == (state, stage)


@pytest.mark.parametrize(
    ("deed", "stage", "said", "why"),
    [
        (R, None, (), None),
        (R, None, (R,), Barred.RELEASED),
        (D, "jig", (), Barred.PLANNED),
        (D, "jig", (R,), None),
        (D, "skins", (R,), Barred.NOT_NEXT),
        (D, "jig", (R, (D, "jig")), Barred.NOT_NEXT),
        (D, "jig", (R, H), Barred.ON_HOLD),
        # paint is begun by somebody's word, and nothing else is
        (B, "jig", (R,), Barred.NOT_NEXT),
        (D, "spray", LOOKED, Barred.NOT_BEGUN),
        (B, "spray", LOOKED, None),
        (B, "spray", (*LOOKED, (B, "spray")), Barred.NOT_NEXT),
        (D, "spray", (*LOOKED, (B, "spray")), None),
        (D, "pack", (*SPRAYED, (D, "pack")), Barred.READY),
        (H, None, (), Barred.PLANNED),
        (H, None, (R, H), Barred.ON_HOLD),
        (G, None, (R,), Barred.NOT_HELD),
        (X, None, (R, H), None),
        # it leaves once all is done, and nothing is done to it after that
        (L, None, (), Barred.PLANNED),
        (L, None, (R, H), Barred.NOT_READY),
        (L, None, SPRAYED, Barred.NOT_READY),
        (L, None, PACKED, None),
        (L, None, (*PACKED, L), Barred.DESPATCHED),
        (C, None, (*PACKED, L), Barred.DESPATCHED),
        (H, None, (*PACKED, L), Barred.DESPATCHED),
        (C, None, (), None),
        (C, None, (R, X), Barred.OVER),
        (R, None, (C,), Barred.OVER),
    ],
)
def test_what_can_be_done_to_a_shell_as_it_stands(
    deed: Deed, stage: str | None, said: tuple, why: Barred | None
) -> None:
    assert barred(deed, stage, deeds(*said), ROUTE) is why


def test_a_stage_is_come_into_once_those_before_it_are_done_and_paint_once_it_is_begun() -> None:
    assert points((), ROUTE)[0] == ("ordered",)
    assert points(deeds(R), ROUTE)[0] == ("ordered", "jig")
    assert points(deeds(*LOOKED), ROUTE) == (("ordered", "jig", "skins", "look"), ("spray", "pack", "despatched"))
    assert points(deeds(*LOOKED, (B, "spray")), ROUTE)[0][-1] == "spray"


@pytest.fixture
def workshop(desk: Desk) -> Desk:
    """The desk with its people of the workshop, each with a code of his own."""
    for person in (LEAD, WELDER, INSPECTOR):
        signing_in.add_person(desk.store, CHEAP, person, "long enough", LATER)
        signing.set_code(desk.store, CHEAP, MANAGER, person.name, CODES[person.name], LATER)
    return desk


def shells(desk: Desk, order: str) -> list[int]:
    return [shell.id for shell in ordering.order(desk.store, CLERK, order, LATER).shells]


def sign(desk: Desk, shell: int, stage: str, who: str = "idris", code: str = "", deed: Deed = D) -> None:
    """With its welds, which are idris's own; inspection and paint with all that is read for them, and its verdict."""
    weld(desk, shell, stage)
    signature = Signature(who, code or CODES[who], "10.0.0.1", CHEAP)
    if stage == "inspection":
        inspected.passed(desk.store, shell, signature, LATER)
        return
    if stage == "paint" and deed is D:
        by = Signature("oona", CODES["oona"], "10.0.0.1", CHEAP)
        inspected.passed(desk.store, shell, by, LATER, Phase.COATED)
    building.sign_stage(desk.store, LEAD, shell, deed, stage, signature, LATER)


def serial_of(desk: Desk, shell: int) -> str:
    return overseeing.shell(desk.store, LEAD, shell, LATER).shell.serial or ""


def weld(desk: Desk, shell: int, stage: str, who: str = "idris") -> list[str]:
    """Signs for what nobody has signed for yet: the zones."""
    zones = overseeing.shell(desk.store, LEAD, shell, LATER).zones
    left = [one.zone.id for one in zones if one.stage == stage and not one.welds]
    if left:
        welding.sign_zones(desk.store, LEAD, shell, left, Signature(who, CODES[who], "10.0.0.1", CHEAP), LATER)
    return left


def test_serials_come_at_release_one_after_the_other_and_only_of_a_confirmed_order(workshop: Desk) -> None:
    unconfirmed = accepted(workshop)
    with pytest.raises(NotConfirmed):
        building.release(workshop.store, LEAD, shells(workshop, unconfirmed)[0], LATER)
    order = confirmed_order(workshop, count=3)
    for shell in reversed(shells(workshop, order)):
        building.release(workshop.store, LEAD, shell, LATER)
    found = ordering.order(workshop.store, CLERK, order, LATER)
    assert [shell.serial for shell in found.shells] == ["S-2026-00003", "S-2026-00002", "S-2026-00001"]
    assert found.state is ShellState.RELEASED


def test_a_stage_is_signed_by_whoever_knows_his_code_and_the_inspection_by_an_inspector(workshop: Desk) -> None:
    order = confirmed_order(workshop)
    (shell,) = shells(workshop, order)
    building.release(workshop.store, LEAD, shell, LATER)
    with pytest.raises(CodeRefused):
        sign(workshop, shell, "sub-assembly", code="9999")
    for stage in ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap"):
        sign(workshop, shell, stage)
    with pytest.raises(MayNotSign):
        sign(workshop, shell, "inspection")
    sign(workshop, shell, "inspection", "oona")
    assert ordering.order(workshop.store, CLERK, order, LATER).state is ShellState.INSPECTED
    sign(workshop, shell, "preparation")
    found = ordering.order(workshop.store, CLERK, order, LATER)
    assert found.state is ShellState.READY
    (told,) = [entry for entry in found.history if entry.what == "shell-inspected"]
    assert (told.facts["phase"], told.facts["verdict"], told.facts["signed"]) == ("metal", "pass", "Oona Reyes")


def test_the_code_is_no_password_and_wrong_ones_are_slowed_down(workshop: Desk) -> None:
    (shell,) = shells(workshop, confirmed_order(workshop))
    building.release(workshop.store, LEAD, shell, LATER)
    with pytest.raises(CodeRefused):
        sign(workshop, shell, "sub-assembly", code="long enough")
    with pytest.raises(SlowDown):
        for _ in range(20):
            with pytest.raises(CodeRefused):
                sign(workshop, shell, "sub-assembly", code="0000")


def test_a_rejected_shell_is_replaced_in_its_place_with_a_serial_of_its_own_and_the_history_of_both(
    workshop: Desk,
) -> None:
    order = confirmed_order(workshop, count=2)
    first, second = shells(workshop, order)
    for shell in (first, second):
        building.release(workshop.store, LEAD, shell, LATER)
    building.say(workshop.store, INSPECTOR, first, X, "The sill is torn.", LATER)
    new = building.replace(workshop.store, MANAGER, first, calendar.around, LATER)
    kitting.all_present(workshop.store, LEAD, new, LATER)
    found = ordering.order(workshop.store, CLERK, order, LATER)
    assert (found.state, [shell.place for shell in found.shells]) == (ShellState.PLANNED, [1, 2])
    building.release(workshop.store, LEAD, new, LATER)
    built = ordering.order(workshop.store, CLERK, order, LATER).shells[0]
    assert (built.serial, [one.serial for one in built.replaced]) == ("S-2026-00003", ["S-2026-00001"])
    assert [done.why for done in built.replaced[0].deeds] == ["", "The sill is torn."]


def test_a_rejected_shell_that_was_replaced_is_still_read_by_its_serial_and_nothing_is_done_to_it(
    workshop: Desk,
) -> None:
    first, _ = shells(workshop, confirmed_order(workshop, count=2))
    building.release(workshop.store, LEAD, first, LATER)
    serial = serial_of(workshop, first)
    building.say(workshop.store, INSPECTOR, first, X, "The sill is torn.", LATER)
    building.replace(workshop.store, MANAGER, first, calendar.around, LATER)
    read = overseeing.shell(workshop.store, LEAD, first, LATER)
    assert (read.shell.serial, read.shell.state, read.over, read.days) == (serial, ShellState.REJECTED, True, {})
    assert inspecting.by_serial(workshop.store, INSPECTOR, serial, LATER).found.shell.id == first
    assert recording.record(workshop.store, INSPECTOR, first, ("en", "a4"), LATER).startswith(b"%PDF")
    deeds: list[Callable[[], object]] = [
        lambda: building.replace(workshop.store, MANAGER, first, calendar.around, LATER),
        lambda: building.say(workshop.store, LEAD, first, H, "A pressing is short.", LATER),
        lambda: measuring.take(workshop.store, INSPECTOR, first, [], LATER),
    ]
    for deed in deeds:
        with pytest.raises(ShellStands) as refused:
            deed()
        assert refused.value.facts["why"] == Barred.OVER.value


def test_a_held_shell_holds_the_order_and_goes_on_with_a_reason(workshop: Desk) -> None:
    order = confirmed_order(workshop, count=2)
    first, _ = shells(workshop, order)
    building.release(workshop.store, LEAD, first, LATER)
    building.say(workshop.store, LEAD, first, H, "A pressing is short.", LATER)
    assert ordering.order(workshop.store, CLERK, order, LATER).state is ShellState.ON_HOLD
    with pytest.raises(ShellStands):
        sign(workshop, first, "sub-assembly")
    building.say(workshop.store, LEAD, first, G, "It came.", LATER)
    sign(workshop, first, "sub-assembly")


def test_case_9_a_tool_that_breaks_stops_released_shells_that_are_not_past_it_and_no_other(workshop: Desk) -> None:
    order = confirmed_order(workshop, count=2)
    past, not_past = shells(workshop, order)
    for shell in (past, not_past):
        building.release(workshop.store, LEAD, shell, LATER)
    for stage in ("sub-assembly", "framing"):
        sign(workshop, past, stage)
    follows = consequences.consequences(workshop.store, "roadster-deck", ToolCondition.DOWN, LATER)
    assert [[one.shell.id for one in group] for group in (follows.stopped, follows.past)] == [[not_past], [past]]
    number = tools.tool_states(workshop.store).number
    tools.set_tool(workshop.store, LEAD, "roadster-deck", ToolCondition.DOWN, LATER, note="Cracked.", expected=number)
    sign(workshop, past, "rollover")
    with pytest.raises(ShellStopped) as refused:
        sign(workshop, not_past, "sub-assembly")
    assert [fault.path for fault in refused.value.faults] == ["tools.roadster-deck"]
    stops = {one.shell.id: [stop.of for stop in one.stops] for one in overseeing.floor(workshop.store, LATER)}
    assert stops == {past: [], not_past: ["roadster-deck"]}


def test_a_cancelled_shell_gives_its_slot_back_and_takes_no_other(workshop: Desk) -> None:
    order = confirmed_order(workshop, count=2)
    first, _ = shells(workshop, order)
    building.say(workshop.store, MANAGER, first, C, "The customer wants one only.", LATER)
    promising.say_gate(
        workshop.store, CLERK, order, 0, ("deposit", ""), LATER.date(), calendar.around, LATER + timedelta(hours=1)
    )
    with workshop.store.reading() as db:
        held = slots.held(db, ordering.order(workshop.store, CLERK, order, LATER).id)
    assert [one.seat.place for one in held] == [2]
    assert ordering.order(workshop.store, CLERK, order, LATER).state is ShellState.PLANNED


def test_a_painted_shell_goes_into_paint_by_somebody_s_word(workshop: Desk) -> None:
    painted = {"finish": "painted", "scope": "outside", "colour": "chalk", "primer": "epoxy-and-filler"}
    (shell,) = shells(workshop, confirmed_order(workshop, {**S3_ROADSTER, **painted}))
    building.release(workshop.store, LEAD, shell, LATER)
    for stage in ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap"):
        sign(workshop, shell, stage)
    sign(workshop, shell, "inspection", "oona")
    with pytest.raises(ShellStands):
        sign(workshop, shell, "paint")
    with pytest.raises(MayNotSign) as refused:
        sign(workshop, shell, "paint", "idris", deed=B)
    assert refused.value.facts["why"] == "paint"
    sign(workshop, shell, "paint", "tomasz", deed=B)
    found = overseeing.shell(workshop.store, LEAD, shell, LATER)
    assert (found.shell.state, found.coat_due) == (ShellState.IN_PAINT, True)
    signature = Signature("idris", CODES["idris"], "10.0.0.1", CHEAP)
    with pytest.raises(CoatUninspected):
        building.sign_stage(workshop.store, LEAD, shell, D, "paint", signature, LATER)
    sign(workshop, shell, "paint")
    found = overseeing.shell(workshop.store, LEAD, shell, LATER)
    assert (found.shell.progress.through[-1], found.coat_due) == ("paint", False)


def test_case_29_a_shell_in_the_customer_s_colour_goes_into_paint_once_its_sample_is_signed(workshop: Desk) -> None:
    painted = {"finish": "painted", "scope": "outside", "colour": "reference", "primer": "epoxy-and-filler"}
    order = confirmed_order(workshop, {**S3_ROADSTER, **painted})
    (shell,) = shells(workshop, order)
    building.release(workshop.store, LEAD, shell, LATER)
    for stage in ("sub-assembly", "framing", "rollover", "skinning", "fit-and-gap"):
        sign(workshop, shell, stage)
    sign(workshop, shell, "inspection", "oona")
    with pytest.raises(ShellStopped) as refused:
        sign(workshop, shell, "paint", "tomasz", deed=B)
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [("samples.A6", "stopped-samples")]
    promising.say_gate(workshop.store, CLERK, order, 1, ("samples", "A6"), LATER.date(), calendar.around, LATER)
    sign(workshop, shell, "paint", "tomasz", deed=B)
    assert overseeing.shell(workshop.store, LEAD, shell, LATER).shell.state is ShellState.IN_PAINT

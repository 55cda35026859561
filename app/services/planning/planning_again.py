"""The days of a shell that is built in the place of a rejected one: its slot where it can still be had, else the next.

What the customer was told stays what he was told: that it will be later is seen, and said to him by a person.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.planning.slots import Kept
from app.services.orders.ordering import note, own_order
from app.services.orders.seating import GatedShell, WholeOrder, gated_shell, whole_order
from app.services.planning.dating import Working, promised, shop_of, wanted_of
from app.services.planning.giving_back import give_back
from app.services.planning.making_room import make_room
from app.store import slots
from app.store.db import Store
from app.store.frozen import frozen_text
from rules.schedule.capacity import Shop, Visit, slot_stage_of
from rules.schedule.promise import GateDay, Promise, Wanted, visits_of


def plan_again(
    store: Store, db: Database, actor: Actor, number: str, place: int, working: Working, now: datetime
) -> None:
    """After another was begun at that place, inside that transaction. Without a slot it had none to lose.

    Where no day can be named its slot is given back.
    """
    whole = whole_order(store, db, own_order(db, actor, number, now), now)
    gated = gated_shell(whole, place)
    had = slots.promised(db, gated.seat)
    if had is None:
        return
    wanted, made = _dated(db, whole, gated, had, working)
    if made is None:
        give_back(db, actor, had, now)
        return
    slots.give_up(db, gated.seat)
    slots.plan(db, gated.seat, visits_of(made, wanted.kinds), made.slot)
    if _days(made) != _days(had.promise):
        slots.promise_untold(db, had, made, frozen_text(gated.route), actor.name, now)
        note(db, number, "slot-again", actor, now, shell=str(place), day=made.slot.isoformat())
    make_room(store, db, actor, working, now, number)


def _dated(
    db: Database, whole: WholeOrder, gated: GatedShell, had: Kept, working: Working
) -> tuple[Wanted, Promise | None]:
    """As a new promise would be, from today on: all of its work is still to be done."""
    begun = GateDay("again", whole.today, slot_stage_of(whole.book), gated.route.before_slot, opened=True)
    gates = replace(gated.gates, gates=(*gated.gates.gates, begun))
    full = shop_of(db, whole.book, working, whole.today, gated.seat)
    wanted = wanted_of(whole.book, gated.frozen.settled, gated.route, gates)
    if _is_free(db, full, wanted, had):
        wanted = replace(wanted, slot=had.promise.slot)
    return wanted, None if gates.undated else promised(whole.book, wanted, full, whole.today)


def _is_free(db: Database, full: Shop, wanted: Wanted, had: Kept) -> bool:
    """Whether it still has its slot, or left it and nobody has taken it, nor its place in the week."""
    if slots.holder(db, had.promise.slot) == had.seat:
        return True
    stay = next(step for step in had.promise.steps if step.stage == full.slot_stage)
    return full.fits(Visit(full.slot_stage, stay.start, stay.end, wanted.kinds.get(full.slot_stage, "")))


def _days(made: Promise) -> object:
    return [(step.stage, step.start, step.end) for step in made.steps], made.ready

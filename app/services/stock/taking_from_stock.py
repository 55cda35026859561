"""The order's shell comes from stock, with its place in the plan, and goes back to it. All inside a transaction."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import NotFound, StockMisfit, StockTaken, StockUnready
from app.domain.floor.shell import ShellState
from app.domain.planning.slots import Act, Seat
from app.domain.stock import InStock, Unready
from app.services.money.sharing import Placed, placed
from app.services.orders.ordering import note
from app.services.orders.seating import GatedShell, WholeOrder, gated_shell
from app.services.planning.dating import Working
from app.services.stock.claiming import had_or_nearest, known, refuse_misfit
from app.services.stock.matching import come_into, ready_on
from app.services.stock.stock_floor import sheet_again
from app.store import slots, stock
from app.store import stock_claims as kept
from app.store.db import Store
from app.store.frozen import frozen_text
from rules.schedule.promise import Promise
from rules.workshop.conversion import Conversion, conversion


def allocate_promised(
    store: Store, db: Database, actor: Actor, whole: WholeOrder, working: Working, now: datetime
) -> None:
    """Each shell that the order's quotation took from stock, if it is there and nobody's; else another is built."""
    for place in whole.wanting:
        frozen = whole.shells[place - 1][1]
        if frozen.stock is not None and not kept.was_allocated(db, whole.order.id, place):
            try:
                allocate(store, db, actor, whole, place, frozen.stock.shell, working, now)
            except (NotFound, StockTaken, StockMisfit, StockUnready) as refused:
                facts = {"shell": str(place), "stock": frozen.stock.name, "why": refused.facts.get("why", "")}
                note(db, whole.order.number, "stock-missed", actor, now, **facts)


def allocate(
    store: Store,
    db: Database,
    actor: Actor,
    whole: WholeOrder,
    place: int,
    key: int,
    working: Working,
    now: datetime,
    *,
    may_approve: bool = True,
) -> None:
    """The order's shell at that place (from 1) is this one. Inside a transaction.

    `may_approve` False: what the book leaves to an approval is not changed on this person's word.

    Raises NotFound, StockTaken, StockMisfit, StockUnready.
    """
    one = had_or_nearest(store, db, key, whole.order.quotation, now)
    gated, seated = seat_of(whole, place)
    donor = whole.order.frozen.donor.facts()
    made = conversion(whole.book, one.stock.settled, gated.frozen.settled, donor, come_into(one))
    refuse_misfit(one, made, may_approve=may_approve)
    assert made is not None
    if made.kept:
        raise StockMisfit(number=one.name, options=tuple(each.option for each in made.kept), why="stock-misfit-kept")
    kept.end_reservation(db, key, now)
    kept.allocate(db, key, whole.order.id, place, seated.line.id, seated.shell.place, actor.name, now)
    sheet_again(db, one.shell, tuple(each.option for each in made.changed), whole.today, actor, now)
    _take_the_plan(store, db, actor, whole, gated, one, made, working, now)
    note(db, whole.order.number, "stock-allocated", actor, now, shell=str(place), stock=one.name)


def give_up(db: Database, actor: Actor, key: int, now: datetime) -> str:
    """The order has it no more: it is free, with its place in the plan. The order's number. Inside a transaction.

    Raises NotFound, StockUnready.
    """
    one = known(db, key)
    if one.allocated is None or not one.returnable:
        why = Unready.NOT_ALLOCATED if one.allocated is None else Unready.SOLD
        raise StockUnready(number=one.name, why=why.value)
    had = one.allocated
    seat = Seat(had.key, had.order, had.seat)
    visits, promise = slots.visits(db, seat), slots.promised(db, seat)
    slots.give_up(db, seat)
    if promise is not None:
        slots.promise(db, seat, Act.RELEASED, None, promise.route, actor.name, now)
    stock.place(db, key, visits, one.stock.plan.slot)
    kept.end_allocation(db, key, "given-up", now)
    sheet_again(db, one.shell, (), now.date(), actor, now)
    note(db, had.order, "stock-given-up", actor, now, shell=str(had.seat), stock=one.name)
    return had.order


def seat_of(whole: WholeOrder, place: int) -> tuple[GatedShell, Placed]:
    """The order's shell at that place, where one of stock could stand. Raises NotFound, StockUnready."""
    every, name = placed(whole.order), f"{whole.order.number} {place}"
    if not 0 < place <= len(every):
        raise NotFound(what="shell", name=name)
    shell = every[place - 1].shell
    if shell.deeds or shell.stock or shell.state is ShellState.CANCELLED:
        raise StockUnready(number=name, why=Unready.SEAT_BUILT.value)
    return gated_shell(whole, place), every[place - 1]


def _take_the_plan(
    store: Store,
    db: Database,
    actor: Actor,
    whole: WholeOrder,
    gated: GatedShell,
    one: InStock,
    made: Conversion,
    working: Working,
    now: datetime,
) -> None:
    """Its place in the plan is the order's from now on, with the days of the changes behind it."""
    days = working(whole.book.calendar, whole.today)
    ready = ready_on(store, one, made.days, days, whole.today)
    promise = Promise(one.stock.plan.steps, one.stock.plan.slot, ready, days.add(ready, whole.book.calendar.spread))
    visits = stock.visits(db, one.stock.id)
    stock.give_up(db, one.stock.id)
    slots.give_up(db, gated.seat)
    slots.plan(db, gated.seat, visits, promise.slot)
    slots.promise(db, gated.seat, Act.TAKEN, promise, frozen_text(gated.route), actor.name, now)

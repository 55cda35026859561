"""Slots given back: because the deposit no longer stands, or because a later yes wants other shells, or fewer.

What is given back because of money is listed first and asked about; a later yes is the customer's own word.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import ShellsReleased, SlotsFollow
from app.domain.orders.order import Order
from app.domain.planning.slots import Act, Kept, Move, Proposal, Seat, places_kept
from app.domain.quotations.quotation import Revision
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.money.accounts import deposit_met
from app.services.orders.ordering import follow_acceptance, note, own_order
from app.services.planning.promising import proposal_of
from app.store import orders, parts
from app.store import slots as kept
from app.store.db import Store
from rules.model import Book
from rules.schedule.capacity import Visit, slot_stage_of


def what_falls(store: Store, actor: Actor, number: str, now: datetime) -> Proposal:
    """The slots that the order gives back once its deposit no longer stands. Writes nothing. Raises NotFound."""
    with store.reading() as db:
        return _falling(store, db, own_order(db, actor, number, now), now)


def give_back_unpaid(
    store: Store, db: Database, actor: Actor, number: str, now: datetime, *, agreed: str, was_met: bool
) -> None:
    """After what was written about the money: gives back the slots, if `agreed` is the token of exactly that list.

    Only where it was this that undid the deposit. A shell that is past its slot is in the workshop and stays.
    Raises SlotsFollow.
    """
    order = own_order(db, actor, number, now)
    if not was_met or deposit_met(db, order):
        return
    falling = _falling(store, db, order, now)
    if falling.moves and falling.token != agreed:
        raise SlotsFollow(number=number, count=len(falling.moves))
    for move in falling.moves:
        had = kept.promised(db, move.seat)
        if had is not None:
            give_back(db, actor, had, now)


def follow_yes(
    store: Store, db: Database, actor: Actor, book: Book, quotation: str, revision: Revision, now: datetime
) -> None:
    """The order is made, or follows this yes: each shell keeps its slot, and what is left over is given back."""
    had = orders.of_quotation(db, quotation, None)
    before = [] if had is None else _built(_unreleased(own_order(db, actor, had[1], now)))
    number = follow_acceptance(db, actor, book, quotation, revision, now)
    if had is None:
        return
    order = own_order(db, actor, number, now)
    keeps = places_kept(before, _built(order))
    _reseat(db, actor, kept.held(db, order.id), keeps, now)
    _regate(db, actor, order.id, len(before), keeps, now)
    parts.move(db, order.id, keeps)


def give_back(db: Database, actor: Actor, had: Kept, now: datetime) -> None:
    """Its slot is free; what was promised stays written. For use inside a transaction."""
    kept.give_up(db, had.seat)
    kept.promise(db, had.seat, Act.RELEASED, None, had.route, actor.name, now)
    note(db, had.seat.number, "slot-released", actor, now, shell=str(had.seat.place))


def _unreleased(order: Order) -> Order:
    """What the workshop builds, or a change note says, no longer follows another yes: neither may be lost by it."""
    if any(shell.deeds or shell.replaced for shell in order.shells):
        raise ShellsReleased(number=order.number)
    if any(shell.changed for shell in order.shells):
        raise ShellsReleased(number=order.number, why="changed")
    return order


def _falling(store: Store, db: Database, order: Order, now: datetime) -> Proposal:
    book = book_of(store, order.revision.book or 0)
    today, held = day_of(book, now), kept.held(db, order.id)
    in_shop = {place for place, one in enumerate(order.shells, 1) if slot_stage_of(book) in one.progress.through}
    to_come = (one for one in held if one.promise.slot > today and one.seat.place not in in_shop)
    return proposal_of(tuple(Move(one.seat, book, order.frozen.customer, one.promised, None) for one in to_come))


def _built(order: Order) -> list[object]:
    """What each shell is built as, in order of their places."""
    return [dict(line.line.frozen.settled) for line in order.lines if line.line.frozen is not None for _ in line.shells]


def _reseat(db: Database, actor: Actor, held: tuple[Kept, ...], keeps: dict[int, int], now: datetime) -> None:
    """Those that change places are all taken up before any is put down."""
    to = {was: place for place, was in keeps.items()}
    moving = [(one, to[one.seat.place]) for one in held if to.get(one.seat.place, one.seat.place) != one.seat.place]
    visits = {one.seat: kept.visits(db, one.seat) for one, _ in moving}
    for one in held:
        if one.seat.place not in to or one.seat in visits:
            give_back(db, actor, one, now)
    for one, place in moving:
        _put(db, actor, one, replace(one.seat, place=place), visits[one.seat], now)


def _regate(db: Database, actor: Actor, order: int, many: int, keeps: dict[int, int], now: datetime) -> None:
    """What was said of a shell's gates goes with it, and is said no longer where it stood."""
    said = kept.gates_said(db, order)
    for place in range(1, max(many, *keeps, 0) + 1):
        if keeps.get(place) == place:
            continue
        had = {key: one for (at, key), one in said.items() if at == place}
        gets = {key: one for (at, key), one in said.items() if at == keeps.get(place)}
        for key in had.keys() - gets.keys():
            kept.say_gate(db, order, place, key, None, actor.name, now)
        for key, one in gets.items():
            kept.say_gate(db, order, place, key, one.day, one.by, one.at)


def _put(db: Database, actor: Actor, had: Kept, seat: Seat, visits: list[Visit], now: datetime) -> None:
    slot: date = had.promise.slot
    kept.plan(db, seat, visits, slot)
    kept.promise(db, seat, Act.MOVED, had.promise, had.route, actor.name, now)
    note(db, seat.number, "slot-moved", actor, now, shell=str(seat.place), day=slot.isoformat())

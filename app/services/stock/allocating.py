"""A shell of stock given to an order by hand, or taken back from it; the order then plans for what it has not."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import DepositShort
from app.services.once import Once, perform
from app.services.orders.ordering import own_order
from app.services.orders.seating import whole_order
from app.services.planning.dating import Working
from app.services.planning.making_room import make_room
from app.services.planning.promising import take_slots
from app.services.stock import taking_from_stock
from app.store.db import Store


def allocate(
    store: Store,
    actor: Actor,
    number: str,
    place: int,
    key: int,
    working: Working,
    now: datetime,
    *,
    may_approve: bool = False,
    once: Once | None = None,
) -> None:
    """The order's shell at `place` (from 1) is that one of stock; a slot that it had is free.

    Raises NotFound, DepositShort, StockTaken, StockMisfit, StockUnready, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        whole = whole_order(store, db, own_order(db, actor, number, now), now)
        if not whole.deposit_met:
            raise DepositShort(number=number)
        taking_from_stock.allocate(store, db, actor, whole, place, key, working, now, may_approve=may_approve)
        make_room(store, db, actor, working, now, number)
        return key

    perform(store, once, now, write)


def give_up(store: Store, actor: Actor, key: int, working: Working, now: datetime) -> None:
    """The shell is free again, and the order's own takes a slot. Raises NotFound, StockUnready."""
    with store.writing() as db:
        number = taking_from_stock.give_up(db, actor, key, now)
        take_slots(store, db, actor, number, working, now)
        make_room(store, db, actor, working, now, number)

"""Which shells of stock could be an order's planned one: what is changed on each, and when it would be ready.

Held against the order's own book and what it was promised, as giving it one does; nothing is written.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import DepositShort
from app.domain.stock import InStock
from app.services.orders.ordering import own_order
from app.services.orders.seating import GatedShell, WholeOrder, whole_order
from app.services.planning.dating import Working
from app.services.stock.matching import MOST, come_into, every, ready_on, same_car, sooner_by
from app.services.stock.taking_from_stock import seat_of
from app.store import slots
from app.store.db import Store
from rules.model import Allowed, Book
from rules.schedule.days import HolidaysUnknown
from rules.workshop.conversion import Conversion, conversion


@dataclass(frozen=True, slots=True)
class Offer:
    """A shell that can become what the order was promised. `book`: the order's own.

    Ready from `ready` to `ready_by`; `promised`: from when the order's own would be, None while it has no slot; `days`:
    working days sooner than that, negative: later. `asks`: a change on it takes the manager's yes.
    """

    shell: InStock
    book: Book
    conversion: Conversion
    ready: date
    ready_by: date
    promised: date | None
    days: int | None

    @property
    def asks(self) -> bool:
        return self.conversion.hardest is Allowed.APPROVAL


def offers(store: Store, actor: Actor, number: str, place: int, working: Working, now: datetime) -> tuple[Offer, ...]:
    """For the order's shell at `place` (from 1): what is ready soonest first.

    Raises NotFound, DepositShort, StockUnready where that shell is begun, cancelled, or came from stock.
    """
    with store.reading() as db:
        whole = whole_order(store, db, own_order(db, actor, number, now), now)
        gated, _ = seat_of(whole, place)
        if not whole.deposit_met:
            raise DepositShort(number=number)
        found = list(_offers(store, db, whole, gated, working, now))
    return tuple(sorted(found, key=lambda one: (one.ready, one.conversion.days, one.shell.stock.id))[:MOST])


def _offers(
    store: Store, db: Database, whole: WholeOrder, gated: GatedShell, working: Working, now: datetime
) -> Iterator[Offer]:
    donor, made = whole.order.frozen.donor.facts(), slots.promised(db, gated.seat)
    days, promised = working(whole.book.calendar, whole.today), None if made is None else made.promised.ready
    for one in every(db):
        if not _free(one, whole.order.quotation, now):
            continue
        how = conversion(whole.book, one.stock.settled, gated.frozen.settled, donor, come_into(one))
        if how is None or how.kept or not same_car(whole.book, one, gated.frozen.settled):
            continue
        try:
            ready = ready_on(store, one, how.days, days, whole.today)
            sooner = None if promised is None else sooner_by(days, ready, promised)
            by = days.add(ready, whole.book.calendar.spread)
        except HolidaysUnknown:
            continue
        yield Offer(one, whole.book, how, ready, by, promised, sooner)


def _free(one: InStock, quotation: str, now: datetime) -> bool:
    """In the workshop or finished, nobody's, and held for nobody else."""
    held = one.holder(now)
    return one.unready() is None and one.allocated is None and (held is None or held.quotation == quotation)

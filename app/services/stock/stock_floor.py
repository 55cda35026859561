"""Shells of stock on the floor: a works order without customer, money or papers, so that they are built like any other.

A shell that was cancelled, or is sold as a second, comes into stock from its order with its serial and what was done.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.customers.customer import Customer
from app.domain.floor.shell import Deed
from app.domain.orders.order import Order, OrderLine, Shell
from app.domain.planning.slots import Kept, Seat
from app.domain.quotations.enquiry import DonorCar
from app.domain.quotations.quotation import DeliveryPlace, Frozen, FrozenLine, QuotationLine, Revision, Standing
from app.domain.stock import Source, StockAct, StockShell
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.books.tools import tool_states
from app.services.orders.seating import GatedShell, WholeOrder
from app.store import sheet_revisions, shells, slots, stock, stock_claims
from app.store.db import Store
from rules.answer import Depends
from rules.money.price import ShellPrice, Tariff
from rules.money.totals import ShellsPrice, Totals
from rules.schedule.capacity import Visit
from rules.schedule.promise import Promise, Step
from rules.specification import Specification

_NO_PRICE = ShellsPrice(ShellPrice((), (), None), 1, None)
_NO_TOTALS = Totals(0, (), decided=False)


def works_order(store: Store, db: Database, entry: StockShell, now: datetime) -> WholeOrder:
    """The shell as the floor reads shells. Whoever writes papers or looks for money finds none."""
    book = book_of(store, entry.book)
    order = _order(entry, shells.in_stock(db, entry.shell, entry.last_deed))
    (line,) = order.lines
    assert line.line.frozen is not None
    made = ((1, line.line.frozen),)
    return WholeOrder(order, book, day_of(book, now), {}, tool_states(store), made, deposit_met=True, stock=entry)


def works_order_of(store: Store, db: Database, number: str, now: datetime) -> Order | None:
    """By its number in stock; None: there is none, or an order has it."""
    entry = next((one for one in stock.every(db) if one.number == number), None)
    return None if entry is None else works_order(store, db, entry, now).order


def works_orders(store: Store, db: Database, now: datetime) -> Iterator[WholeOrder]:
    """Of all stock that no order has."""
    for entry in stock.every(db):
        yield works_order(store, db, entry, now)


def holding(store: Store, db: Database, key: int, now: datetime) -> WholeOrder | None:
    """The works order of the shell with that key on the floor; None where it is not in stock, or an order has it."""
    entry = stock.holding(db, key)
    return None if entry is None else works_order(store, db, entry, now)


def steps(db: Database, whole: WholeOrder) -> tuple[Step, ...]:
    """The days of a shell of stock while they are in the plan; empty for an order's."""
    return whole.stock.plan.steps if whole.stock is not None and stock.visits(db, whole.stock.id) else ()


def let_go(
    db: Database, actor: Actor, whole: WholeOrder, gated: GatedShell, shell: Shell, deed: Deed, why: str, now: datetime
) -> None:
    """A shell that is cancelled once it is begun joins stock; what was stock, rejected or cancelled, is no more."""
    if whole.stock is not None and deed in (Deed.REJECTED, Deed.CANCELLED):
        leave(db, actor, whole.stock, now)
    elif deed is Deed.CANCELLED and shell.serial is not None:
        join(db, actor, whole, gated, shell, Source.CANCELLED, why, now)


def planned_again(db: Database, actor: Actor, key: int, now: datetime) -> int | None:
    """A rejected shell that came from stock leaves the planned one in whose place it stood; None for any other.

    It is in stock no more: nobody else may have it, but as a second.
    """
    had = stock_claims.allocated_shell(db, key)
    if had is None:
        return None
    stock_claims.end_allocation(db, had, "replaced", now)
    entry = stock.get(db, had)
    assert entry is not None
    leave(db, actor, entry, now)
    return stock_claims.planned_before(db, had)


def join(
    db: Database,
    actor: Actor,
    whole: WholeOrder,
    gated: GatedShell,
    shell: Shell,
    source: Source,
    why: str,
    now: datetime,
) -> int:
    """It is the firm's from now on, as it stands, with its place in the plan; customer and donor car stay behind.

    To be called before its slot is given back, and once its deed is written. Its key in stock.
    """
    visits, made = _plan(db, gated.seat, source)
    key = stock.add(
        db,
        whole.book.number,
        gated.frozen.settled,
        actor.name,
        now,
        shell=shell.id,
        source=source,
        came_from=whole.order.number,
        why=why,
    )
    sheet_again(db, shell, (), whole.today, actor, now)
    plan = _as_it_stands(whole.today) if made is None else made.promise
    if made is not None:
        stock.place(db, key, visits, plan.slot)
    stock.act(db, key, StockAct.TAKEN, plan, "", actor.name, now)
    had = stock_claims.allocated_shell(db, shell.id)
    if had is not None:
        _leave(db, actor, had, now)
    return key


def _plan(db: Database, seat: Seat, source: Source) -> tuple[list[Visit], Kept | None]:
    """What it takes along of the plan: a rejected shell leaves its slot to the one that replaces it."""
    if source is not Source.CANCELLED:
        return [], None
    found = slots.visits(db, seat), slots.promised(db, seat)
    slots.give_up(db, seat)
    return found


def leave(db: Database, actor: Actor, entry: StockShell, now: datetime) -> None:
    """It is in stock no more, and nobody has it."""
    stock.give_up(db, entry.id)
    stock_claims.end_reservation(db, entry.id, now)
    stock.act(db, entry.id, StockAct.WITHDRAWN, entry.plan, "", actor.name, now)


def sheet_again(db: Database, shell: Shell, changed: tuple[str, ...], day: date, actor: Actor, now: datetime) -> None:
    """What it is built by says for whom, and what is changed on it: a sheet of before no longer holds."""
    if shell.sheet is not None:
        sheet_revisions.add(db, shell.id, day, actor.name, now, changed=changed)


def _leave(db: Database, actor: Actor, key: int, now: datetime) -> None:
    """The order that had it from stock gave it back by cancelling: it is in stock anew, as that order made it."""
    entry = stock.get(db, key)
    assert entry is not None
    stock_claims.end_allocation(db, key, "cancelled", now)
    leave(db, actor, entry, now)


def _as_it_stands(today: date) -> Promise:
    """A shell that nobody planned waits for nothing."""
    return Promise((), today, today, today)


def _order(entry: StockShell, shell: Shell) -> Order:
    frozen = FrozenLine(entry.settled, {}, (), Depends(), _NO_PRICE)
    line = QuotationLine(0, 1, Specification({}), frozen)
    nobody = Frozen(0, Customer(""), DonorCar(), None, Tariff("", {}), "", (), _NO_TOTALS)
    revision = Revision(
        id=0,
        letter="",
        standing=Standing.ACCEPTED,
        version=0,
        price_list="",
        delivery_place=DeliveryPlace(),
        note="",
        lines=(line,),
        extras=(),
        created_at=entry.made_at,
        created_by=entry.made_by,
        book=entry.book,
        frozen=nobody,
    )
    return Order(
        id=0,
        number=entry.number,
        quotation="",
        dealer=None,
        made_at=entry.made_at,
        made_by=entry.made_by,
        revision=revision,
        lines=(OrderLine(0, 0, line, (shell,)),),
        bases=(),
    )

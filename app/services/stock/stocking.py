"""Building for stock: a specification that waits for nobody fills a free slot, within the cap that the manager sets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import NotFound, StockBegun, StockFull, StockUnfit
from app.domain.floor.shell import ShellState
from app.domain.stock import InStock, StockAct, StockShell
from app.services.answering.pricing import day_of
from app.services.answering.specifying import Asked, deal_of, said_of
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.once import Once, perform
from app.services.planning.dating import Working, promised, shop_of
from app.services.planning.making_room import wanted
from app.services.quotations.owned import own_revision
from app.services.stock import matching
from app.services.stock.stock_floor import leave
from app.store import shells, stock_claims
from app.store import stock as kept
from app.store.db import Store
from rules.answer import Answer, Verdict
from rules.model import Book
from rules.money.price import Tariff, price_shell
from rules.schedule.promise import visits_of
from rules.specification import Donor

#: Nobody has room for more.
MOST = 100
#: A fortnight: whoever needs longer pays a deposit.
MOST_HOURS = 336


@dataclass(frozen=True, slots=True)
class Stock:
    """`shells` by their slots, each with the book that it is built by; `cap`: how many there may be.

    `hours`: how long one is held for a quotation.
    """

    cap: int
    hours: int
    shells: tuple[tuple[InStock, Book], ...]


@dataclass(frozen=True, slots=True)
class Aged:
    """A shell that nobody has, with the calendar `days` and the money that is tied in it.

    `tied`: its price before tax by the book's first price list, whole minor units; None: not priced there.
    """

    shell: InStock
    book: Book
    days: int
    tied: int | None
    currency: str


def stock(store: Store) -> Stock:
    """All that is planned, in the workshop or finished for stock, and what orders have of it; despatched is gone."""
    with store.reading() as db:
        shells = tuple(one for one in matching.every(db) if one.shell.state is not ShellState.DESPATCHED)
        found = tuple((one, book_of(store, one.stock.book)) for one in shells)
        return Stock(kept.cap(db), stock_claims.hours(db), found)


def stock_by_age(store: Store, now: datetime) -> tuple[Aged, ...]:
    """What is begun and no order has, the oldest first."""
    with store.reading() as db:
        free = [one for one in matching.every(db) if one.shell.deeds and one.allocated is None]
    aged = (_aged(one, book_of(store, one.stock.book), now) for one in free)
    return tuple(sorted(aged, key=lambda one: (-one.days, one.shell.stock.id)))


def _aged(one: InStock, book: Book, now: datetime) -> Aged:
    first = book.lists[0]
    tied = price_shell(book, one.stock.settled, Donor(), Tariff(first.id, {})).net
    return Aged(one, book, one.age(day_of(book, now)), tied, first.currency)


def make(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    line: int,
    working: Working,
    now: datetime,
    *,
    once: Once | None = None,
) -> StockShell:
    """As that line (from 1) of the revision is specified, without customer and donor car, by the book in force.

    It takes the first slot that is free beside everybody's. Raises NotFound, StockUnfit, StockFull, KeyReused,
    Underway, UnknownNames where the book in force has something no longer.
    """
    deal, tools = deal_of(store, actor, asked := _asked(store, actor, number, letter, line, now), now)
    said = said_of(store, deal, tools, asked.specification)[1]
    for why in _unfit(said):
        raise StockUnfit(why=why)

    def write(db: Database) -> int:
        _refuse_beyond(db)
        book, today = deal.book, day_of(deal.book, now)
        wants = wanted(book, said.settled, now)
        full = shop_of(db, book, working, today).plus(kept.waiting(db, today))
        plan = promised(book, wants, full, today)
        if plan is None:
            raise StockUnfit(why="stock-too-far")
        shell = kept.add(db, book.number, said.settled, actor.name, now, shell=shells.begin_for_stock(db))
        kept.place(db, shell, visits_of(plan, wants.kinds), plan.slot)
        kept.act(db, shell, StockAct.TAKEN, plan, "", actor.name, now)
        return shell

    return _get(store, perform(store, once, now, write))


def withdraw(store: Store, actor: Actor, shell: int, now: datetime) -> None:
    """It is not built: its slot is free. Raises NotFound, StockBegun."""
    today = day_of(current_book(store, now), now)
    with store.writing() as db:
        found = kept.get(db, shell)
        if found is None or found.act is StockAct.WITHDRAWN:
            raise NotFound(what="stock", name=str(shell))
        if found.begun(today) or shells.in_stock(db, found.shell, found.last_deed).deeds:
            raise StockBegun(number=found.number)
        leave(db, actor, found, now)


def set_hours(store: Store, actor: Actor, hours: int, now: datetime) -> None:
    """From now on a shell is held so long; what is held already stays as it was said."""
    with store.writing() as db:
        stock_claims.set_hours(db, hours, actor.name, now)


def set_cap(store: Store, actor: Actor, cap: int, now: datetime) -> None:
    """Lower than there are: no more is made, what is there stays."""
    with store.writing() as db:
        kept.set_cap(db, cap, actor.name, now)


def _asked(store: Store, actor: Actor, number: str, letter: str, line: int, now: datetime) -> Asked:
    with store.reading() as db:
        lines = own_revision(db, actor, number, letter, now).draft().lines
    if line > len(lines):
        raise NotFound(what="line", name=str(line))
    return Asked(lines[line - 1].specification)


def _refuse_beyond(db: Database) -> None:
    many, cap = len(kept.every(db)), kept.cap(db)
    if many >= cap:
        raise StockFull(count=many, most=cap)


def _unfit(said: Answer) -> Iterator[str]:
    """What is built for nobody can wait for nobody's part, word or colour, nor for a tool that is down."""
    if said.verdict is Verdict.CANT:
        yield "stock-cant"
    elif not said.complete:
        yield "stock-open"
    elif said.depends.parts or said.depends.approvals or said.depends.holds or said.depends.tools:
        yield "stock-waits"


def _get(store: Store, shell: int) -> StockShell:
    with store.reading() as db:
        found = kept.get(db, shell)
    assert found is not None
    return found

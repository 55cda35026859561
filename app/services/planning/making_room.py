"""Stock lies under the customers' plan: who is promised a day is planned as if no stock waited, and stock gives way.

A stock shell whose slot has come is in the workshop: it is planned around like any other, and stays.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.floor.gates import Gates
from app.domain.stock import StockAct, StockMove, StockShell
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.planning.dating import Working, promised, shop_of, wanted_of
from app.store import stock as kept
from app.store.db import Store
from rules.model import Book
from rules.schedule.capacity import Shop, slot_stage_of
from rules.schedule.days import route_days
from rules.schedule.promise import GateDay, Wanted, dated, visits_of
from rules.specification import Donor


def make_room(
    store: Store, db: Database, actor: Actor, working: Working, now: datetime, because: str = ""
) -> tuple[StockMove, ...]:
    """After the customers' plan was changed: stock that no longer fits beside it goes to the next free slot.

    `because`: the order that it makes room for.
    """
    waiting = _waiting(store, db, now)
    if not waiting:
        return ()
    book = current_book(store, now)
    full = shop_of(db, book, working, day_of(book, now))
    moves = tuple(moves_of(store, waiting, full, day_of(book, now)))
    for move in moves:
        kept.give_up(db, move.shell.id)
    for move in moves:
        kinds = wanted(book_of(store, move.shell.book), move.shell.settled, move.shell.made_at).kinds
        kept.place(db, move.shell.id, visits_of(move.after, kinds), move.after.slot)
        kept.act(db, move.shell.id, StockAct.MOVED, move.after, because, actor.name, now)
    return moves


def what_makes_room(store: Store, db: Database, full: Shop, now: datetime) -> tuple[StockMove, ...]:
    """The same for a plan of the customers' that nobody has written yet. Writes nothing."""
    waiting = _waiting(store, db, now)
    return tuple(moves_of(store, waiting, full, day_of(current_book(store, now), now))) if waiting else ()


def moves_of(store: Store, shells: Iterable[StockShell], full: Shop, today: date) -> Iterator[StockMove]:
    """`full`: the customers' plan with the stock that is in the workshop. Whoever fits where he is stays."""
    left = []
    for shell in shells:
        wants = wanted(book_of(store, shell.book), shell.settled, shell.made_at)
        visits = visits_of(shell.plan, wants.kinds)
        if all(full.fits(visit) for visit in visits if visit.stage in full.stages):
            full = full.plus(visits)
        else:
            left.append((shell, wants))
    for shell, wants in left:
        after = promised(book_of(store, shell.book), wants, full, today, dated)
        if after is not None:
            full = full.plus(visits_of(after, wants.kinds))
            yield StockMove(shell, after)


def wanted(book: Book, settled: Mapping[str, str], made_at: datetime) -> Wanted:
    """It waits for nobody: the work before its slot may begin on the day on which it was made."""
    route = route_days(book, settled, Donor())
    own = GateDay("stock", day_of(book, made_at), slot_stage_of(book), route.before_slot, opened=True)
    return wanted_of(book, settled, route, Gates((own,)))


def _waiting(store: Store, db: Database, now: datetime) -> list[StockShell]:
    """Those whose slot has not come yet, and who still take it."""
    today = day_of(current_book(store, now), now)
    return [shell for shell in kept.every(db) if not shell.begun(today) and _takes_slot(db, shell)]


def _takes_slot(db: Database, shell: StockShell) -> bool:
    """One that was framed sooner is in the workshop, and gives way no more."""
    return any(one.start == shell.plan.slot for one in kept.visits(db, shell.id))

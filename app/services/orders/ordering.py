"""Orders: made, in the very transaction of the customer's yes, once for each quotation. None is confirmed here.

While nothing of it is confirmed an order follows the last accepted revision; what was paid and written for it stays.
"""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import NotFound
from app.domain.orders.order import Order, OrderRow
from app.domain.paging import SIZE, Page
from app.domain.quotations.quotation import Revision
from app.services.quotations.enquiring import running_name
from app.store import history
from app.store import orders as kept
from app.store.db import Store
from rules.model import Book


def follow_acceptance(db: Database, actor: Actor, book: Book, quotation: str, revision: Revision, now: datetime) -> str:
    """The number of the order, new or followed on, with a planned shell for each piece of this revision.

    To be called once, where the yes is recorded: a yes is recorded once of a revision.
    """
    had = kept.of_quotation(db, quotation, None)
    key, number = had or _made(db, actor, running_name(db, "O", book, now), quotation, now)
    kept.follow(db, key, revision.id, revision.lines, actor.name, now)
    what = "order-follows" if had else "order-made"
    note(db, number, what, actor, now, quotation=quotation, letter=revision.letter)
    return number


def order(store: Store, actor: Actor, number: str, now: datetime) -> Order:
    """With its lines, shells and history. Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        return own_order(db, actor, number, now)


def order_of(store: Store, actor: Actor, quotation: str) -> str:
    """The number of the order that the quotation's acceptance made. Raises NotFound."""
    with store.reading() as db:
        found = kept.of_quotation(db, quotation, actor.dealer)
    if found is None:
        raise NotFound(what="order", name=quotation)
    return found[1]


def orders(store: Store, actor: Actor, *, text: str = "", after: int | None = None, size: int = SIZE) -> Page[OrderRow]:
    """The last made first, from `after` on; `text` is sought in numbers, customer's name, telephone and donor."""
    with store.reading() as db:
        return kept.rows(db, actor.dealer, text, size, after)


def own_order(db: Database, actor: Actor, number: str, now: datetime) -> Order:
    """For use inside a transaction. Raises NotFound."""
    found = kept.get(db, number, actor.dealer, now)
    if found is None:
        raise NotFound(what="order", name=number)
    return found


def note(db: Database, number: str, what: str, actor: Actor, now: datetime, **facts: str) -> None:
    """An entry of the order's history. No amount stands in it: prices may be hidden."""
    history.add(db, "order", number, what, actor.name, now, number=number, **facts)


def _made(db: Database, actor: Actor, number: str, quotation: str, now: datetime) -> tuple[int, str]:
    return kept.add(db, number, quotation, actor.name, now), number

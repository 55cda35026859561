"""Open orders as whoever waits for them follows them: how their shells stand, when they are ready, what binds that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from app.domain.asking.actor import Actor
from app.domain.floor.shell import ENDED, ShellState
from app.domain.orders.order import OrderRow
from app.domain.paging import Page
from app.services.orders.ordering import orders
from app.services.planning.dating import Working
from app.services.planning.promising import OrderDates, order_dates
from app.store.db import Store


@dataclass(frozen=True, slots=True)
class Followed:
    """An order with at least one shell that is still to come. `states`: how many of its shells stand how."""

    row: OrderRow
    dates: OrderDates
    states: tuple[tuple[ShellState, int], ...]


def open_orders(
    store: Store, actor: Actor, working: Working, now: datetime, *, after: int | None = None, size: int = 10
) -> Page[Followed]:
    """The last made first, from `after` on; a dealer's own. A page may hold fewer, and another still follow."""
    found = orders(store, actor, after=after, size=size)
    return Page(tuple(one for one in _followed(store, actor, found.rows, working, now) if _is_open(one)), found.next)


def _followed(
    store: Store, actor: Actor, rows: tuple[OrderRow, ...], working: Working, now: datetime
) -> Iterator[Followed]:
    for row in rows:
        dates = order_dates(store, actor, row.number, working, now)
        counted = Counter(shell.state for shell in dates.order.shells)
        yield Followed(row, dates, tuple((state, counted[state]) for state in ShellState if counted[state]))


def _is_open(one: Followed) -> bool:
    return any(state not in ENDED for state, _ in one.states)

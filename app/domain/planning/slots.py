"""Slots and promises as they are kept, and what moving one would do. Says what moves; moves nothing."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import Enum

from app.domain.customers.customer import Customer
from app.domain.stock import StockMove
from rules.model import Book
from rules.schedule.capacity import Visit
from rules.schedule.promise import GateDay, Promise


class Act(Enum):
    """What was done with a shell's slot."""

    TAKEN = "taken"
    MOVED = "moved"
    RELEASED = "released"


@dataclass(frozen=True, slots=True)
class Seat:
    """A shell of an order by its place in it, counted from 1: it outlasts a change of the order's revision."""

    order: int
    number: str
    place: int


@dataclass(frozen=True, slots=True)
class Kept:
    """The promise as it is planned. `route`: the days by stage that it was worked out with.

    `told`: what the customer was told, where that is another: a shell is built in the place of a rejected one, and
    nobody has told him its days.
    """

    seat: Seat
    promise: Promise
    route: str
    at: datetime
    by: str
    told: Promise | None = None

    @property
    def promised(self) -> Promise:
        """What the customer was told last."""
        return self.told or self.promise

    @property
    def late(self) -> bool:
        """Whether it is planned later than he was told."""
        return self.promise.ready > self.promised.ready


@dataclass(frozen=True, slots=True)
class Due:
    """A gate and the last day on which it may open without moving the promise."""

    gate: GateDay
    by: date | None


@dataclass(frozen=True, slots=True)
class Move:
    """A promise before and after; `after` None: its slot is given up. `book`: the one that its order was quoted by."""

    seat: Seat
    book: Book
    customer: Customer
    before: Promise
    after: Promise | None

    @property
    def days_move(self) -> bool:
        """Whether the customer's dates move, and not only the slot."""
        return self.after is None or (self.before.ready, self.before.ready_by) != (
            self.after.ready,
            self.after.ready_by,
        )


def places_kept(before: Sequence[object], after: Sequence[object]) -> dict[int, int]:
    """Place after → place before (both from 1) of the shell whose slot it keeps, where what is built is compared.

    First who stays as he was in his place, then who is the same in another, then whoever is left, in their order.
    """
    kept: dict[int, int] = {}
    for same in (_in_place, _alike, _any):
        for place, wanted in enumerate(after, start=1):
            left = (
                n for n in range(1, len(before) + 1) if n not in kept.values() and same(n, before[n - 1], place, wanted)
            )
            found = None if place in kept else next(left, None)
            if found is not None:
                kept[place] = found
    return kept


def _in_place(had: int, before: object, place: int, after: object) -> bool:
    return had == place and before == after


def _alike(had: int, before: object, place: int, after: object) -> bool:
    return before == after


def _any(had: int, before: object, place: int, after: object) -> bool:
    return True


def still_taken(visits: Iterable[Visit], done: Collection[str], today: date) -> tuple[Visit, ...]:
    """What a shell takes of the stages where some are done: a stay that has begun ends today, one to come is none."""
    return tuple(
        one if one.stage not in done else replace(one, end=max(one.start, min(one.end, today)))
        for one in visits
        if one.stage not in done or one.start <= today
    )


class Barred(Enum):
    """Why a slot cannot be moved there. An answer, not a fault."""

    CLOSED = "closed"
    PAST = "past"
    GATE = "gate"
    FULL = "full"
    BEGUN = "begun"


@dataclass(frozen=True, slots=True)
class Proposal:
    """What a move would do; `token` names exactly this list, and is handed back by who has read it.

    `stock`: what is built for stock and makes room; nobody was promised it, so nobody is asked.
    """

    moves: tuple[Move, ...]
    token: str
    barred: Barred | None = None
    earliest: date | None = None
    stock: tuple[StockMove, ...] = ()

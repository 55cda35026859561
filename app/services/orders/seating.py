"""What the shells of an order are, in their places, and how their gates stand today. Plans nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.books.tool_state import ToolStates
from app.domain.floor.gates import OF_THE_ORDER, Gates, Key, Said, gates_of
from app.domain.floor.shell import ShellState
from app.domain.orders.order import Order
from app.domain.part import gates_by_parts
from app.domain.planning.slots import Seat
from app.domain.quotations.approval import granted
from app.domain.quotations.quotation import FrozenLine
from app.domain.stock import StockShell
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.books.tools import tool_states
from app.services.money.accounts import deposit_met
from app.services.orders.ordering import own_order
from app.services.planning.dating import back_of
from app.services.quotations.approved import needs
from app.store import slots as kept
from app.store.db import Store
from rules.model import Book
from rules.schedule.capacity import slot_stage_of
from rules.schedule.days import Route, route_days

#: The gate that takes a slot.
DEPOSIT: Key = ("deposit", "")
SPECIFICATION: Key = ("specification", "")


@dataclass(frozen=True, slots=True)
class WholeOrder:
    """What all shells of an order share. `shells`: line (from 1) and specification, in order of their places.

    `deposit_met` by the money that stands; `stock`: it is no order, but a shell of stock as the floor reads it.
    `approved`: place and rule → the day of a yes that came after the revision had gone out.
    """

    order: Order
    book: Book
    today: date
    said: Mapping[tuple[int, Key], Said]
    tools: ToolStates
    shells: tuple[tuple[int, FrozenLine], ...]
    deposit_met: bool = False
    stock: StockShell | None = None
    approved: Mapping[tuple[int, str], date] = field(default_factory=dict)

    @property
    def places(self) -> range:
        """Of its shells, from 1."""
        return range(1, len(self.shells) + 1)

    @property
    def wanting(self) -> tuple[int, ...]:
        """Places of those that are to be built: a cancelled shell takes no slot."""
        stands = zip(self.places, self.order.shells, strict=True)
        return tuple(place for place, shell in stands if shell.state is not ShellState.CANCELLED)

    def past_slot(self, place: int, slot: date) -> bool:
        """Whether the shell is in the workshop: the day of its slot has come, or what is done there was done sooner."""
        return slot <= self.today or slot_stage_of(self.book) in self.order.shells[place - 1].progress.through

    @property
    def deposit_through(self) -> bool:
        said = self.said.get((0, DEPOSIT))
        return said is not None and said.day <= self.today


@dataclass(frozen=True, slots=True)
class GatedShell:
    """A shell by its place, with its gates as they stand. `line` counts from 1; `said`: what was dated by hand."""

    seat: Seat
    line: int
    frozen: FrozenLine
    route: Route
    said: Mapping[Key, Said]
    gates: Gates


class WholeOrders:
    """By their numbers, as the actor may see them, inside a transaction: each is read once for all of its shells."""

    def __init__(self, store: Store, db: Database, actor: Actor, now: datetime) -> None:
        self.store, self.db, self.actor, self.now = store, db, actor, now
        self._read: dict[str, WholeOrder] = {}

    def get(self, number: str) -> WholeOrder:
        """Raises NotFound."""
        if number not in self._read:
            order = own_order(self.db, self.actor, number, self.now)
            self._read[number] = whole_order(self.store, self.db, order, self.now)
        return self._read[number]


def whole_order(store: Store, db: Database, order: Order, now: datetime) -> WholeOrder:
    """For use inside a transaction."""
    book = book_of(store, order.revision.book or 0)
    today, met = day_of(book, now), deposit_met(db, order)
    said, tools, shells = _said(db, order, today, met), tool_states(store), tuple(_shells(order))
    return WholeOrder(order, book, today, said, tools, shells, met, approved=_late_yeses(store, order, book, shells))


def _late_yeses(
    store: Store, order: Order, book: Book, shells: Sequence[tuple[int, FrozenLine]]
) -> Mapping[tuple[int, str], date]:
    """What was approved before the revision went out stands on it; only what is still missing there is looked up."""
    open_at = {
        place: frozen
        for place, (_, frozen) in enumerate(shells, start=1)
        if {*frozen.depends.approvals} - {one.rule for one in frozen.approved}
    }
    bound = [(frozen.settled, frozen.depends.approvals) for frozen in open_at.values()]
    found = zip(open_at, needs(store, order.revision.id, book, bound), strict=True)
    return {(place, one.rule): one.day for place, line in found for one in granted(line, {})}


def _said(db: Database, order: Order, today: date, met: bool) -> Mapping[tuple[int, Key], Said]:
    """A deposit that was dated opens nothing while the money for it does not stand; parts speak for themselves."""
    said = gates_by_parts(kept.gates_said(db, order.id), order.parts, today)
    deposit = said.get((0, DEPOSIT))
    if deposit is None or deposit.day > today or met:
        return said
    return {key: one for key, one in said.items() if key != (0, DEPOSIT)}


def _shells(order: Order) -> Iterator[tuple[int, FrozenLine]]:
    for number, line in enumerate(order.lines, start=1):
        for shell in line.shells:
            yield number, line.frozen_of(shell)


def gated_shell(whole: WholeOrder, place: int) -> GatedShell:
    """No plan is looked at."""
    line, frozen = whole.shells[place - 1]
    route = route_days(whole.book, frozen.settled, whole.order.frozen.donor.facts())
    said = {key: one for (at, key), one in whole.said.items() if at == (0 if key[0] in OF_THE_ORDER else place)}
    days = {**_approved(whole, place, frozen), **{key: one.day for key, one in said.items()}}
    gates = gates_of(whole.book, route, frozen.depends, days, back_of(whole.tools), whole.today)
    return GatedShell(Seat(whole.order.id, whole.order.number, place), line, frozen, route, said, gates)


def _approved(whole: WholeOrder, place: int, frozen: FrozenLine) -> dict[Key, date]:
    """Given before the revision was issued, or since."""
    late = {("approvals", rule): day for (at, rule), day in whole.approved.items() if at == place}
    return late | {("approvals", one.rule): one.day for one in frozen.approved}

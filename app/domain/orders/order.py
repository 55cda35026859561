"""An order: made by the customer's yes, it follows the last accepted revision of its quotation. Lines become shells.

An order is no quotation and a shell is no line: each shell has a serial, a stage and papers of its own, and how the
order stands is read off its shells. Nothing here confirms an order.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from app.domain.floor.kit import KitCheck
from app.domain.floor.sheets import SheetRevision
from app.domain.floor.shell import Done, Progress, ShellState, Stop, progress
from app.domain.part import Arrival
from app.domain.quotations.quotation import DeliveryPlace, Frozen, FrozenLine, Happening, QuotationLine, Revision
from rules.money.totals import CaseTotal, Totals

#: On its way through the shop, in this order.
_WAY = tuple(ShellState)[:7]


@dataclass(frozen=True, slots=True)
class Shell:
    """`place` counts from 1 within its line; the serial comes at release, and with it the `route`, frozen.

    `turn` counts from 1 the shells that were begun in this place; `replaced`: those before it, which were rejected.
    `sheets`: the revisions of its build sheet, the first with the release. `changed`: what signed change notes made of
    its specification; None where it is as its line was ordered.
    `failed`: the rules of its customer's parts that came and failed, for which nothing else has passed. `kit`: what was
    said of its kit, until it is released.
    `stock`: its number in the firm's stock, from which it came into this place.
    """

    id: int
    place: int
    serial: str | None = None
    turn: int = 1
    deeds: tuple[Done, ...] = ()
    route: tuple[Stop, ...] = ()
    replaced: tuple[Shell, ...] = ()
    sheets: tuple[SheetRevision, ...] = ()
    changed: FrozenLine | None = None
    failed: tuple[str, ...] = ()
    kit: tuple[KitCheck, ...] = ()
    stock: str = ""

    @property
    def sheet(self) -> SheetRevision | None:
        """The revision that is built by; None while it is planned."""
        return self.sheets[-1] if self.sheets else None

    @property
    def progress(self) -> Progress:
        return progress(self.deeds, self.route)

    @property
    def state(self) -> ShellState:
        """A shell that waits for its release is held by a customer's part that failed."""
        state = self.progress.state
        return ShellState.ON_HOLD if self.failed and state is ShellState.PLANNED else state


@dataclass(frozen=True, slots=True)
class OrderLine:
    """A line of the accepted revision with its shells. `position` counts from 0."""

    id: int
    position: int
    line: QuotationLine
    shells: tuple[Shell, ...]

    @property
    def frozen(self) -> FrozenLine:
        """As it was ordered."""
        if self.line.frozen is None:
            raise ValueError("An order follows an issued revision.")
        return self.line.frozen

    @property
    def net(self) -> int | None:
        """Before tax, of all its shells as they are by now; None: not priced."""
        nets = [self.frozen_of(shell).price.shell.net for shell in self.shells]
        return None if None in nets else sum(net or 0 for net in nets)

    def frozen_of(self, shell: Shell) -> FrozenLine:
        """What that shell is built as."""
        return shell.changed or self.frozen


@dataclass(frozen=True, slots=True)
class Basis:
    """An accepted revision that the order follows, or followed."""

    id: int
    letter: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class TaxDecision:
    """Which of the quotation's tax cases holds, decided by a named person."""

    case: str
    why: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Order:
    """`number` as in O-2026-00042; `revision` is the accepted one that it follows; `bases` all it ever followed.

    `amended`, `moved_to`: what signed change notes made of its totals, and of where it goes; None: nothing.
    `parts`: every customer's part that came for its shells.
    """

    id: int
    number: str
    quotation: str
    dealer: str | None
    made_at: datetime
    made_by: str
    revision: Revision
    lines: tuple[OrderLine, ...]
    bases: tuple[Basis, ...]
    decision: TaxDecision | None = None
    history: tuple[Happening, ...] = ()
    amended: Totals | None = None
    moved_to: DeliveryPlace | None = None
    parts: tuple[Arrival, ...] = ()

    @property
    def totals(self) -> Totals:
        """What it comes to by now."""
        return self.amended or self.frozen.totals

    @property
    def place(self) -> DeliveryPlace:
        """Where it goes by now."""
        return self.moved_to or self.revision.delivery_place

    @property
    def frozen(self) -> Frozen:
        """What was promised when it was issued: customer, currency, totals."""
        if self.revision.frozen is None:
            raise ValueError("An order follows an issued revision.")
        return self.revision.frozen

    @property
    def shells(self) -> tuple[Shell, ...]:
        return tuple(shell for line in self.lines for shell in line.shells)

    @property
    def state(self) -> ShellState:
        return state_of(shell.state for shell in self.shells)


@dataclass(frozen=True, slots=True)
class OrderRow:
    """An order as a list shows it. `cancelled`: whether all of its shells are; None where none is."""

    id: int
    number: str
    quotation: str
    letter: str
    customer: str
    dealer: str | None
    made_at: datetime
    shells: int
    cancelled: bool | None = None


@dataclass(frozen=True, slots=True)
class Deal:
    """What of an order says what it costs. `decided`: the tax case that a person decided on, None while nobody has."""

    currency: str
    totals: Totals
    decided: str | None

    @property
    def case(self) -> CaseTotal | None:
        """The totals that hold: the only case, or the one that a person decided; None while nobody has."""
        if self.totals.decided:
            return self.totals.cases[0]
        return next((case for case in self.totals.cases if case.kind == self.decided), None)


def state_of(shells: Iterable[ShellState]) -> ShellState:
    """The order's: a shell on hold holds it, else that of its shell that is least far on; cancelled once all are.

    A rejected shell is replaced under its line: it does not speak for the order while another one does.
    """
    states = set(shells)
    on_the_way = [state for state in _WAY if state in states]
    if ShellState.ON_HOLD in states:
        return ShellState.ON_HOLD
    if on_the_way:
        return on_the_way[0]
    return ShellState.REJECTED if ShellState.REJECTED in states else ShellState.CANCELLED


def case_of(order: Order) -> CaseTotal | None:
    """The totals that hold of the order."""
    return deal_of(order).case


def deal_of(order: Order) -> Deal:
    decided = None if order.decision is None else order.decision.case
    return Deal(order.frozen.currency, order.totals, decided)

"""What an order still lacks before it is confirmed, and what its confirmation fixed. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum

from app.domain.orders.order import Order
from app.domain.quotations.approval import Need


class Lacking(Enum):
    """What can be missing; the word stands in sentences and on the page."""

    TAX_CASE = "tax-case"
    DEPOSIT = "deposit"
    DEPOSIT_DAY = "deposit-day"
    SPECIFICATION = "specification"
    APPROVAL = "approval"
    DONOR = "donor"


@dataclass(frozen=True, slots=True)
class Lack:
    """`rule` and `line` (from 1) of an approval; `number` of a donor car as it was typed."""

    what: Lacking
    rule: str = ""
    line: int = 0
    number: str = ""


@dataclass(frozen=True, slots=True)
class PartDue:
    """A customer's part of a shell and the last day on which it may pass; None where no day can be named."""

    rule: str
    by: date | None


@dataclass(frozen=True, slots=True)
class Stay:
    """In at a stage from `start` until `end`."""

    stage: str
    start: date
    end: date


@dataclass(frozen=True, slots=True)
class ShellFixed:
    """What was promised of a shell by its place in the order, from 1; no slot: none was taken yet."""

    place: int
    line: int
    slot: date | None
    ready: date | None
    ready_by: date | None
    parts: tuple[PartDue, ...] = ()
    stays: tuple[Stay, ...] = ()


@dataclass(frozen=True, slots=True)
class Fixed:
    """What the confirmation's paper says beside the frozen specification. `deposit` in the order's minor units."""

    dated: date
    author: str
    deposit: int
    received: int
    shells: tuple[ShellFixed, ...]


@dataclass(frozen=True, slots=True)
class Confirmation:
    """`why`: the manager's reason where another confirmed order has the same donor car."""

    id: int
    letter: str
    at: datetime
    by: str
    why: str
    fixed: Fixed


def lacking(
    order: Order, *, deposit_met: bool, deposit_dated: bool, signed: bool, needs: Iterable[Need]
) -> Iterator[Lack]:
    """All of it at once. A deposit that has no day yet has taken no slot."""
    if not order.frozen.totals.decided and order.decision is None:
        yield Lack(Lacking.TAX_CASE)
    elif not deposit_met:
        yield Lack(Lacking.DEPOSIT)
    elif not deposit_dated:
        yield Lack(Lacking.DEPOSIT_DAY)
    if not signed:
        yield Lack(Lacking.SPECIFICATION)
    for need in needs:
        if not need.met:
            yield Lack(Lacking.APPROVAL, need.rule, need.line)
    donor = order.frozen.donor
    if donor.number_text.strip() and not donor.established:
        yield Lack(Lacking.DONOR, number=donor.number_text)

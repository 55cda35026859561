"""What was paid for an order, as it came: in the currency in which it came, never converted by us.

Money in another currency counts only for what was agreed of it: the amount in the order's own, the rate, its day and
who agreed. A row that was written by mistake stays, and counts for nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum


class Direction(Enum):
    RECEIVED = "received"
    PAID_BACK = "paid-back"


class Means(Enum):
    """How it came. Nothing here is checked against a bank."""

    BANK_TRANSFER = "bank-transfer"
    CARD = "card"
    CASH = "cash"
    CHEQUE = "cheque"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Agreement:
    """`amount` in the order's currency; `rate` as it was written; `agreed_by`: who, on which side."""

    amount: int
    rate: str
    rate_day: date
    agreed_by: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Mistake:
    """The payment was written down by mistake: why, who says so, when."""

    why: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Entry:
    """A payment as it is typed: whole minor units of `currency` (ISO 4217), positive either way."""

    direction: Direction
    amount: int
    currency: str
    day: date
    means: Means
    note: str = ""


@dataclass(frozen=True, slots=True)
class Payment:
    """`at`, `by`: when it was recorded, and by whom; `document`: the number of the document that it was taxed by."""

    id: int
    entry: Entry
    at: datetime
    by: str
    agreement: Agreement | None = None
    mistake: Mistake | None = None
    document: str | None = None

    @property
    def received(self) -> bool:
        return self.entry.direction is Direction.RECEIVED


def counted(payment: Payment, currency: str) -> int | None:
    """What it counts for in this currency; None while nothing is agreed of another one. A mistake counts for 0."""
    if payment.mistake is not None:
        return 0
    if payment.entry.currency == currency:
        return payment.entry.amount
    return None if payment.agreement is None else payment.agreement.amount

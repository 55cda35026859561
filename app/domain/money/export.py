"""The export limit: what was paid for in full must leave, and the evidence be held, within three months.

Source: VAT Notice 703 (gov.uk). It decides no tax: it says when to ask the accountant.

The months are counted from the day on which it was paid for in full or sent off, whichever was first: so the notice, as
it is remembered.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum

from dateutil.relativedelta import relativedelta

from app.domain.money.payment import Payment, counted

MONTHS = 3


def months_on(day: date) -> date:
    """The last day of the time that begins on that day."""
    last: date = day + relativedelta(months=MONTHS)
    return last


class EvidenceStands(Enum):
    """How it stands with the evidence of a shell that left as an export."""

    AWAITED = "awaited"
    OVERDUE = "overdue"
    HELD = "held"
    HELD_LATE = "held-late"


@dataclass(frozen=True, slots=True)
class Evidence:
    """What shows that it left the country, and the `day` since when that is held; None: it is no evidence after all."""

    what: str
    day: date | None
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class ExportEvidence:
    """Of a shell that left untaxed as an export. `paid`: the day on which it was paid for in full; None: it is not yet.

    `left`: the day on which it left the house. `said`: all that was recorded, in its order; the last word counts.
    """

    left: date
    paid: date | None
    said: tuple[Evidence, ...] = ()

    @property
    def since(self) -> date:
        """The day from which the months are counted."""
        return self.left if self.paid is None else min(self.left, self.paid)

    @property
    def due(self) -> date:
        """The last day for goods and evidence."""
        return months_on(self.since)

    @property
    def held(self) -> Evidence | None:
        return self.said[-1] if self.said and self.said[-1].day is not None else None

    def stands(self, today: date) -> EvidenceStands:
        """At the end of that day: the last day itself is in time."""
        if self.held is None:
            return EvidenceStands.AWAITED if today <= self.due else EvidenceStands.OVERDUE
        assert self.held.day is not None
        return EvidenceStands.HELD if self.held.day <= self.due else EvidenceStands.HELD_LATE


@dataclass(frozen=True, slots=True)
class ExportLimit:
    """`paid`: the day on which it was paid in full; `supposed`: it is not yet, and today is taken for that day.

    `ready` to `ready_by`: of the last shell.
    """

    paid: date
    supposed: bool
    ready: date
    ready_by: date

    @property
    def due(self) -> date:
        """The last day for goods and evidence."""
        return months_on(self.paid)

    @property
    def missed(self) -> bool:
        """It can't leave in time."""
        return self.ready > self.due

    @property
    def at_risk(self) -> bool:
        """It may not leave in time."""
        return self.ready_by > self.due


def paid_in_full(payable: int, currency: str, payments: Sequence[Payment]) -> date | None:
    """The day on which what counts first came to the whole; None while it does not."""
    had = 0
    for payment in sorted(payments, key=lambda one: one.entry.day):
        amount = counted(payment, currency) or 0
        had += amount if payment.received else -amount
        if had >= payable:
            return payment.entry.day
    return None

"""The export limit: what was paid for in full must leave, and the evidence be held, within three months.

Source: VAT Notice 703 (gov.uk). It decides no tax: it says when to ask the accountant.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from dateutil.relativedelta import relativedelta

from app.domain.payment import Payment, counted

MONTHS = 3


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
        last: date = self.paid + relativedelta(months=MONTHS)
        return last

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

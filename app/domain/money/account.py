"""How an order stands with its money: what is due, what came, whether the deposit's gate is open. Derived, never kept.

Nothing is converted: money in another currency of which nothing is agreed is named and counts for nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.money.payment import Payment, counted
from rules.money.totals import CaseTotal


@dataclass(frozen=True, slots=True)
class Account:
    """Whole minor units of `currency`, with tax. None where nobody has decided yet which tax case holds.

    `payable`: the whole price, or what the balance documents say of what they bill, less what was credited on them; of
    shells that are cancelled only what stands billed.
    `received`: what came and counts, less what was paid back. `short`: of the deposit, and of no more than is due where
    shells are cancelled. `over`: what was received beyond what is payable.
    `unagreed`: payments in another currency of which nothing is agreed.
    """

    currency: str
    payable: int | None
    deposit: int | None
    deposit_tax: int | None
    received: int
    short: int | None
    tolerance: int
    deposit_met: bool
    due: int | None
    over: int
    unagreed: tuple[Payment, ...]


def account_of(
    currency: str,
    case: CaseTotal | None,
    payments: Sequence[Payment],
    *,
    tolerance: int = 0,
    billed: int | None = None,
    stands_for: int | None = None,
    credited: int = 0,
    kept: int | None = None,
    to_come: int = 0,
) -> Account:
    """`billed`: with tax, by the balance documents, where there are any; `credited`: on them.

    `stands_for`: the part of the price with tax that they bill; None for the whole. `kept`: of an order with cancelled
    shells, what was billed in advance, not credited since, and is for no other shell; None of any other order.
    `to_come`: what its other shells cost, with tax, as far as no balance document bills them.
    """
    received = received_of(payments, currency)
    left = None if kept is None else kept + to_come
    payable = _payable(case, billed, stands_for, credited) if left is None else (billed or 0) - credited + left
    lacks = None if case is None else max(0, case.deposit - received)
    due = None if payable is None else max(0, payable - received)
    return Account(
        currency=currency,
        payable=payable,
        deposit=None if case is None else case.deposit,
        deposit_tax=None if case is None else case.deposit_tax,
        received=received,
        short=lacks if kept is None or lacks is None or due is None else min(lacks, due),
        tolerance=tolerance,
        deposit_met=lacks is not None and lacks <= tolerance,
        due=due,
        over=0 if payable is None else max(0, received - payable),
        unagreed=tuple(payment for payment in payments if counted(payment, currency) is None),
    )


def received_of(payments: Sequence[Payment], currency: str) -> int:
    """What came and counts, less what was paid back."""
    return sum(_signed(payment, currency) for payment in payments)


def _payable(case: CaseTotal | None, billed: int | None, stands_for: int | None, credited: int) -> int | None:
    """What is billed, and of what is not the price that was agreed."""
    if billed is None:
        return None if case is None else case.sum.payable
    rest = 0 if case is None or stands_for is None else case.sum.payable - stands_for
    return billed + rest - credited


def _signed(payment: Payment, currency: str) -> int:
    amount = counted(payment, currency) or 0
    return amount if payment.received else -amount

"""What part payments, balances, credits and refunds contain of the tax: whole minor units, each rounded once.

A part payment is taxed where and when it is paid: its tax is worked out once and never again. A rate that moves before
the balance therefore leaves two rows of the breakdown, one at each rate. Nothing here proposes what is kept or given.

Sources: VATTOS3600 (a deposit is a tax point of its own); VATREC12030 (half a penny up); EN 16931 (BT-113, prepaid).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import floor

from rules.money.rounding import half_up_exactly, percent_of
from rules.money.tax import STANDARD_RATE
from rules.money.totals import InvoiceSum, Taxable, TaxedSum, sum_up


@dataclass(frozen=True, slots=True)
class Balance:
    """`moved`: pairs of amounts that stand for what was paid in advance at a rate that has moved since.

    Of each pair the first takes it out of today's rate and the second puts it where it was taxed.
    """

    sum: InvoiceSum
    moved: tuple[Taxable, ...]


@dataclass(frozen=True, slots=True)
class Refund:
    """What is paid back and what is kept, with the tax in each; together what was received."""

    refunded: tuple[TaxedSum, ...]
    kept: tuple[TaxedSum, ...]


def gross(rows: Sequence[TaxedSum]) -> int:
    """The rows with their tax."""
    return sum(row.taxable + row.tax for row in rows)


def tax_of(rows: Sequence[TaxedSum]) -> int:
    return sum(row.tax for row in rows)


def net_of(rows: Sequence[TaxedSum]) -> int:
    return sum(row.taxable for row in rows)


def like(row: TaxedSum, rows: Sequence[TaxedSum]) -> list[TaxedSum]:
    """Those of the row's category and rate."""
    return [one for one in rows if (one.category, one.percent) == (row.category, row.percent)]


def part_of(amount: int, rows: Sequence[TaxedSum]) -> tuple[TaxedSum, ...]:
    """A payment with tax, shared over the rows by what each is with tax; the tax in all of them rounds half up, once.

    The whole gives the very rows: what was taxed is not taxed again.
    """
    whole = gross(rows)
    if amount == whole or not whole:
        return tuple(rows)
    shares = [Fraction(amount * (row.taxable + row.tax), whole) for row in rows]
    taxes = [share * _tax_share(row.percent) for share, row in zip(shares, rows, strict=True)]
    sizes, contained = shared(shares, amount), shared(taxes, half_up_exactly(sum(taxes, start=Fraction())))
    parts = zip(rows, sizes, contained, strict=True)
    return tuple(replace(row, taxable=size - tax, tax=tax) for row, size, tax in parts)


def shared(shares: Sequence[Fraction], whole: int) -> list[int]:
    """Whole units that add up to `whole`, as `shares` do: the largest remainders take what rounding down leaves."""
    sizes = [floor(share) for share in shares]
    order = sorted(range(len(shares)), key=lambda at: sizes[at] - shares[at])
    for at in order[: whole - sum(sizes)]:
        sizes[at] += 1
    return sizes


def shared_by(weights: Sequence[Fraction], whole: int) -> list[int]:
    """Whole units that add up to `whole`, in proportion to the weights; nothing where they weigh nothing."""
    together = sum(weights, start=Fraction())
    return shared([whole * weight / together for weight in weights], whole) if together else [0] * len(weights)


def at_rate(rows: Sequence[TaxedSum], percent: Decimal) -> tuple[TaxedSum, ...]:
    """The rows before tax, the standard rate being `percent` by now."""
    moved = sum_up(Taxable(r.taxable, r.category, percent if r.category == STANDARD_RATE else r.percent) for r in rows)
    return moved.taxed


def balance_of(lines: Sequence[Taxable], prepaid: Sequence[TaxedSum]) -> Balance:
    """The whole supply at today's rates, less what was paid and taxed in advance.

    `prepaid`: the rows of every document for a payment in advance, less what was credited on it.
    """
    today = {(line.category, line.percent) for line in lines}
    moved = tuple(part for row in prepaid for part in _moved(row, today))
    whole = sum_up((*lines, *moved), prepaid=gross(prepaid))
    taxed = tuple(_as_taxed(row, prepaid, today) for row in whole.taxed)
    tax = tax_of(taxed)
    with_tax = whole.without_tax + tax
    summed = replace(whole, taxed=taxed, tax=tax, with_tax=with_tax, payable=with_tax - whole.prepaid)
    return Balance(summed, moved)


def credit_of(net: int, row: TaxedSum, credited: Sequence[TaxedSum]) -> TaxedSum:
    """A credit of `net` before tax on a row of a document; the last of it takes the tax that is left."""
    before = like(row, credited)
    taken, taxed = net_of(before) + net, tax_of(before)
    tax = row.tax if taken == row.taxable else percent_of(taken, row.percent)
    return TaxedSum(row.category, row.percent, net, tax - taxed)


def refund_of(received: Sequence[TaxedSum], kept: int) -> Refund:
    """`received`: what was paid and taxed; `kept` with tax, as a person decided. Together to the penny."""
    refunded = part_of(gross(received) - kept, received)
    left = zip(received, refunded, strict=True)
    return Refund(refunded, tuple(replace(a, taxable=a.taxable - b.taxable, tax=a.tax - b.tax) for a, b in left))


def less(rows: Sequence[TaxedSum], credited: Sequence[TaxedSum]) -> tuple[TaxedSum, ...]:
    """The rows with what was credited on them taken off; rows of one category and rate become one."""
    left: dict[tuple[str, Decimal], TaxedSum] = {}
    for row, sign in (*((row, 1) for row in rows), *((row, -1) for row in credited)):
        key = (row.category, row.percent)
        had = left.get(key, TaxedSum(*key, 0, 0))
        left[key] = replace(had, taxable=had.taxable + sign * row.taxable, tax=had.tax + sign * row.tax)
    return tuple(row for row in left.values() if row.taxable or row.tax)


def _moved(row: TaxedSum, today: set[tuple[str, Decimal]]) -> tuple[Taxable, ...]:
    """Nothing where today has the row's rate, or nothing of its category to take it out of."""
    now = next((percent for category, percent in today if category == row.category), None)
    if now is None or (row.category, row.percent) in today:
        return ()
    return Taxable(-row.taxable, row.category, now), Taxable(row.taxable, row.category, row.percent)


def _as_taxed(row: TaxedSum, prepaid: Sequence[TaxedSum], today: set[tuple[str, Decimal]]) -> TaxedSum:
    """At a rate that has moved the tax is the documents' own, not worked out anew."""
    if (row.category, row.percent) in today:
        return row
    return replace(row, tax=tax_of(like(row, prepaid)))


def _tax_share(percent: Decimal) -> Fraction:
    """The part of a taxed amount that is its tax: 20 % of 100 is 20 of 120."""
    return Fraction(percent) / (100 + Fraction(percent))

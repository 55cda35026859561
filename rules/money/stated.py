"""What is taxed, stated besides in the currency that the tax office counts in: whole minor units, each rounded once.

The rate is handed in; none is looked up, made up or kept here. What a document in advance stated stays as it was
stated: only the rest is worked out, at the rate of its own day.

Source: GOV.UK, "Transactions in foreign currencies and VAT": the net value and the tax, at each rate, in sterling.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from rules.money.rounding import half_up_exactly
from rules.money.settlement import like, net_of, tax_of
from rules.money.totals import TaxedSum

Rows = Sequence[TaxedSum]


def stated(rows: Rows, each: Fraction, before: Rows = (), stated_before: Rows = ()) -> tuple[TaxedSum, ...]:
    """The rows with `each` minor units of the other currency for one of theirs.

    `before`: what of them was billed in advance, `stated_before` as it was stated then.
    """
    return tuple(_stated(row, each, _of(row, before), _of(row, stated_before)) for row in rows)


def stated_share(part: TaxedSum, whole: TaxedSum, as_stated: TaxedSum, taken: Rows, stated_taken: Rows) -> TaxedSum:
    """A part of a row that was stated `as_stated`; the last part takes what is left.

    `taken`: the parts before it, `stated_taken` as they were stated.
    """
    had, told = _of(part, taken), _of(part, stated_taken)
    taxable = _share(as_stated.taxable, had.taxable + part.taxable, whole.taxable) - told.taxable
    return replace(part, taxable=taxable, tax=_share(as_stated.tax, had.tax + part.tax, whole.tax) - told.tax)


def _stated(row: TaxedSum, each: Fraction, had: TaxedSum, told: TaxedSum) -> TaxedSum:
    taxable = told.taxable + half_up_exactly((row.taxable - had.taxable) * each)
    return replace(row, taxable=taxable, tax=told.tax + half_up_exactly((row.tax - had.tax) * each))


def _share(amount: int, part: int, whole: int) -> int:
    return half_up_exactly(Fraction(amount * part, whole)) if whole else 0


def _of(row: TaxedSum, rows: Rows) -> TaxedSum:
    """All of the row's category and rate, as one."""
    same = like(row, rows)
    return replace(row, taxable=net_of(same), tax=tax_of(same))

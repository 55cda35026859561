"""Rounding and shares of whole minor units. Decimal arithmetic, half a penny up (HMRC VATREC12030)."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor


def half_up(amount: Decimal) -> int:
    """Whole minor units; a half rounds away from zero, so an allowance rounds as the charge of its size does."""
    return int(amount.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def percent_of(amount: int, percent: Decimal) -> int:
    """`percent` (20 means 20 %) of `amount` minor units, half up."""
    return half_up(Decimal(amount) * percent / 100)


def half_up_exactly(amount: Fraction) -> int:
    """As `half_up`, for an amount that has no end as a decimal (a sixth), where rounding it first could hide a half."""
    size = floor(abs(amount) + Fraction(1, 2))
    return size if amount >= 0 else -size


def in_major_units(amount: int, digits: int) -> Decimal:
    """The amount as written on paper and in UBL; `digits`: minor-unit digits of the currency by ISO 4217."""
    return Decimal(amount).scaleb(-digits)

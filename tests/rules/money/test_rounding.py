"""Rounding of whole minor units."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iso4217 import Currency

from rules.money.rounding import half_up, half_up_exactly, in_major_units, percent_of


@pytest.mark.parametrize(
    ("amount", "rounded"),
    # HMRC VATREC12030: a half penny is rounded up. Halves to even, as Python's own rounding does, would give 2 and 4.
    [("2.5", 3), ("3.5", 4), ("2.4999", 2), ("0.5", 1), ("0", 0)],
)
def test_half_a_penny_rounds_up(amount: str, rounded: int) -> None:
    assert half_up(Decimal(amount)) == rounded
    assert half_up_exactly(Fraction(amount)) == rounded


@pytest.mark.parametrize("amount", ["0.5", "1.5", "2.49", "7.51"])
def test_an_allowance_rounds_as_the_charge_of_its_size(amount: str) -> None:
    assert half_up(-Decimal(amount)) == -half_up(Decimal(amount))
    assert half_up_exactly(-Fraction(amount)) == -half_up_exactly(Fraction(amount))


def test_three_per_cent_of_a_trade_roadster_is_rounded_up_from_half_a_penny() -> None:
    # 3 % of 10 072.50 is 302.175
    assert percent_of(1007250, Decimal(3)) == 30218


def test_half_of_a_sixth_is_not_lost() -> None:
    # 20 of 120 of three pence is exactly half a penny; 0.1666… × 3 in decimals may fall short of it
    assert half_up_exactly(Fraction(3) * Fraction(20, 120)) == 1


@given(st.integers(-(10**12), 10**12), st.decimals(0, 100, places=2))
def test_a_share_is_within_half_a_unit_of_the_exact_one(amount: int, percent: Decimal) -> None:
    share = percent_of(amount, percent)
    assert type(share) is int
    assert abs(share - Fraction(amount) * Fraction(percent) / 100) <= Fraction(1, 2)
    assert share == half_up_exactly(Fraction(amount) * Fraction(percent) / 100)


@pytest.mark.parametrize(
    ("code", "written"),
    # ISO 4217, as PyPI iso4217 carries it: two digits, none, three
    [("GBP", "12.34"), ("EUR", "12.34"), ("USD", "12.34"), ("ZAR", "12.34"), ("JPY", "1234"), ("KWD", "1.234")],
)
def test_minor_units_are_written_by_the_digits_of_the_currency(code: str, written: str) -> None:
    digits = Currency(code).exponent
    assert digits is not None
    assert str(in_major_units(1234, digits)) == written

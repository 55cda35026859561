"""Tax stated in another currency: each part rounded once, and parts that add up to the whole.

GOV.UK, "Transactions in foreign currencies and VAT": net value and tax at each rate, in sterling.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from rules.money.stated import stated, stated_share
from rules.money.totals import TaxedSum

RATE = Fraction(8642, 10_000)


def row(taxable: int, tax: int, percent: str = "20", category: str = "S") -> TaxedSum:
    return TaxedSum(category, Decimal(percent), taxable, tax)


def test_net_and_tax_are_each_stated_half_up_by_the_rate() -> None:
    """1 005.00 × 0.8642 = 868.521; 201.00 × 0.8642 = 173.7042."""
    assert stated([row(100_500, 20_100)], RATE) == (row(86_852, 17_370),)
    assert stated([row(50, -50)], Fraction(1, 100)) == (row(1, -1),)


def test_what_was_billed_in_advance_stays_as_it_was_stated_and_only_the_rest_takes_the_new_rate() -> None:
    """A deposit of 250.00 and 50.00, stated at 0.9 as 225.00 and 45.00; 750.00 and 150.00 are left at 0.8642."""
    whole, deposit, told = row(100_000, 20_000), row(25_000, 5_000), row(22_500, 4_500)
    assert stated([whole], RATE, [deposit], [told]) == (row(22_500 + 64_815, 4_500 + 12_963),)


def test_rows_of_another_rate_or_category_are_not_touched_by_it() -> None:
    others = [row(25_000, 1_250, "5"), row(25_000, 0, "20", "Z")]
    assert stated([row(100_000, 20_000)], RATE, others, others) == (row(86_420, 17_284),)


def test_a_share_of_what_was_stated_is_as_large_as_its_part_and_the_last_takes_what_is_left() -> None:
    whole, told, third = row(30_000, 6_000), row(10_001, 2_003), row(10_000, 2_000)
    first = stated_share(third, whole, told, [], [])
    second = stated_share(third, whole, told, [third], [first])
    last = stated_share(third, whole, told, [third, third], [first, second])
    assert [one.taxable for one in (first, second, last)] == [3_334, 3_333, 3_334]
    assert [one.tax for one in (first, second, last)] == [668, 667, 668]


def test_a_share_counts_only_parts_of_its_own_rate() -> None:
    other = row(20_000, 1_000, "5")
    assert stated_share(row(10_000, 2_000), row(20_000, 4_000), row(10_000, 2_000), [other], [other]) == row(
        5_000, 1_000
    )


def test_of_a_row_of_nothing_a_share_is_nothing() -> None:
    assert stated_share(row(0, 0), row(0, 0), row(0, 0), [], []) == row(0, 0)


@given(
    st.lists(st.tuples(st.integers(0, 10**7), st.integers(0, 10**6)), min_size=1, max_size=6), st.integers(1, 20_000)
)
def test_all_shares_together_are_what_was_stated(parts: list[tuple[int, int]], rate: int) -> None:
    rows = [row(*part) for part in parts]
    whole = row(sum(one.taxable for one in rows), sum(one.tax for one in rows))
    (told,) = stated([whole], Fraction(rate, 10_000))
    shares: list[TaxedSum] = []
    for number, part in enumerate(rows):
        shares.append(stated_share(part, whole, told, rows[:number], shares))
    assert (sum(one.taxable for one in shares), sum(one.tax for one in shares)) == (told.taxable, told.tax)

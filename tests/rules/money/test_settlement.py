"""Part payments, balances, credits and refunds, to the penny. Sums of the cases are worked out by hand there."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from rules.money.settlement import at_rate, balance_of, credit_of, gross, less, net_of, part_of, refund_of, tax_of
from rules.money.totals import Taxable, TaxedSum, sum_up, tax_in

TWENTY, TWENTY_TWO = Decimal(20), Decimal(22)

#: Case 12: 12 375.00 before tax, 14 850.00 with it; its deposit of a quarter.
CASE_12 = TaxedSum("S", TWENTY, 12_375_00, 2_475_00)
ADVANCE = TaxedSum("S", TWENTY, 3_093_75, 618_75)

#: An order of which one part stays at home and one goes abroad.
rows_of_two = st.tuples(st.integers(1, 9_999_999), st.integers(1, 9_999_999)).map(
    lambda nets: sum_up([Taxable(nets[0], "S", TWENTY), Taxable(nets[1], "G", Decimal(0))])
)


def test_the_deposit_of_case_12_holds_618_75_of_tax() -> None:
    assert part_of(3_712_50, [CASE_12]) == (ADVANCE,)


def test_the_whole_is_not_taxed_again() -> None:
    odd = TaxedSum("S", TWENTY, 100, 21)  # two documents may have rounded up
    assert part_of(121, [odd]) == (odd,)


@given(rows_of_two, st.integers(0, 100))
def test_a_part_adds_up_and_holds_the_tax_that_the_quotation_told(whole: object, percent: int) -> None:
    rows = whole.taxed  # type: ignore[attr-defined]
    amount = gross(rows) * percent // 100
    part = part_of(amount, rows)
    assert gross(part) == amount
    if amount != gross(rows):
        assert tax_of(part) == tax_in(amount, whole)  # type: ignore[arg-type]
    assert all(row.tax == 0 for row in part if row.category == "G")


def test_the_balance_of_case_12_is_the_one_that_was_quoted() -> None:
    balance = balance_of([Taxable(12_375_00, "S", TWENTY)], [ADVANCE])
    assert balance.moved == ()
    assert (balance.sum.tax, balance.sum.with_tax, balance.sum.payable) == (2_475_00, 14_850_00, 11_137_50)


def test_case_24_a_rate_that_moved_leaves_two_rows_and_the_first_is_not_worked_out_again() -> None:
    balance = balance_of([Taxable(12_375_00, "S", TWENTY_TWO)], [ADVANCE])
    # 12 375.00 - 3 093.75 = 9 281.25; 22 % of that is 2 041.875
    assert balance.sum.taxed == (TaxedSum("S", TWENTY_TWO, 9_281_25, 2_041_88), ADVANCE)
    assert (balance.sum.lines_net, balance.sum.without_tax) == (12_375_00, 12_375_00)
    assert (balance.sum.with_tax, balance.sum.payable) == (15_035_63, 11_323_13)


def test_a_penny_that_documents_rounded_stays_where_they_put_it() -> None:
    paid = TaxedSum("S", TWENTY, 100, 21)
    balance = balance_of([Taxable(1_000, "S", TWENTY_TWO)], [paid])
    assert balance.sum.taxed[1] == paid
    assert balance.sum.prepaid == 121
    # 900 at 22 % are 198, and 21 on the 100 that the documents made 21 of
    assert (balance.sum.tax, balance.sum.with_tax, balance.sum.payable) == (219, 1_219, 1_098)


def test_a_promise_before_tax_is_taxed_at_the_rate_of_the_day() -> None:
    assert at_rate([CASE_12, TaxedSum("G", Decimal(0), 100, 0)], TWENTY_TWO) == (
        TaxedSum("S", TWENTY_TWO, 12_375_00, 2_722_50),
        TaxedSum("G", Decimal(0), 100, 0),
    )


def test_case_23_goodwill_of_150_takes_30_of_tax_with_it() -> None:
    assert credit_of(150_00, CASE_12, ()) == TaxedSum("S", TWENTY, 150_00, 30_00)


@given(st.integers(1, 99_999), st.lists(st.integers(1, 9_999), max_size=6))
def test_credits_that_come_to_the_whole_take_the_very_tax_of_it(taxable: int, parts: list[int]) -> None:
    (row,) = sum_up([Taxable(taxable, "S", TWENTY)]).taxed
    credited: list[TaxedSum] = []
    for net in parts:
        if net_of(credited) + net < taxable:
            credited.append(credit_of(net, row, credited))
    credited.append(credit_of(taxable - net_of(credited), row, credited))
    assert (net_of(credited), tax_of(credited)) == (row.taxable, row.tax)
    assert less([row], credited) == ()


def test_what_is_left_of_a_document_is_net_and_tax_less_what_was_credited() -> None:
    left = TaxedSum("S", TWENTY, 9_281_25, 1_856_25)
    assert less([CASE_12], [ADVANCE]) == (left,)
    assert less([ADVANCE, ADVANCE], [ADVANCE]) == (ADVANCE,)


def test_case_22_2000_kept_of_the_deposit_leave_1712_50_with_285_42_of_tax() -> None:
    refund = refund_of([ADVANCE], 2_000_00)
    assert (gross(refund.refunded), tax_of(refund.refunded)) == (1_712_50, 285_42)
    assert (gross(refund.kept), tax_of(refund.kept)) == (2_000_00, 333_33)
    assert tax_of(refund.refunded) + tax_of(refund.kept) == 618_75


@given(rows_of_two, st.integers(0, 100))
def test_refunded_and_kept_come_to_what_was_received_in_every_row(whole: object, percent: int) -> None:
    received = whole.taxed  # type: ignore[attr-defined]
    refund = refund_of(received, gross(received) * percent // 100)
    assert gross(refund.kept) == gross(received) * percent // 100
    assert less((*refund.kept, *refund.refunded), received) == ()

"""From line nets to what is payable. Desk sums are worked out by hand; the worked invoices are Peppol's."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rules.money.price import Tariff
from rules.money.tax import TaxCase
from rules.money.totals import (
    CaseTotal,
    QuotedPrice,
    Taxable,
    TaxedSum,
    Totals,
    Wanted,
    dearer_each,
    manager_must_approve,
    price_quotation,
    sum_up,
    tax_in,
    total,
    with_extra,
    with_tax,
)
from tests.rules.money.small_book import BOOK, COUPE, NO_DONOR, ROADSTER, cases

PRIVATE = Tariff("GBP")
TRADE = Tariff("GBP", {"A": Decimal(15), "B": Decimal(5)})
EURO = Tariff("EUR", {"A": Decimal(12), "B": Decimal(5)})
TERMS = BOOK.terms
COLLECTED = cases("collected", None, "GB")


def _s(amount: int, percent: int = 25) -> Taxable:
    return Taxable(amount, "S", Decimal(percent))


def _quoted(
    made: Mapping[str, str], tariff: Tariff, found: tuple[TaxCase, ...], number: int = 1, **extras: int
) -> tuple[QuotedPrice, Totals]:
    wanted = [Wanted(made, NO_DONOR, number, found)]
    price = price_quotation(BOOK, wanted, {name.replace("_", "-"): n for name, n in extras.items()}, tariff)
    totals = total(price, wanted, TERMS)
    assert totals is not None
    return price, totals


def _only(totals: Totals) -> CaseTotal:
    (case,) = totals.cases
    assert totals.decided
    return case


def test_peppol_example_with_two_rates() -> None:
    # Peppol BIS Billing 3, example file with several rates: lines 4000 and 900 at 25 %, 2000 at 15 %, charge 200,
    # allowance 100
    whole = sum_up(
        [_s(400000), _s(200000, 15), _s(90000)],
        allowances=[_s(10000)],
        charges=[_s(20000)],
    )
    assert (whole.lines_net, whole.allowances, whole.charges, whole.without_tax) == (690000, 10000, 20000, 700000)
    assert whole.taxed == (
        TaxedSum("S", Decimal(25), 500000, 125000),
        TaxedSum("S", Decimal(15), 200000, 30000),
    )
    assert (whole.tax, whole.with_tax, whole.payable) == (155000, 855000, 855000)


def test_peppol_example_with_a_prepaid_amount() -> None:
    # Peppol BIS Billing 3, base example: 4000 and 900 at 25 %, 1000 at 0 %, charge and allowance of 200, prepaid 1000
    whole = sum_up(
        [_s(400000), Taxable(100000, "E", Decimal(0)), _s(90000)],
        allowances=[_s(20000)],
        charges=[_s(20000)],
        prepaid=100000,
    )
    assert (whole.with_tax, whole.prepaid, whole.payable) == (712500, 100000, 612500)


def test_tax_is_worked_by_category_and_not_by_line() -> None:
    # 3 × 10.12 at 20 %: 30.36 → 6.072; by line it would be 3 × 2.02 = 6.06
    assert sum_up([_s(1012, 20)] * 3).tax == 607


def test_a_rate_that_moves_makes_two_categories_never_one_recomputed() -> None:
    whole = sum_up([_s(10005, 20), _s(10005, 22)])
    assert [(row.percent, row.tax) for row in whole.taxed] == [(Decimal(20), 2001), (Decimal(22), 2201)]


def test_a_home_roadster_by_our_van() -> None:
    _, totals = _quoted({**ROADSTER, "delivery": "van"}, PRIVATE, cases("van", "GB", "GB"))
    case = _only(totals)
    assert (totals.lines_net, case.sum.tax, case.sum.with_tax) == (1237500, 247500, 1485000)
    assert (case.deposit, case.deposit_tax, case.balance) == (371250, 61875, 1113750)


def test_three_trade_shells_and_the_half_penny() -> None:
    price, totals = _quoted(ROADSTER, TRADE, COLLECTED, number=3)
    case = _only(totals)
    assert price.lines[0].net == 2931096 + 72000
    assert (totals.lines_net, case.sum.tax, case.sum.payable) == (3003096, 600619, 3603715)
    assert (case.deposit, case.deposit_tax, case.balance) == (900929, 150155, 2702786)


def test_shells_are_counted_over_all_lines() -> None:
    wanted = [Wanted(ROADSTER, NO_DONOR, 2, COLLECTED), Wanted(COUPE, NO_DONOR, 1, COLLECTED)]
    price = price_quotation(BOOK, wanted, {}, TRADE)
    totals = total(price, wanted, TERMS)
    assert totals is not None
    assert (price.shells, price.net) == (3, 3114404)
    assert (_only(totals).sum.tax, _only(totals).sum.payable) == (622881, 3737285)


def test_what_the_others_cost_more_when_the_third_is_dropped_is_said_before() -> None:
    three = [Wanted(ROADSTER, NO_DONOR, 2, COLLECTED), Wanted(ROADSTER, NO_DONOR, 1, COLLECTED)]
    two = [Wanted(ROADSTER, NO_DONOR, 2, COLLECTED), Wanted(ROADSTER, NO_DONOR, 0, COLLECTED)]
    before, after = (price_quotation(BOOK, wanted, {}, TRADE) for wanted in (three, two))
    dearer, _ = dearer_each(before, after)
    assert after.net == 2062500
    assert dearer == 30218
    assert with_tax(dearer, Decimal(20)) == 36262


def test_a_euro_coupe_to_germany_is_exported_without_tax() -> None:
    made = {**COUPE, "finish": "painted", "scope": "shuts", "colour": "frost", "packing": "crate"}
    _, totals = _quoted({**made, "delivery": "door-germany"}, EURO, cases("door-germany", "DE", "DE"))
    case = _only(totals)
    assert (case.kind, case.sum.payable, case.sum.tax) == ("export", 2233840, 0)
    assert (case.deposit, case.deposit_tax) == (558460, 0)
    assert case.sum.taxed == (TaxedSum("G", Decimal(0), 2233840, 0),)


def test_collected_by_a_customer_from_abroad_shows_both_totals_each_with_its_deposit() -> None:
    _, totals = _quoted(ROADSTER, PRIVATE, cases("collected", None, "ZA"))
    assert (totals.lines_net, totals.decided) == (1209000, False)
    shown = [(case.kind, case.sum.tax, case.sum.payable, case.deposit) for case in totals.cases]
    assert shown == [("export", 0, 1209000, 302250), ("standard", 241800, 1450800, 362700)]


def test_one_undecided_line_leaves_the_whole_undecided() -> None:
    wanted = [
        Wanted(ROADSTER, NO_DONOR, 1, cases("collected", None, "ZA")),
        Wanted(ROADSTER, NO_DONOR, 1, cases("van", "GB", "ZA")),
    ]
    totals = total(price_quotation(BOOK, wanted, {}, PRIVATE), wanted, TERMS)
    assert totals is not None
    assert not totals.decided
    as_export, taxed = totals.cases
    assert [(row.category, row.taxable) for row in as_export.sum.taxed] == [("G", 1209000), ("S", 1209000)]
    assert [(row.category, row.taxable) for row in taxed.sum.taxed] == [("S", 2418000)]
    # half of what the mixed sum's deposit is worth carries tax: 241 800 of 2 659 800 × the deposit 664 950
    assert (as_export.deposit, as_export.deposit_tax) == (664950, 60450)


def test_extras_stand_beside_the_specification_and_are_taxed_with_it() -> None:
    price, totals = _quoted(ROADSTER, PRIVATE, COLLECTED, photo_book=1, storage_week=3)
    assert [extra.net for extra in price.extras] == [14500, 10500]
    assert _only(totals).sum.without_tax == 1185000 + 24000 + 25000


def test_an_extra_takes_the_trade_discount_of_its_category() -> None:
    price, _ = _quoted(ROADSTER, Tariff("GBP", {"C": Decimal("2.5")}), COLLECTED, storage_week=2)
    # 2.5 % of 35.00 is 0.875 → 0.88 on each
    assert (price.extras[0].discount, price.extras[0].net) == (88, 6824)


def test_nothing_is_totalled_while_something_is_not_priced() -> None:
    wanted = [Wanted({**ROADSTER, "delivery": "van"}, NO_DONOR, 1, cases("van", "GB", "DE"))]
    price = price_quotation(BOOK, wanted, {"storage-week": 1}, EURO)
    assert price.unpriced == ("delivery-van", "storage-week")
    assert price.net is None
    assert total(price, wanted, TERMS) is None


def test_a_dropped_line_that_is_not_priced_stands_in_nobodys_way() -> None:
    wanted = [
        Wanted(ROADSTER, NO_DONOR, 1, COLLECTED),
        Wanted({**ROADSTER, "delivery": "van"}, NO_DONOR, 0, COLLECTED),
    ]
    price = price_quotation(BOOK, wanted, {}, EURO)
    assert (price.unpriced, price.net) == ((), 1249600 + 29000)


def test_the_tax_in_a_deposit_keeps_its_half_penny() -> None:
    # 3 pence at 20 %: 20 of 120 is exactly half a penny
    assert tax_in(3, sum_up([_s(1000, 20)])) == 1
    assert tax_in(0, sum_up([])) == 0


@pytest.mark.parametrize(
    ("trade", "extra", "shells", "asked"),
    [
        # 15 + 7 is 22: at the ceiling, not beyond it
        (15, "7", 1, False),
        (15, "7.01", 1, True),
        (18, "4", 1, False),
        # three shells: 100 − 80 × 0.97 = 22.4 on the body
        (15, "5", 2, False),
        (15, "5", 3, True),
        # no extra discount: the dealer's own terms, whatever they are
        (25, "0", 3, False),
    ],
)
def test_the_manager_approves_what_takes_the_discount_beyond_the_ceiling(
    trade: int, extra: str, shells: int, asked: bool
) -> None:
    assert manager_must_approve(TERMS, Tariff("GBP", {"A": Decimal(trade)}), Decimal(extra), shells) is asked


@pytest.mark.parametrize(("extra", "asked"), [("22", False), ("22.01", True)])
def test_where_no_trade_discount_was_agreed_the_extra_one_alone_counts(extra: str, asked: bool) -> None:
    assert manager_must_approve(TERMS, Tariff("GBP"), Decimal(extra)) is asked


def test_an_extra_discount_is_added_to_the_trade_discount_and_rounded_once() -> None:
    price, _ = _quoted(ROADSTER, with_extra(TRADE, TERMS, Decimal("7")), COLLECTED)
    # 11 850 less 22 %
    assert price.lines[0].shell.lines[0].net == 924300


AMOUNTS = st.integers(-(10**8), 10**8)
TAXABLES = st.builds(
    Taxable,
    amount=AMOUNTS,
    category=st.sampled_from(["S", "G", "Z"]),
    percent=st.sampled_from([Decimal(0), Decimal(5), Decimal("17.5"), Decimal(20)]),
)


@given(st.lists(TAXABLES, max_size=6), st.lists(TAXABLES, max_size=3), st.lists(TAXABLES, max_size=3), AMOUNTS)
def test_a_sum_is_consistent_whatever_is_summed(
    lines: list[Taxable], allowances: list[Taxable], charges: list[Taxable], prepaid: int
) -> None:
    whole = sum_up(lines, allowances, charges, prepaid)
    # EN 16931: BR-CO-10, BR-CO-13, BR-CO-14, BR-CO-15, BR-CO-16, BR-CO-17
    assert whole.lines_net == sum(line.amount for line in lines)
    assert whole.without_tax == whole.lines_net - whole.allowances + whole.charges
    assert whole.tax == sum(row.tax for row in whole.taxed)
    assert whole.with_tax == whole.without_tax + whole.tax
    assert whole.payable == whole.with_tax - prepaid
    assert sum(row.taxable for row in whole.taxed) == whole.without_tax
    assert all(abs(row.tax - Fraction(row.taxable) * Fraction(row.percent) / 100) * 2 <= 1 for row in whole.taxed)
    assert len({(row.category, row.percent) for row in whole.taxed}) == len(whole.taxed)


@given(
    number=st.integers(1, 50),
    discount=st.decimals(0, 100, places=2),
    doors=st.sampled_from(["no", "yes"]),
    weeks=st.integers(0, 20),
    customer=st.sampled_from(["GB", "DE"]),
)
def test_a_quotation_adds_up_at_any_discount(
    number: int, discount: Decimal, doors: str, weeks: int, customer: str
) -> None:
    tariff = Tariff("GBP", {"A": discount, "C": discount})
    found = cases("collected", None, customer)
    price, totals = _quoted({**ROADSTER, "own-doors": doors}, tariff, found, number, storage_week=weeks)
    assert price.net == totals.lines_net
    assert totals.lines_net >= 0
    for case in totals.cases:
        assert case.deposit + case.balance == case.sum.payable
        assert 0 <= case.deposit_tax <= case.deposit <= case.sum.payable
        figures = (case.deposit, case.deposit_tax, case.balance, case.sum.tax, case.sum.payable, case.sum.without_tax)
        assert all(type(figure) is int for figure in figures)

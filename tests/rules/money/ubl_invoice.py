"""Writes a sum as a UBL 2.1 invoice, for tests only: so that rules of somebody else's making can check it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from xml.etree import ElementTree as ET

from iso4217 import Currency

from rules.money import in_major_units
from rules.totals import InvoiceSum, Taxable

_INVOICE = "urn:oasis:names:specification:ubl:schema:xsd:Invoice-2"
_CAC = "{urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2}"
_CBC = "{urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2}"


@dataclass(frozen=True, slots=True)
class InvoiceLine:
    """`quantity` pieces whose nets are `taxed.amount` together."""

    name: str
    quantity: int
    taxed: Taxable


class Invoice:
    """An invoice in the making; `tree` is its root."""

    def __init__(self, currency: str) -> None:
        self.currency = currency
        digits = Currency(currency).exponent
        assert digits is not None
        self.digits = digits
        self.tree = ET.Element(f"{{{_INVOICE}}}Invoice")

    def text(self, parent: ET.Element, name: str, value: str, **attributes: str) -> None:
        ET.SubElement(parent, _CBC + name, attributes).text = value

    def amount(self, parent: ET.Element, name: str, minor: int) -> None:
        self.text(parent, name, str(in_major_units(minor, self.digits)), currencyID=self.currency)

    def part(self, parent: ET.Element, *names: str) -> ET.Element:
        for name in names:
            parent = ET.SubElement(parent, _CAC + name)
        return parent

    def category(self, parent: ET.Element, name: str, category: str, percent: Decimal) -> ET.Element:
        made = self.part(parent, name)
        self.text(made, "ID", category)
        self.text(made, "Percent", str(percent))
        return made

    def scheme(self, parent: ET.Element) -> None:
        self.text(self.part(parent, "TaxScheme"), "ID", "VAT")

    def xml(self) -> str:
        return ET.tostring(self.tree, encoding="unicode")


def write_invoice(
    currency: str,
    lines: list[InvoiceLine],
    whole: InvoiceSum,
    allowances: tuple[Taxable, ...] = (),
    charges: tuple[Taxable, ...] = (),
) -> str:
    """The invoice as XML: our own figures, none of them worked out again here."""
    invoice = Invoice(currency)
    _head(invoice)
    _party(invoice, "AccountingSupplierParty", "GB", tax_number="GB980780684")
    _party(invoice, "AccountingCustomerParty", "ZA", tax_number=None)
    invoice.text(invoice.part(invoice.tree, "PaymentTerms"), "Note", "Balance before despatch")
    for taxable, is_charge in [*((a, "false") for a in allowances), *((c, "true") for c in charges)]:
        _allowance_or_charge(invoice, taxable, is_charge)
    _tax(invoice, whole)
    _totals(invoice, whole)
    for number, line in enumerate(lines, start=1):
        _line(invoice, number, line)
    return invoice.xml()


def _head(invoice: Invoice) -> None:
    invoice.text(invoice.tree, "CustomizationID", "urn:cen.eu:en16931:2017")
    invoice.text(invoice.tree, "ID", "TEST-1")
    invoice.text(invoice.tree, "IssueDate", "2026-11-25")
    invoice.text(invoice.tree, "InvoiceTypeCode", "380")
    invoice.text(invoice.tree, "DocumentCurrencyCode", invoice.currency)


def _party(invoice: Invoice, role: str, country: str, tax_number: str | None) -> None:
    party = invoice.part(invoice.tree, role, "Party")
    invoice.text(invoice.part(party, "PostalAddress", "Country"), "IdentificationCode", country)
    if tax_number:
        registered = invoice.part(party, "PartyTaxScheme")
        invoice.text(registered, "CompanyID", tax_number)
        invoice.scheme(registered)
    invoice.text(invoice.part(party, "PartyLegalEntity"), "RegistrationName", "A party of the test")


def _allowance_or_charge(invoice: Invoice, taxable: Taxable, is_charge: str) -> None:
    made = invoice.part(invoice.tree, "AllowanceCharge")
    invoice.text(made, "ChargeIndicator", is_charge)
    invoice.text(made, "AllowanceChargeReason", "agreed")
    invoice.amount(made, "Amount", taxable.amount)
    invoice.scheme(invoice.category(made, "TaxCategory", taxable.category, taxable.percent))


def _tax(invoice: Invoice, whole: InvoiceSum) -> None:
    tax = invoice.part(invoice.tree, "TaxTotal")
    invoice.amount(tax, "TaxAmount", whole.tax)
    for row in whole.taxed:
        made = invoice.part(tax, "TaxSubtotal")
        invoice.amount(made, "TaxableAmount", row.taxable)
        invoice.amount(made, "TaxAmount", row.tax)
        category = invoice.category(made, "TaxCategory", row.category, row.percent)
        if row.category in ("G", "E"):
            invoice.text(category, "TaxExemptionReason", "Export, or exempt")
        invoice.scheme(category)


def _totals(invoice: Invoice, whole: InvoiceSum) -> None:
    total = invoice.part(invoice.tree, "LegalMonetaryTotal")
    invoice.amount(total, "LineExtensionAmount", whole.lines_net)
    invoice.amount(total, "TaxExclusiveAmount", whole.without_tax)
    invoice.amount(total, "TaxInclusiveAmount", whole.with_tax)
    invoice.amount(total, "AllowanceTotalAmount", whole.allowances)
    invoice.amount(total, "ChargeTotalAmount", whole.charges)
    invoice.amount(total, "PrepaidAmount", whole.prepaid)
    invoice.amount(total, "PayableAmount", whole.payable)


def _line(invoice: Invoice, number: int, line: InvoiceLine) -> None:
    """An allowance is a negative quantity at a positive price: EN 16931 (BR-27) knows no negative price."""
    made = invoice.part(invoice.tree, "InvoiceLine")
    sign = -1 if line.taxed.amount < 0 else 1
    invoice.text(made, "ID", str(number))
    invoice.text(made, "InvoicedQuantity", str(sign * line.quantity), unitCode="C62")
    invoice.amount(made, "LineExtensionAmount", line.taxed.amount)
    item = invoice.part(made, "Item")
    invoice.text(item, "Name", line.name)
    invoice.scheme(invoice.category(item, "ClassifiedTaxCategory", line.taxed.category, line.taxed.percent))
    invoice.amount(invoice.part(made, "Price"), "PriceAmount", abs(line.taxed.amount) // line.quantity)

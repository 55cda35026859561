"""UBL 2.1 Invoice and CreditNote. The order of the parts is the schema's; every figure is the caller's own.

Sources: OASIS UBL 2.1; EN 16931 (business terms BT-…); codes UNTDID 1001: 380 invoice, 386 prepayment invoice, 381
credit note; UNCL5305 tax categories; UN/ECE Recommendation 20: C62, one piece.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from xml.etree import ElementTree as ET

from app.documents.money.ubl.elements import Tree
from app.domain.money.invoice import Party
from rules.money.totals import InvoiceSum, Taxable

INVOICE, PREPAYMENT, CREDIT_NOTE = "380", "386", "381"


@dataclass(frozen=True, slots=True)
class UblLine:
    """`quantity` pieces whose nets are `taxed.amount` together."""

    name: str
    quantity: int
    taxed: Taxable


@dataclass(frozen=True, slots=True)
class UblInvoice:
    """`code`: one of the three above; a credit note's amounts are written positive, as the standard has it.

    `billed`: the documents that this one credits or sets off, with their days. `exempt`: tax category → why it is not
    taxed, for those that need a reason. `delivered`: country that the goods go to. `stated`: (currency, tax) where the
    tax office counts in another one (BT-6, BT-111).
    """

    code: str
    number: str
    dated: date
    currency: str
    seller: Party
    buyer: Party
    lines: tuple[UblLine, ...]
    sum: InvoiceSum
    tax_point: date | None = None
    note: str = ""
    order: str = ""
    billed: tuple[tuple[str, date], ...] = ()
    terms: str = ""
    allowances: tuple[Taxable, ...] = ()
    charges: tuple[Taxable, ...] = ()
    exempt: Mapping[str, str] = field(default_factory=dict)
    delivered: str = ""
    stated: tuple[str, int] | None = None


def ubl_invoice(invoice: UblInvoice) -> bytes:
    """The document in UTF-8."""
    tree = Tree("CreditNote" if invoice.code == CREDIT_NOTE else "Invoice", invoice.currency)
    _head(tree, invoice)
    _references(tree, invoice)
    _party(tree, "AccountingSupplierParty", invoice.seller)
    _party(tree, "AccountingCustomerParty", invoice.buyer)
    _delivery(tree, invoice.delivered)
    _pay_to(tree, invoice)
    if invoice.terms:
        tree.text(tree.part(tree.root, "PaymentTerms"), "Note", invoice.terms)
    for taxable, is_charge in (*((a, "false") for a in invoice.allowances), *((c, "true") for c in invoice.charges)):
        _allowance_or_charge(tree, taxable, is_charge)
    _tax(tree, invoice)
    _totals(tree, invoice.sum)
    for number, line in enumerate(invoice.lines, start=1):
        _line(tree, invoice, number, line)
    return tree.xml()


def _head(tree: Tree, invoice: UblInvoice) -> None:
    """A credit note says its tax point before its kind, an invoice after it: so the schemas have it."""
    credits = invoice.code == CREDIT_NOTE
    tax_point = "" if invoice.tax_point is None else invoice.tax_point.isoformat()
    tree.text(tree.root, "CustomizationID", "urn:cen.eu:en16931:2017")
    tree.text(tree.root, "ID", invoice.number)
    tree.text(tree.root, "IssueDate", invoice.dated.isoformat())
    if credits:
        tree.text(tree.root, "TaxPointDate", tax_point)
    tree.text(tree.root, "CreditNoteTypeCode" if credits else "InvoiceTypeCode", invoice.code)
    tree.text(tree.root, "Note", invoice.note)
    if not credits:
        tree.text(tree.root, "TaxPointDate", tax_point)
    tree.text(tree.root, "DocumentCurrencyCode", invoice.currency)
    if invoice.stated is not None:
        tree.text(tree.root, "TaxCurrencyCode", invoice.stated[0])


def _references(tree: Tree, invoice: UblInvoice) -> None:
    if invoice.order:
        tree.text(tree.part(tree.root, "OrderReference"), "ID", invoice.order)
    for number, dated in invoice.billed:
        reference = tree.part(tree.root, "BillingReference", "InvoiceDocumentReference")
        tree.text(reference, "ID", number)
        tree.text(reference, "IssueDate", dated.isoformat())


def _party(tree: Tree, role: str, told: Party) -> None:
    party = tree.part(tree.root, role, "Party")
    _address(tree, tree.part(party, "PostalAddress"), told)
    if told.tax_number:
        registered = tree.part(party, "PartyTaxScheme")
        tree.text(registered, "CompanyID", tax_id(told))
        tree.scheme(registered)
    entity = tree.part(party, "PartyLegalEntity")
    tree.text(entity, "RegistrationName", told.name)
    tree.text(entity, "CompanyID", told.registration)
    if told.telephone or told.email:
        contact = tree.part(party, "Contact")
        tree.text(contact, "Telephone", told.telephone)
        tree.text(contact, "ElectronicMail", told.email)


def tax_id(party: Party) -> str:
    """With the country's letters before it (BR-CO-09) and nothing between its digits."""
    plain = "".join(part for part in party.tax_number.upper() if part.isalnum())
    return plain if plain[:2].isalpha() else party.country + plain


def _address(tree: Tree, address: ET.Element, told: Party) -> None:
    for name, line in zip(("StreetName", "AdditionalStreetName"), told.address, strict=False):
        tree.text(address, name, line)
    for line in told.address[2:]:
        tree.text(tree.part(address, "AddressLine"), "Line", line)
    tree.text(tree.part(address, "Country"), "IdentificationCode", told.country)


def _delivery(tree: Tree, country: str) -> None:
    if country:
        place = tree.part(tree.root, "Delivery", "DeliveryLocation", "Address", "Country")
        tree.text(place, "IdentificationCode", country)


def _pay_to(tree: Tree, invoice: UblInvoice) -> None:
    """By credit transfer (UNTDID 4461: 30) to the seller's account, where anything is to be paid (BT-81, BG-17)."""
    account = invoice.seller.account
    if account is None or invoice.code == CREDIT_NOTE or invoice.sum.payable <= 0:
        return
    means = tree.part(tree.root, "PaymentMeans")
    tree.text(means, "PaymentMeansCode", "30")
    tree.text(means, "PaymentID", invoice.number)
    payee = tree.part(means, "PayeeFinancialAccount")
    tree.text(payee, "ID", account.account.replace(" ", ""))
    tree.text(payee, "Name", account.holder)
    if account.routing:
        tree.text(tree.part(payee, "FinancialInstitutionBranch"), "ID", account.routing.replace(" ", ""))


def _allowance_or_charge(tree: Tree, taxable: Taxable, is_charge: str) -> None:
    made = tree.part(tree.root, "AllowanceCharge")
    tree.text(made, "ChargeIndicator", is_charge)
    tree.text(made, "AllowanceChargeReason", "agreed")
    tree.amount(made, "Amount", taxable.amount)
    tree.category(made, "TaxCategory", taxable.category, taxable.percent)


def _tax(tree: Tree, invoice: UblInvoice) -> None:
    tax = tree.part(tree.root, "TaxTotal")
    tree.amount(tax, "TaxAmount", invoice.sum.tax)
    for row in invoice.sum.taxed:
        made = tree.part(tax, "TaxSubtotal")
        tree.amount(made, "TaxableAmount", row.taxable)
        tree.amount(made, "TaxAmount", row.tax)
        tree.category(made, "TaxCategory", row.category, row.percent, invoice.exempt.get(row.category, ""))
    if invoice.stated is not None:
        currency, minor = invoice.stated
        tree.amount(tree.part(tree.root, "TaxTotal"), "TaxAmount", minor, currency)


def _totals(tree: Tree, whole: InvoiceSum) -> None:
    total = tree.part(tree.root, "LegalMonetaryTotal")
    tree.amount(total, "LineExtensionAmount", whole.lines_net)
    tree.amount(total, "TaxExclusiveAmount", whole.without_tax)
    tree.amount(total, "TaxInclusiveAmount", whole.with_tax)
    tree.amount(total, "AllowanceTotalAmount", whole.allowances)
    tree.amount(total, "ChargeTotalAmount", whole.charges)
    tree.amount(total, "PrepaidAmount", whole.prepaid)
    tree.amount(total, "PayableAmount", whole.payable)


_QUANTITY = {"Invoice": "InvoicedQuantity", "CreditNote": "CreditedQuantity"}


def _line(tree: Tree, invoice: UblInvoice, number: int, line: UblLine) -> None:
    """What is taken off is a negative quantity at a positive price: EN 16931 (BR-27) knows no negative price."""
    kind = "CreditNote" if invoice.code == CREDIT_NOTE else "Invoice"
    made = tree.part(tree.root, f"{kind}Line")
    sign = -1 if line.taxed.amount < 0 else 1
    tree.text(made, "ID", str(number))
    tree.text(made, _QUANTITY[kind], str(sign * line.quantity), unitCode="C62")
    tree.amount(made, "LineExtensionAmount", line.taxed.amount)
    item = tree.part(made, "Item")
    tree.text(item, "Name", line.name)
    tree.category(item, "ClassifiedTaxCategory", line.taxed.category, line.taxed.percent)
    tree.amount(tree.part(made, "Price"), "PriceAmount", abs(line.taxed.amount) // line.quantity)

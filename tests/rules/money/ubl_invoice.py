"""Writes a sum as a UBL 2.1 invoice of the product's own making, so that rules of somebody else's can check it."""

from __future__ import annotations

from datetime import date

from app.documents.money.ubl.invoice import INVOICE, UblInvoice, UblLine, ubl_invoice
from app.domain.money.invoice import Party
from rules.money.totals import InvoiceSum, Taxable

InvoiceLine = UblLine

#: The number is one that PyPI `python-stdnum` gives as an example of a valid one.
SELLER = Party("A party of the test", country="GB", tax_number="GB 980 7806 84")
BUYER = Party("A party of the test", country="ZA")


def write_invoice(
    currency: str,
    lines: list[InvoiceLine],
    whole: InvoiceSum,
    allowances: tuple[Taxable, ...] = (),
    charges: tuple[Taxable, ...] = (),
) -> str:
    """The invoice as XML: our own figures, none of them worked out again here."""
    invoice = UblInvoice(
        code=INVOICE,
        number="TEST-1",
        dated=date(2026, 11, 25),
        currency=currency,
        seller=SELLER,
        buyer=BUYER,
        lines=tuple(lines),
        sum=whole,
        terms="Balance before despatch",
        allowances=allowances,
        charges=charges,
        exempt={"G": "Export, or exempt", "E": "Export, or exempt"},
    )
    return ubl_invoice(invoice).decode()

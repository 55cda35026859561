"""A document about money, put into the customer's words: as UBL, and as paper. The seam to the papers' own types."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.documents import contents
from app.documents.money.invoice import conceded_words, invoice_pdf, spoken
from app.documents.money.ubl.invoice import CREDIT_NOTE, INVOICE, PREPAYMENT, UblInvoice, UblLine, ubl_invoice
from app.documents.saying.phrases import sentences
from app.domain.money.invoice import Content, Kind
from app.services.quotations.papering import PRESS
from app.wording import LANGUAGES
from rules.model import Book
from rules.money.settlement import tax_of
from rules.money.totals import Taxable

#: The kinds of document in UNTDID 1001's codes.
CODES: Mapping[Kind, str] = {Kind.DEPOSIT: PREPAYMENT, Kind.BALANCE: INVOICE, Kind.CREDIT_NOTE: CREDIT_NOTE}


def said(key: str, language: str, **slots: object) -> str:
    """A sentence of the papers, in English where that language has none."""
    return sentences(language if language in LANGUAGES else LANGUAGES[0])[f"invoice.{key}"].format_map(slots)


def in_each(key: str, book: Book, **slots: object) -> dict[str, str]:
    """The sentence in every language of the book."""
    return {language: said(key, language, **slots) for language in book.languages}


def pdf(content: Content, language: str, size: str) -> bytes:
    """The paper's bytes, the same for the same document, language and size."""
    with PRESS:
        return invoice_pdf(content, language, contents.Sheet(size))


def ubl(content: Content, delivered: str) -> bytes:
    """In the customer's own language, as his paper is."""
    language = content.language
    return ubl_invoice(
        UblInvoice(
            code=CODES[content.kind],
            number=content.number,
            dated=content.dated,
            currency=content.currency,
            seller=content.seller,
            buyer=content.buyer,
            lines=tuple(
                UblLine(line.name[language], line.quantity, Taxable(line.net, line.category, line.percent))
                for line in content.lines
            ),
            sum=content.sum,
            tax_point=content.tax_point,
            note=_note(content),
            order=content.order,
            billed=_billed(content),
            terms=said("terms", language) if content.sum.payable > 0 else "",
            exempt=_exempt(content, language),
            delivered=delivered,
            stated=None if content.stated is None else (content.stated.currency, tax_of(content.stated.rows)),
        )
    )


def _note(content: Content) -> str:
    """Why, and what was conceded: as the paper says it."""
    return " ".join(
        words for words in (content.why, conceded_words(content, spoken(content, content.language))) if words
    )


def _billed(content: Content) -> tuple[tuple[str, date], ...]:
    own = [] if content.credits_dated is None else [(content.credits, content.credits_dated)]
    return (*own, *((one.number, one.dated) for one in content.set_off))


def _exempt(content: Content, language: str) -> dict[str, str]:
    """Every untaxed category with the reason that the paper prints."""
    words = sentences(language)
    why = " ".join(words[f"tax-reason.{reason}"] for reason in content.reasons)
    return {row.category: why for row in content.sum.taxed if not row.percent}

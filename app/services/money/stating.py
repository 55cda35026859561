"""Tax stated in the currency that the tax office counts in, where a document is in another one.

The rate is a person's: what he entered is kept with its day and its source. Nothing is looked up and nothing guessed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction

from babel.numbers import get_currency_precision, get_territory_currencies

from app.domain.errors import Fault
from app.domain.money.crediting import balances_in, credited_rows, credits_of
from app.domain.money.invoice import Document, Exchange, SetOff, Stated
from app.services.answering.checking import blank_faults, long_faults, rate_faults, refuse
from rules.model import Book
from rules.money.settlement import tax_of
from rules.money.stated import stated, stated_share
from rules.money.totals import TaxedSum


def home_currency(book: Book) -> str:
    """ISO 4217, of the country that the book's tax is of."""
    return str(get_territory_currencies(book.tax.home)[0])


def wanted(book: Book, currency: str, rows: Sequence[TaxedSum]) -> str | None:
    """The currency in which the tax has to be stated besides; None where it is the document's, or nothing is taxed."""
    home = home_currency(book)
    return home if currency != home and tax_of(rows) else None


def state(
    book: Book,
    currency: str,
    rows: Sequence[TaxedSum],
    exchange: Exchange | None,
    today: date,
    set_off: Sequence[SetOff] = (),
) -> Stated | None:
    """`set_off`: parts of documents in advance, which keep what they stated. Raises BadInput."""
    home = wanted(book, currency, rows)
    refuse(_exchange_faults(home, currency, exchange, today))
    if home is None or exchange is None:
        return None
    told = [one for one in set_off if one.stated]
    before = [row for one in told for row in one.rows]
    stated_before = [row for one in told for row in one.stated]
    made = stated(rows, _each(exchange.rate, currency, home), before, stated_before)
    return Stated(home, made, exchange, tuple(one.number for one in told))


def set_off_of(document: Document, rows: tuple[TaxedSum, ...], documents: Sequence[Document]) -> SetOff:
    """These rows of a document in advance, as they are set off: with their share of what it stated."""
    had, content = document.content.stated, document.content
    if had is None:
        return SetOff(content.number, content.dated, rows)
    gone = [one for bill in balances_in(documents) for one in bill.content.set_off if one.number == content.number]
    taken = [*credited_rows(document, documents), *(row for one in gone for row in one.rows)]
    stated_taken = [*_stated_credits(document, documents), *(row for one in gone for row in one.stated)]
    shares = (stated_share(row, *_both(document, row), taken, stated_taken) for row in rows)
    return SetOff(content.number, content.dated, rows, tuple(shares))


def state_credit(document: Document, rows: Sequence[TaxedSum], documents: Sequence[Document]) -> Stated | None:
    """A credit at the rate of the document that it credits: its share of what that one stated."""
    had = document.content.stated
    if had is None:
        return None
    taken, stated_taken = credited_rows(document, documents), _stated_credits(document, documents)
    shares = [stated_share(row, *_both(document, row), taken, stated_taken) for row in rows]
    return Stated(had.currency, tuple(shares), had.exchange)


def _stated_rows(document: Document) -> tuple[TaxedSum, ...]:
    told = document.content.stated
    return () if told is None else told.rows


def _stated_credits(document: Document, documents: Sequence[Document]) -> list[TaxedSum]:
    return [row for one in credits_of(document, documents) for row in _stated_rows(one)]


def _both(document: Document, row: TaxedSum) -> tuple[TaxedSum, TaxedSum]:
    """The document's own row of this category and rate, and as it was stated."""
    pairs = zip(document.rows, _stated_rows(document), strict=True)
    return next(pair for pair in pairs if (pair[0].category, pair[0].percent) == (row.category, row.percent))


def _each(rate: str, currency: str, home: str) -> Fraction:
    """Minor units of the home currency for one of the document's."""
    shift = get_currency_precision(home) - get_currency_precision(currency)
    return Fraction(10) ** shift / Fraction(Decimal(rate))


def _exchange_faults(home: str | None, currency: str, exchange: Exchange | None, today: date) -> Iterator[Fault]:
    if home is None:
        if exchange is not None:
            yield Fault("exchange", "no-exchange-needed")
    elif exchange is None:
        yield Fault("exchange", "exchange-needed", {"home": home, "currency": currency})
    else:
        yield from rate_faults("exchange.rate", exchange.rate)
        if exchange.day > today:
            yield Fault("exchange.day", "in-the-future")
        yield from blank_faults("exchange.source", exchange.source)
        yield from long_faults("exchange.source", exchange.source)

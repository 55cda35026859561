"""What the bookkeeper takes over: every document and every payment of a period, for a spreadsheet or a program.

Plain CSV as RFC 4180 writes it, a header line of ids first. Amounts are in major units with a point, their currency
beside them; what is credited, set off or paid back is written below nothing, so that columns
add up: an invoice bills its shells whole, and a row `set-off` takes back of it what a deposit's document billed before.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, starmap, zip_longest

from app.documents.lists.csv_table import table
from app.documents.lists.standard_csv import major
from app.domain.money.invoice import Content, Document, Kind, SetOff, Stated
from app.domain.money.payment import Payment, counted
from rules.money.totals import TaxedSum

HEADER = (
    *(
        "row",
        "number",
        "date",
        "tax_point",
        "order",
        "customer",
        "customer_country",
        "customer_tax_number",
        "refers_to",
    ),
    *("currency", "tax_category", "tax_percent", "net", "tax", "amount"),
    *("means", "counts_for", "order_currency", "rate", "rate_date", "agreed_by", "mistake", "text"),
    *("stated_currency", "stated_net", "stated_tax", "stated_rate", "stated_rate_date", "stated_source"),
)

_FIGURES = ("net", "tax", "amount", "counts_for", "stated_net", "stated_tax")


def bookkeeping_csv(documents: Sequence[Document], payments: Sequence[tuple[str, str, Payment]]) -> str:
    """`payments`: (order, the order's currency, payment). Worksheets are no documents of the books and left out."""
    billed = chain.from_iterable(map(_document, documents))
    return table(HEADER, chain(billed, starmap(_payment, payments)), _FIGURES)


def _document(document: Document) -> Iterator[dict[str, str]]:
    """One row for each category and rate, then what was billed in advance and stands in it once more, below nothing."""
    content = document.content
    sign = -1 if content.kind is Kind.CREDIT_NOTE else 1
    for at, row in enumerate(() if content.kind is Kind.WORKSHEET else document.rows):
        yield {
            "row": content.kind.value,
            **_head(content),
            "refers_to": " ".join([content.credits, *(one.number for one in content.set_off)]).strip(),
            **_taxed(row, sign, content.currency),
            "text": content.why,
            **_stated(content.stated, at, sign),
        }
    for one in content.set_off:
        yield from _set_off(content, one)


def _head(content: Content) -> dict[str, str]:
    return {
        "number": content.number,
        "date": content.dated.isoformat(),
        "tax_point": content.tax_point.isoformat(),
        "order": content.order,
        "customer": content.buyer.name,
        "customer_country": content.buyer.country,
        "customer_tax_number": content.buyer.tax_number,
        "currency": content.currency,
    }


def _taxed(row: TaxedSum, sign: int, currency: str) -> dict[str, str]:
    amounts = {"net": row.taxable, "tax": row.tax, "amount": row.taxable + row.tax}
    return {
        "tax_category": row.category,
        "tax_percent": f"{row.percent.normalize():f}",
        **{name: major(sign * amount, currency) for name, amount in amounts.items()},
    }


def _set_off(content: Content, one: SetOff) -> Iterator[dict[str, str]]:
    """Its tax was due when it was billed in advance."""
    for row, stated in zip_longest(one.rows, one.stated):
        yield {
            "row": "set-off",
            **_head(content),
            "refers_to": one.number,
            **_taxed(row, -1, content.currency),
            **(_stated_sums(stated, -1, content.stated.currency) if stated and content.stated else {}),
        }


def _stated(stated: Stated | None, at: int, sign: int) -> dict[str, str]:
    """What the row is in the tax office's currency; a balance has taken over what was stated in advance."""
    if stated is None:
        return {}
    row, rate = stated.rows[at], stated.exchange
    return {
        **_stated_sums(row, sign, stated.currency),
        "stated_rate": rate.rate,
        "stated_rate_date": rate.day.isoformat(),
        "stated_source": rate.source,
    }


def _stated_sums(row: TaxedSum, sign: int, currency: str) -> dict[str, str]:
    return {
        "stated_currency": currency,
        "stated_net": major(sign * row.taxable, currency),
        "stated_tax": major(sign * row.tax, currency),
    }


def _payment(order: str, currency: str, payment: Payment) -> dict[str, str]:
    entry, agreed = payment.entry, payment.agreement
    sign = 1 if payment.received else -1
    counts = counted(payment, currency)
    return {
        "row": entry.direction.value,
        "number": str(payment.id),
        "date": entry.day.isoformat(),
        "order": order,
        "refers_to": payment.document or "",
        "currency": entry.currency,
        "amount": major(sign * entry.amount, entry.currency),
        "means": entry.means.value,
        "counts_for": "" if counts is None else major(sign * counts, currency),
        "order_currency": currency,
        "rate": agreed.rate if agreed else "",
        "rate_date": agreed.rate_day.isoformat() if agreed else "",
        "agreed_by": agreed.agreed_by if agreed else "",
        "mistake": payment.mistake.why if payment.mistake else "",
        "text": entry.note,
    }

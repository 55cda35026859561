"""A document about an order's money, made out: numbered, frozen, as UBL and as the customer's own paper, all at once.

What a document bills or credits is decided elsewhere; here it gets its number, its parties and its papers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import cached_property
from typing import Any

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import (
    Fault,
    FirmUntold,
)
from app.domain.money.crediting import (
    LONGEST_WHY,
)
from app.domain.money.invoice import SERIES, Content, Document, Kind, Line, Party
from app.domain.orders.order import Order
from app.services.answering.checking import blank_faults, long_faults
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.services.money import printing
from app.services.money.stating import state_credit
from app.services.orders.ordering import note
from app.services.quotations.enquiring import running_name
from app.services.quotations.papering import kind_for
from app.store import bank, dealers, invoices, retail
from app.store.db import Store
from rules.model import Book
from rules.money.settlement import net_of, tax_of
from rules.money.totals import CaseTotal, InvoiceSum, TaxedSum


@dataclass(frozen=True)
class Desk:
    """Where and when a document is made out, and by whom. `book`: the one in force."""

    store: Store
    db: Database
    actor: Actor
    now: datetime

    @cached_property
    def book(self) -> Book:
        return current_book(self.store, self.now)

    @property
    def today(self) -> date:
        return day_of(self.book, self.now)


def sum_of(rows: Sequence[TaxedSum], prepaid: int) -> InvoiceSum:
    """The rows as a document sums them; `prepaid` of it is paid. Whole minor units."""
    net, tax = net_of(rows), tax_of(rows)
    return InvoiceSum(net, 0, 0, net, tuple(rows), tax, net + tax, prepaid, net + tax - prepaid)


def content_of(
    desk: Desk, order: Order, case: CaseTotal | None, kind: Kind, tax_point: date, whole: InvoiceSum
) -> Content:
    """A document with its number and its parties, without lines. Raises FirmUntold."""
    frozen, customer = order.frozen, order.frozen.customer
    language, size = kind_for(desk.book, customer, order.place.country)
    return Content(
        kind=kind,
        number=running_name(desk.db, SERIES[kind], desk.book, desk.now),
        order=order.number,
        quotation=order.quotation,
        letter=order.revision.letter,
        dated=desk.today,
        tax_point=tax_point,
        currency=frozen.currency,
        seller=seller_of(desk.db, desk.book),
        buyer=buyer_of(desk.db, order),
        sum=whole,
        author=desk.actor.display_name,
        language=language,
        size=size,
        locale=customer.country,
        tax_label=desk.book.tax.label,
        reasons=() if case is None else tuple(dict.fromkeys(part.reason for part in case.parts)),
        cautions=() if case is None else tuple(dict.fromkeys(c for part in case.parts for c in part.cautions)),
    )


def seller_of(db: Database, book: Book) -> Party:
    """Raises FirmUntold: without a name and a tax number nobody may bill tax."""
    told: dict[str, Any] = dealers.firm(db)
    missing = [name for name in ("name", "tax_number") if not told.get(name)]
    if missing:
        raise FirmUntold(missing=tuple(missing))
    texts = {name: str(told.get(name, "")) for name in ("name", "tax_number", "telephone", "email", "registration")}
    account = bank.account(db, None)
    return Party(address=tuple(told.get("address", ())), country=book.tax.home, account=account, **texts)


def buyer_of(db: Database, order: Order) -> Party:
    """Who owes it: the dealer where he orders for a customer of his, who is not to see what the dealer pays."""
    customer = order.frozen.customer
    dealer = None if order.dealer is None or customer.trade else dealers.get(db, order.dealer)
    if dealer is None:
        return Party(customer.name, _lines(customer.address), customer.country, customer.tax_number)
    own = retail.get(db, dealer.id)
    return Party(dealer.name, () if own is None else _lines(own.terms.address), dealer.country)


def _lines(address: str) -> tuple[str, ...]:
    return tuple(line.strip() for line in address.splitlines() if line.strip())


def credit_content(
    desk: Desk,
    document: Document,
    documents: Sequence[Document],
    rows: tuple[TaxedSum, ...],
    lines: tuple[Line, ...],
    why: str,
) -> Content:
    """As the document that it credits, in its own words and to its own parties. `documents`: all of the order."""
    return replace(
        document.content,
        kind=Kind.CREDIT_NOTE,
        number=running_name(desk.db, SERIES[Kind.CREDIT_NOTE], desk.book, desk.now),
        dated=desk.today,
        tax_point=desk.today,
        sum=sum_of(rows, prepaid=0),
        author=desk.actor.display_name,
        lines=lines,
        set_off=(),
        came_as=None,
        credits=document.number,
        credits_dated=document.content.dated,
        why=why,
        stated=state_credit(document, rows, documents),
    )


def keep(
    desk: Desk,
    order: Order,
    content: Content,
    *,
    payment: int | None = None,
    credits: int | None = None,
    worksheet: int | None = None,
) -> str:
    """The document, its UBL, and the customer's own paper; any other paper is drawn when somebody asks for it."""
    place = order.place.country
    xml = None if content.kind is Kind.WORKSHEET else printing.ubl(content, place)
    key = invoices.add(
        desk.db,
        order.id,
        content,
        xml,
        desk.actor.name,
        desk.now,
        payment=payment,
        credits=credits,
        worksheet=worksheet,
    )
    invoices.add_paper(
        desk.db, key, content.language, content.size, printing.pdf(content, content.language, content.size)
    )
    note(desk.db, order.number, f"written-{content.kind.value}", desk.actor, desk.now, document=content.number)
    return content.number


def why_faults(why: str) -> Iterator[Fault]:
    """A reason is given, and not too long."""
    yield from blank_faults("why", why)
    yield from long_faults("why", why, LONGEST_WHY)

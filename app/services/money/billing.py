"""What is billed of an order in advance, and what is credited: one line of a document. `balancing` bills the rest.

A tax point is that of the day on which the money came, at the rate of that day. Rates are data of the book in force.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import DocumentStands, Fault, NotAgreed, NothingToBill
from app.domain.money.crediting import (
    Credit,
    balance_of_place,
    concession_faults,
    credit_faults,
    credited_rows,
    standing_bill,
)
from app.domain.money.invoice import CameAs, Document, Exchange, Granted, Kind, Line
from app.domain.money.payment import Payment, counted
from app.domain.orders.order import Order
from app.services.answering.checking import one_of, refuse
from app.services.books.publishing import book as book_of
from app.services.floor.naming_subjects import words_of
from app.services.money import printing
from app.services.money.accounts import Opened, in_advance_of_what_comes, opened
from app.services.money.making_out import Desk, content_of, credit_content, keep, sum_of, why_faults
from app.services.money.receiving import own_payment
from app.services.money.sharing import decided_case, placed, shares_of, to_bill
from app.services.money.stating import state
from app.services.once import Once, perform
from app.services.orders.ordering import note
from app.store import concessions
from app.store import orders as kept_orders
from app.store.db import Store
from rules.model import Book
from rules.money.settlement import at_rate, credit_of, gross, part_of
from rules.money.tax import STANDARD_RATE, rate_on
from rules.money.totals import InvoiceSum, TaxedSum


def decide_tax(
    store: Store, actor: Actor, number: str, case: str, why: str, now: datetime, *, once: Once | None = None
) -> None:
    """Which tax case holds, where the quotation left it to a person; while a bill stands it is not said again.

    Tax that was held as security goes back so: the bills are credited, the case is decided anew, and billed anew.

    Raises NotFound, BadInput, DocumentStands, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found = opened(store, db, actor, number, now)
        open_cases = tuple(one.kind for one in found.order.totals.cases)
        refuse((*one_of("case", case, open_cases), *why_faults(why)))
        standing = standing_bill(found.documents)
        if standing is not None:
            raise DocumentStands(document=standing)
        kept_orders.decide(db, found.order.bases[-1].id, case, why, actor.name, now)
        note(db, number, "tax-decided", actor, now, case=case)
        return number

    perform(store, once, now, write)


def bill_deposit(
    store: Store,
    actor: Actor,
    number: str,
    payment: int,
    now: datetime,
    *,
    exchange: Exchange | None = None,
    once: Once | None = None,
) -> str:
    """The document of a payment in advance, as far as it counts towards the price. Its number.

    `exchange`: where the tax has to be stated in another currency besides (`stating.wanted`), and only there.

    Raises NotFound, BadInput, TaxUndecided, NotAgreed, DocumentStands, NothingToBill, FirmUntold, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found, paid = opened(store, db, actor, number, now), own_payment(db, actor, number, payment, now)
        case, shares = decided_case(found.order), shares_of(store, found.order)
        _refuse_to_bill(found, paid, shares)
        desk = Desk(store, db, actor, now)
        rows = part_of(_counted(store, found, paid, shares), _at_day(desk.book, paid.entry.day, case.sum.taxed))
        told = state(desk.book, found.order.frozen.currency, rows, exchange, desk.today)
        content = content_of(desk, found.order, case, Kind.DEPOSIT, paid.entry.day, _paid_sum(rows))
        lines = tuple(_advance_line(desk.book, found.order, row) for row in rows)
        content = replace(content, lines=lines, came_as=_came_as(paid), stated=told)
        return keep(desk, found.order, content, payment=payment)

    return str(perform(store, once, now, write))


def credit(store: Store, actor: Actor, number: str, wanted: Credit, now: datetime, *, once: Once | None = None) -> str:
    """A credit note on one line of one document, for a reason. The document that it names stays as it is.

    Raises NotFound, BadInput, FirmUntold, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found = opened(store, db, actor, number, now)
        document = next((one for one in found.documents if one.number == wanted.document), None)
        refuse((*credit_faults(wanted, document, found.documents), *why_faults(wanted.why)))
        assert document is not None
        granted = _granted(store, db, found, document, wanted)
        line = document.content.lines[wanted.line - 1]
        row = next(r for r in document.rows if (r.category, r.percent) == (line.category, line.percent))
        credited = credit_of(wanted.net, row, credited_rows(document, found.documents))
        told = replace(line, quantity=1, net=wanted.net)
        desk = Desk(store, db, actor, now)
        content = credit_content(desk, document, found.documents, (credited,), (told,), wanted.why)
        content = replace(content, credited_line=wanted.line, concession=wanted.concession, granted=granted)
        return keep(desk, found.order, content, credits=document.id)

    return str(perform(store, once, now, write))


def _granted(store: Store, db: Database, found: Opened, document: Document, wanted: Credit) -> Granted | None:
    """The concession that the note is tied to, as it prints it."""
    if wanted.granted is None:
        return None
    each = ((one, said) for one in placed(found.order) for said in concessions.of_shell(db, one.shell.id))
    one, granted = next(((one, said) for one, said in each if said.id == wanted.granted), (None, None))
    refuse(concession_faults(granted, document, None if one is None else one.place))
    assert one is not None
    assert granted is not None
    assert granted.answer is not None
    words = words_of(book_of(store, found.order.revision.book or 0), granted.subject)
    return Granted(words, one.shell.serial or "", granted.answer.day)


def _refuse_to_bill(found: Opened, paid: Payment, shares: Mapping[int, int]) -> None:
    """What was no receipt, is billed, or came after the balance was billed: that pays the balance."""
    if paid.document is not None:
        raise DocumentStands(document=paid.document)
    if not paid.received or paid.mistake is not None:
        refuse([Fault("payment", "not-received")])
    balances = [balance_of_place(place, found.documents) for place in shares]
    if balances and None not in balances:
        raise DocumentStands(document=next(one.number for one in balances if one is not None))


def _counted(store: Store, found: Opened, paid: Payment, shares: Mapping[int, int]) -> int:
    """What it counts for; what goes beyond the price is no part of it."""
    currency, payable = found.order.frozen.currency, found.account.payable or 0
    amount = counted(paid, currency)
    if amount is None:
        raise NotAgreed(currency=currency, paid=paid.entry.currency)
    open_now = sum(shares[place] for place in to_bill(found.order, shares, found.documents))
    left = min(payable, open_now) - in_advance_of_what_comes(store, found.order, found.documents)
    if left < 1:
        raise NothingToBill(number=found.order.number)
    return min(amount, left)


def _at_day(of: Book, day: date, rows: tuple[TaxedSum, ...]) -> tuple[TaxedSum, ...]:
    """The rows at the standard rate of the day; the promise is before tax, the tax is the law's."""
    rate = rate_on(of.tax, day)
    moved = rate is not None and any(r.category == STANDARD_RATE and r.percent != rate.percent for r in rows)
    return at_rate(rows, rate.percent) if rate is not None and moved else rows


def _paid_sum(rows: Sequence[TaxedSum]) -> InvoiceSum:
    """Billed because it was paid: nothing is left to pay of it."""
    return sum_of(rows, gross(rows))


def _advance_line(of: Book, order: Order, row: TaxedSum) -> Line:
    slots = {"order": order.number, "quotation": order.quotation, "letter": order.revision.letter}
    return Line(printing.in_each("line-advance", of, **slots), 1, row.taxable, row.category, row.percent)


def _came_as(paid: Payment) -> CameAs:
    entry, agreed = paid.entry, paid.agreement
    plain = CameAs(entry.amount, entry.currency, entry.day, entry.means.value)
    if agreed is None:
        return plain
    return replace(plain, rate=agreed.rate, rate_day=agreed.rate_day, agreed_by=agreed.agreed_by)

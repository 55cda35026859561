"""What is billed of an order, and what is credited: a payment in advance, the balance, one line of a document.

A tax point is that of the day on which the money came, at the rate of that day. Rates are data of the book in force.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal

from sqlite_utils import Database

from app.domain.actor import Actor
from app.domain.crediting import (
    Credit,
    balance_in,
    credit_faults,
    credited_rows,
    in_advance,
    standing_bill,
)
from app.domain.errors import (
    DocumentStands,
    Fault,
    NotAgreed,
    NothingToBill,
    TaxUndecided,
)
from app.domain.invoice import CameAs, Exchange, Kind, Line
from app.domain.order import Order, case_of
from app.domain.payment import Payment, counted
from app.domain.quotation import FrozenLine
from app.services import printing
from app.services.accounts import Opened, opened
from app.services.checking import one_of, refuse
from app.services.making_out import Desk, content_of, credit_content, keep, sum_of, why_faults
from app.services.once import Once, perform
from app.services.ordering import note
from app.services.pricing import Deal, cases_of, day_of
from app.services.publishing import book
from app.services.receiving import own_payment
from app.services.stating import state
from app.store import orders as kept_orders
from app.store.db import Store
from rules.model import Book, Role, Words
from rules.settlement import at_rate, balance_of, credit_of, gross, less, part_of
from rules.tax import STANDARD_RATE, TaxRefusal, rate_on
from rules.totals import CaseTotal, InvoiceSum, Taxable, TaxedSum


def decide_tax(
    store: Store, actor: Actor, number: str, case: str, why: str, now: datetime, *, once: Once | None = None
) -> None:
    """Which tax case holds, where the quotation left it to a person; while a bill stands it is not said again.

    Tax that was held as security goes back so: the bills are credited, the case is decided anew, and billed anew.

    Raises NotFound, BadInput, DocumentStands, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found = opened(db, actor, number, now)
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
        found, paid = opened(db, actor, number, now), own_payment(db, actor, number, payment, now)
        case = _case(found.order)
        _refuse_to_bill(found, paid)
        desk = Desk(store, db, actor, now)
        rows = part_of(_counted(found, paid), _at_day(desk.book, paid.entry.day, case.sum.taxed))
        told = state(desk.book, found.order.frozen.currency, rows, exchange, desk.today)
        content = content_of(desk, found.order, case, Kind.DEPOSIT, paid.entry.day, _paid_sum(rows))
        lines = tuple(_advance_line(desk.book, found.order, row) for row in rows)
        content = replace(content, lines=lines, came_as=_came_as(paid), stated=told)
        return keep(desk, found.order, content, payment=payment)

    return str(perform(store, once, now, write))


def bill_balance(
    store: Store,
    actor: Actor,
    number: str,
    now: datetime,
    *,
    exchange: Exchange | None = None,
    once: Once | None = None,
) -> str:
    """The document of the whole price, with what was billed in advance set off. Its number.

    `exchange`: as for `bill_deposit`; what documents in advance stated stays as it was.

    Raises NotFound, BadInput, TaxUndecided, DocumentStands, FirmUntold, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found = opened(db, actor, number, now)
        case, standing = _case(found.order), balance_in(found.documents)
        if standing is not None:
            raise DocumentStands(document=standing.number)
        desk = Desk(store, db, actor, now)
        lines, advance = _lines(desk, found.order, case), in_advance(found.documents)
        prepaid = less([row for one in advance for row in one.rows], ())
        balance = balance_of([Taxable(line.net, line.category, line.percent) for line in lines], prepaid)
        moved = tuple(_moved_line(desk.book, part) for part in balance.moved)
        rows, currency = balance.sum.taxed, found.order.frozen.currency
        told = state(desk.book, currency, rows, exchange, desk.today, found.documents)
        content = content_of(desk, found.order, case, Kind.BALANCE, desk.today, balance.sum)
        content = replace(content, lines=(*lines, *moved), set_off=advance, stated=told)
        return keep(desk, found.order, content)

    return str(perform(store, once, now, write))


def credit(store: Store, actor: Actor, number: str, wanted: Credit, now: datetime, *, once: Once | None = None) -> str:
    """A credit note on one line of one document, for a reason. The document that it names stays as it is.

    Raises NotFound, BadInput, FirmUntold, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found = opened(db, actor, number, now)
        document = next((one for one in found.documents if one.number == wanted.document), None)
        refuse((*credit_faults(wanted, document, found.documents), *why_faults(wanted.why)))
        assert document is not None
        line = document.content.lines[wanted.line - 1]
        row = next(r for r in document.rows if (r.category, r.percent) == (line.category, line.percent))
        credited = credit_of(wanted.net, row, credited_rows(document, found.documents))
        told = replace(line, quantity=1, net=wanted.net)
        desk = Desk(store, db, actor, now)
        content = credit_content(desk, document, found.documents, (credited,), (told,), wanted.why)
        content = replace(content, credited_line=wanted.line, concession=wanted.concession)
        return keep(desk, found.order, content, credits=document.id)

    return str(perform(store, once, now, write))


def _case(order: Order) -> CaseTotal:
    case = case_of(order)
    if case is None:
        raise TaxUndecided(number=order.number)
    return case


def _refuse_to_bill(found: Opened, paid: Payment) -> None:
    """What was no receipt, is billed, or came after the balance was billed: that pays the balance."""
    if paid.document is not None:
        raise DocumentStands(document=paid.document)
    if not paid.received or paid.mistake is not None:
        refuse([Fault("payment", "not-received")])
    balance = balance_in(found.documents)
    if balance is not None:
        raise DocumentStands(document=balance.number)


def _counted(found: Opened, paid: Payment) -> int:
    """What it counts for; what goes beyond the price is no part of it."""
    currency, payable = found.order.frozen.currency, found.account.payable or 0
    amount = counted(paid, currency)
    if amount is None:
        raise NotAgreed(currency=currency, paid=paid.entry.currency)
    left = payable - sum(gross(one.rows) for one in in_advance(found.documents))
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


def _moved_line(of: Book, part: Taxable) -> Line:
    key = "line-taxed-before" if part.amount > 0 else "line-taken-out"
    return Line(printing.in_each(key, of), 1, part.amount, part.category, part.percent)


def _lines(desk: Desk, order: Order, case: CaseTotal) -> tuple[Line, ...]:
    """One for shells that are built alike and each extra, at today's rate; extras go with the highest."""
    of = book(desk.store, order.revision.book or 0)
    taxed = list(_taxed_lines(order, of, case))
    rate = rate_on(desk.book.tax, desk.today)
    highest = max(taxed, key=lambda part: part.percent)
    shells = (Line(_shell_name(of, one.frozen), one.quantity, p.amount, p.category, p.percent)
              for one, p in zip(order.alike, taxed, strict=True))  # fmt: skip
    extras = (Line(_extra_name(of, one.extra), one.quantity, one.net or 0, highest.category, highest.percent)
              for one in order.frozen.extras)  # fmt: skip
    return tuple(_at_todays(line, None if rate is None else rate.percent) for line in (*shells, *extras))


def _at_todays(line: Line, percent: Decimal | None) -> Line:
    return replace(line, percent=percent) if percent is not None and line.category == STANDARD_RATE else line


def _taxed_lines(order: Order, of: Book, case: CaseTotal) -> Iterator[Taxable]:
    """Each line under the tax case that it falls under, as quotation and change notes worked it out."""
    frozen = order.frozen
    day = day_of(of, order.revision.issued_at or order.made_at)
    deal = Deal(of, frozen.donor.facts(), frozen.tariff, order.place, frozen.customer.country, day)
    for one in order.alike:
        cases = cases_of(deal, one.frozen.settled)
        if isinstance(cases, TaxRefusal):
            raise LookupError(order.number)
        holds = next((one for one in cases if one.kind == case.kind), cases[0])
        yield Taxable(one.net or 0, holds.category, holds.percent)


def _shell_name(of: Book, frozen: FrozenLine) -> Words:
    """Series, body, steering and market in the book's words."""
    roles = [of.roles[role] for role in (Role.SERIES, Role.BODY, Role.STEERING, Role.MARKET) if role in of.roles]
    labels = [of.option(option).choice(frozen.settled[option]).label for option in roles if option in frozen.settled]
    names = {language: " · ".join(label.get(language, "") for label in labels) for language in of.languages}
    return {language: printing.said("line-shell", language, shell=name) for language, name in names.items()}


def _extra_name(of: Book, extra: str) -> Words:
    return next(one.label for one in of.extras if one.id == extra)


def _came_as(paid: Payment) -> CameAs:
    entry, agreed = paid.entry, paid.agreement
    plain = CameAs(entry.amount, entry.currency, entry.day, entry.means.value)
    if agreed is None:
        return plain
    return replace(plain, rate=agreed.rate, rate_day=agreed.rate_day, agreed_by=agreed.agreed_by)

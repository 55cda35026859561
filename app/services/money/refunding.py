"""Paying back what was billed in advance, as a person decided it: a worksheet first, then its credit notes.

Nothing is proposed here: what is kept, and why, a person says.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import (
    DocumentStands,
    Fault,
    NotFound,
    NothingToBill,
    Sum,
)
from app.domain.money.bank import Account
from app.domain.money.crediting import (
    LONGEST_WHY,
    left_in_advance,
    refunds_by_document,
)
from app.domain.money.invoice import CancelledShell, Document, Kind, Line, Worksheet
from app.services.answering.checking import long_faults, refuse
from app.services.money import printing
from app.services.money.accounts import Opened, opened
from app.services.money.making_out import Desk, content_of, credit_content, keep, sum_of, why_faults
from app.services.once import Once, perform
from app.store import bank, customers
from app.store.db import Store
from rules.money.settlement import gross, less, refund_of


@dataclass(frozen=True, slots=True)
class Decided:
    """A refund as a person decided it: `kept` with tax; the rest is what he decided by, as he wrote it.

    `of`: the shell that is cancelled with it, whose stage nobody writes.
    """

    kept: int
    why: str
    stage: str = ""
    hours: str = ""
    resale: str = ""
    of: CancelledShell | None = None


def refund_sum(store: Store, actor: Actor, number: str, kept: int, now: datetime) -> Worksheet:
    """What comes of keeping so much of what was billed in advance; nothing is written, and nothing proposed.

    Raises NotFound, NothingToBill, BadInput.
    """
    with store.reading() as db:
        return _worksheet(opened(store, db, actor, number, now), Decided(kept, "-"))


def write_worksheet(
    store: Store, actor: Actor, number: str, decided: Decided, now: datetime, *, once: Once | None = None
) -> str:
    """The worksheet of a refund, with what it was decided by. Its number. It pays nothing back and credits nothing.

    Raises NotFound, BadInput, NothingToBill, FirmUntold, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found = opened(store, db, actor, number, now)
        refuse((*why_faults(decided.why), *_told_faults(decided)))
        sheet = replace(_worksheet(found, decided), pay_to=_pay_to(db, found))
        desk = Desk(store, db, actor, now)
        whole = sum_of(sheet.refunded, prepaid=0)
        content = content_of(desk, found.order, None, Kind.WORKSHEET, desk.today, whole)
        return keep(desk, found.order, replace(content, worksheet=sheet, why=decided.why))

    return str(perform(store, once, now, write))


def credit_refund(
    store: Store, actor: Actor, number: str, worksheet: str, now: datetime, *, once: Once | None = None
) -> str:
    """The credit notes of a worksheet, one for each document that it takes from. The number of the last.

    Raises NotFound, DocumentStands, NothingToBill, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found = opened(store, db, actor, number, now)
        sheet = next((one for one in found.documents if one.number == worksheet and one.content.worksheet), None)
        if sheet is None:
            raise NotFound(what="document", name=worksheet)
        for done in found.documents:
            if done.worksheet == sheet.id:
                raise DocumentStands(document=done.number)
        return _credit_sheet(Desk(store, db, actor, now), found, sheet)

    return str(perform(store, once, now, write))


def _pay_to(db: Database, found: Opened) -> Account | None:
    customer = found.order.frozen.customer.id
    kept = None if customer is None else customers.standing(db, customer, None)
    return None if kept is None else bank.account(db, kept.id)


def _worksheet(found: Opened, decided: Decided) -> Worksheet:
    advance = left_in_advance(found.documents)
    received = less([row for one in advance for row in one.rows], ())
    if not received:
        raise NothingToBill(number=found.order.number)
    if not 0 <= decided.kept <= gross(received):
        most = Sum(gross(received), found.order.frozen.currency)
        refuse([Fault("kept", "more-than-received", {"most": most})])
    refund = refund_of(received, decided.kept)
    told = (decided.stage, decided.hours, decided.resale)
    return Worksheet(*told, received, refund.refunded, refund.kept, tuple(one.number for one in advance), of=decided.of)


def _credit_sheet(desk: Desk, found: Opened, sheet: Document) -> str:
    worksheet, last = sheet.content.worksheet, ""
    amount = 0 if worksheet is None else gross(worksheet.refunded)
    by_number = {one.number: one for one in found.documents}
    for one, rows in refunds_by_document(amount, left_in_advance(found.documents)):
        document = by_number[one.number]
        lines = tuple(
            Line(
                printing.in_each("line-refund", desk.book, worksheet=sheet.number), 1, r.taxable, r.category, r.percent
            )
            for r in rows
        )
        content = credit_content(desk, document, found.documents, rows, lines, sheet.content.why)
        last = keep(desk, found.order, content, credits=document.id, worksheet=sheet.id)
    if not last:
        raise NothingToBill(number=found.order.number)
    return last


def _told_faults(decided: Decided) -> Iterator[Fault]:
    for name in ("stage", "hours", "resale"):
        yield from long_faults(name, getattr(decided, name), LONGEST_WHY)

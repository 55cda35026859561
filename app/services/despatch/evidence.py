"""By when the evidence of a shell that left as an export has to be held, and what is held. Writes nothing."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from sqlite_utils import Database

from app.domain.despatch.despatch import Despatched
from app.domain.money.crediting import balance_of_place, due_of, in_advance
from app.domain.money.export import ExportEvidence, paid_in_full
from app.domain.money.invoice import Document
from app.domain.money.payment import Payment
from app.domain.orders.order import Order, case_of
from app.services.answering.pricing import day_of
from app.store import export_evidence
from rules.model import Book
from rules.money.settlement import gross

EXPORT = "export"


def exported(order: Order) -> bool:
    """Whether it is untaxed because it leaves the country."""
    case = case_of(order)
    return case is not None and case.kind == EXPORT


def evidence_of(
    db: Database,
    book: Book,
    order: Order,
    gone: Despatched,
    left: Collection[Despatched],
    documents: Sequence[Document],
    paid: Sequence[Payment],
) -> ExportEvidence | None:
    """Of one shell; None where it is no export. `left`: of the order all that left, this one too; `paid`: on it."""
    if not exported(order):
        return None
    before = {one.place for one in left if one.at <= gone.at}
    billed = {one.number: one for place in before if (one := balance_of_place(place, documents)) is not None}
    owed = sum(gross(one.rows) for one in in_advance(documents))
    owed += sum(due_of(one, documents) for one in billed.values())
    in_full = paid_in_full(owed, order.frozen.currency, paid) if billed else None
    return ExportEvidence(day_of(book, gone.at), in_full, export_evidence.of(db, gone.number))

"""What the bookkeeper takes over. Writes nothing, and is no ledger: it hands out what was recorded, as it stands."""

from __future__ import annotations

from datetime import date

from app.documents.money.bookkeeping import bookkeeping_csv
from app.domain.errors import Fault
from app.services.answering.checking import refuse
from app.store import invoices, orders, payments
from app.store.db import Store


def exported(store: Store, first: date, last: date) -> str:
    """All documents dated, and all payments that came or went, on these days, both included. Raises BadInput."""
    if last < first:
        refuse([Fault("until", "before-the-first")])
    with store.reading() as db:
        paid = payments.between(db, first, last)
        currencies = orders.currencies(db, [number for number, _ in paid])
        written = invoices.between(db, first, last)
    return bookkeeping_csv(written, [(number, currencies[number], payment) for number, payment in paid])

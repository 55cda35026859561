"""Handing out documents about money: the paper and the UBL always the same bytes."""

from __future__ import annotations

from app.domain.asking.actor import Actor
from app.domain.errors import NotFound
from app.domain.money.invoice import Document
from app.services.answering import checking
from app.services.money import printing
from app.services.quotations.papering import SIZES
from app.store import invoices
from app.store.db import Store
from app.wording import LANGUAGES


def document(store: Store, actor: Actor, number: str) -> Document:
    """Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        found = invoices.get(db, number, actor.dealer)
    if found is None:
        raise NotFound(what="document", name=number)
    return found


def paper(store: Store, actor: Actor, number: str, language: str, size: str) -> bytes:
    """A PDF: kept since it was written, or drawn and kept when first asked for. Raises NotFound, BadInput."""
    found = document(store, actor, number)
    checking.refuse(checking.one_of("language", language, LANGUAGES))
    checking.refuse(checking.one_of("size", size, SIZES))
    with store.reading() as db:
        stored = invoices.paper(db, found.id, language, size)
    return _kept(store, found, language, size) if stored is None else stored


def ubl(store: Store, actor: Actor, number: str) -> bytes:
    """As it was written. Raises NotFound, for a worksheet too."""
    found = document(store, actor, number)
    with store.reading() as db:
        stored = invoices.xml(db, found.id)
    if stored is None:
        raise NotFound(what="document", name=number)
    return stored


def _kept(store: Store, found: Document, language: str, size: str) -> bytes:
    """Of two who ask for the first time at once, one's is kept and both get that."""
    pdf = printing.pdf(found.content, language, size)
    with store.writing() as db:
        stored = invoices.paper(db, found.id, language, size)
        if stored is None:
            invoices.add_paper(db, found.id, language, size, pdf)
        return pdf if stored is None else stored

"""The paper of an order's confirmation: drawn from what was frozen when first asked for, then always the same bytes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from app.documents.contents import ShellLine
from app.documents.orders.order_confirmation import LinePolicy, OrderConfirmation, order_confirmation_pdf
from app.domain.asking.actor import Actor
from app.domain.errors import NotFound
from app.domain.orders.confirming import Confirmation
from app.services.orders.ordering import own_order
from app.services.quotations import handing_out, papering
from app.store import confirmations as kept
from app.store.db import Store
from rules.model import ORDERED, Book, Work
from rules.schedule.days import route_days
from rules.specification import Donor
from rules.workshop.late import freeze_line


def paper(store: Store, actor: Actor, number: str, letter: str, language: str, size: str, now: datetime) -> bytes:
    """A PDF of the confirmation of that revision. Raises NotFound, DataErased, BadInput for a kind there is none in."""
    with store.reading() as db:
        order = own_order(db, actor, number, now)
        found = next((one for one in kept.of_order(db, order.id) if one.letter == letter), None)
        stored = None if found is None else kept.paper(db, found.id, language, size)
    if found is None:
        raise NotFound(what="confirmation", name=f"{number} {letter}")
    if stored is not None:
        return stored
    pdf = _drawn(store, actor, order.quotation, number, found, (language, size), now)
    return _kept(store, found, language, size, pdf)


def _drawn(
    store: Store, actor: Actor, quotation: str, number: str, found: Confirmation, kind: papering.Kind, now: datetime
) -> bytes:
    sheetful = handing_out.sheetful_of(store, actor, quotation, found.letter, kind, now)
    paper_of = papering.paper_of(sheetful, *kind)
    donor = sheetful.worked.donor.facts()
    policies = tuple(_policies(paper_of.book, paper_of.shells, donor))
    with papering.PRESS:
        return order_confirmation_pdf(OrderConfirmation(paper_of, number, found.fixed, policies))


def _policies(book: Book, shells: tuple[ShellLine, ...], donor: Donor) -> Iterator[LinePolicy]:
    for at, shell in enumerate(shells, start=1):
        days = {stage.stage: stage.days for stage in route_days(book, shell.settled, donor).stages}
        points = tuple(stage.id for stage in book.stages if days.get(stage.id) and stage.work is not Work.NONE)
        line = freeze_line(book, shell.settled, donor, (ORDERED,), points)
        yield LinePolicy(at, tuple(one.change for one in line), points)


def _kept(store: Store, found: Confirmation, language: str, size: str, pdf: bytes) -> bytes:
    """Of two who ask for the first time at once, one's is kept and both get that."""
    with store.writing() as db:
        stored = kept.paper(db, found.id, language, size)
        if stored is None:
            kept.add_paper(db, found.id, language, size, pdf)
        return pdf if stored is None else stored

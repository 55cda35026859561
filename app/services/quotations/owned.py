"""Quotations as the person who acts may see them, inside a transaction: another dealer's is as if it did not exist."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import ChangedByAnother, Frozen, NotFound
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import Quotation, Revision
from app.services.quotations.enquiring import own_enquiry
from app.store import history
from app.store import quotations as kept
from app.store.db import Store


def own_quotation(db: Database, actor: Actor, number: str, now: datetime) -> Quotation:
    """Raises NotFound."""
    found = kept.get(db, number, actor.dealer, now)
    if found is None:
        raise NotFound(what="quotation", name=number)
    return found


def own_revision(db: Database, actor: Actor, number: str, letter: str, now: datetime) -> Revision:
    """Raises NotFound."""
    return revision_of(own_quotation(db, actor, number, now), letter)


def revision_of(quotation: Quotation, letter: str) -> Revision:
    """Raises NotFound."""
    revision = quotation.revision(letter)
    if revision is None:
        raise NotFound(what="quotation", name=f"{quotation.number} {letter}")
    return revision


def opened(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> tuple[Quotation, Enquiry, Revision]:
    """The revision with its quotation and enquiry, as they stood at one moment. Raises NotFound."""
    with store.reading() as db:
        quotation = own_quotation(db, actor, number, now)
        enquiry = own_enquiry(db, actor, quotation.enquiry)
        return quotation, enquiry, revision_of(quotation, letter)


def draft_of(quotation: Quotation, letter: str, expected: int) -> Revision:
    """A draft at the version it was opened at. An issued one is told as such, whatever version is named."""
    revision = revision_of(quotation, letter)
    if revision.issued:
        raise Frozen(number=quotation.number, letter=letter)
    refuse_changed(quotation.number, revision, expected)
    return revision


def refuse_changed(number: str, revision: Revision, expected: int) -> None:
    """Raises ChangedByAnother where it is not at the version it was read at."""
    if revision.version != expected:
        raise ChangedByAnother(what="quotation", name=number, expected=expected, actual=revision.version)


def note(db: Database, number: str, letter: str, what: str, actor: Actor, now: datetime, **facts: str) -> None:
    """An entry of the quotation's history."""
    history.add(db, "quotation", number, what, actor.name, now, number=number, letter=letter, **facts)

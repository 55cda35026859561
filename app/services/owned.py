"""Quotations as the person who acts may see them, inside a transaction: another dealer's is as if it did not exist."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.actor import Actor
from app.domain.enquiry import Enquiry
from app.domain.errors import ChangedByAnother, Frozen, NotFound
from app.domain.quotation import Quotation, Revision
from app.services.enquiring import own_enquiry
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
    revision = own_quotation(db, actor, number, now).revision(letter)
    if revision is None:
        raise NotFound(what="quotation", name=f"{number} {letter}")
    return revision


def opened(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> tuple[Quotation, Enquiry, Revision]:
    """The revision with its quotation and enquiry, as they stood at one moment. Raises NotFound."""
    with store.reading() as db:
        quotation = own_quotation(db, actor, number, now)
        enquiry = own_enquiry(db, actor, quotation.enquiry)
        return quotation, enquiry, own_revision(db, actor, number, letter, now)


def own_draft(db: Database, actor: Actor, number: str, letter: str, now: datetime, expected: int) -> Revision:
    """A draft at the version it was opened at. An issued one is told as such, whatever version is named."""
    revision = own_revision(db, actor, number, letter, now)
    if revision.issued:
        raise Frozen(number=number, letter=letter)
    refuse_changed(number, revision, expected)
    return revision


def refuse_changed(number: str, revision: Revision, expected: int) -> None:
    """Raises ChangedByAnother where it is not at the version it was read at."""
    if revision.version != expected:
        raise ChangedByAnother(what="quotation", name=number, expected=expected, actual=revision.version)


def note(db: Database, number: str, letter: str, what: str, actor: Actor, now: datetime, **facts: str) -> None:
    """An entry of the quotation's history."""
    history.add(db, "quotation", number, what, actor.name, now, number=number, letter=letter, **facts)

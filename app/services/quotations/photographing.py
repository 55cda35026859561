"""Photographs against a donor car: made anew when they come, kept with the enquiry, shown to whoever may see that."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TypeVar

from sqlite_utils import Database

from app.documents.pictures.photograph import NoPhotograph, Remade, is_pdf, remade
from app.documents.pictures.scan import MOST_PAGES, pages_of
from app.domain.asking.actor import Actor
from app.domain.errors import BadInput, Fault, NotFound, PhotographPointedAt
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.photograph import Photograph, Shows
from app.services.answering.checking import LONGEST_LINE, long_faults, refuse
from app.services.books.publishing import current_book
from app.services.once import Once, perform
from app.services.quotations.enquiring import own_enquiry
from app.store import history, photographs
from app.store.db import Store
from rules.model import Book, Kind

Made = TypeVar("Made")

#: So many may hang on one enquiry: it is a file on a car, no album.
MOST = 60


def add(
    store: Store,
    actor: Actor,
    enquiry: int,
    data: bytes,
    shows: Shows,
    part: str,
    note: str,
    now: datetime,
    *,
    once: Once | None = None,
) -> Photograph:
    """What is kept of it: of a scan that comes as PDF a picture of each page, of which the first comes back.

    Raises NotFound, BadInput (field `file`: why it can't be taken), KeyReused, Underway.
    """
    with store.reading() as db:
        own_enquiry(db, actor, enquiry)
    refuse([*_part_faults(current_book(store, now), shows, part), *long_faults("note", note, LONGEST_LINE)])
    pictures = _remade(data)

    def keep(db: Database) -> int:
        found = own_enquiry(db, actor, enquiry)
        if len(photographs.of(db, enquiry)) + len(pictures) > MOST:
            raise BadInput((Fault("file", "picture-many", {"most": MOST}),))
        _note(db, found, "photograph-added", actor, now, shows)
        notes = _notes(note, len(pictures))
        made = [
            photographs.add(
                db, Photograph(0, enquiry, shows, part, said, *_size(own), now, actor.name), own.jpeg, own.small
            )
            for said, own in zip(notes, pictures, strict=True)
        ]
        return made[0]

    made = perform(store, once, now, keep)
    return photograph(store, actor, enquiry, made)


def photographs_of(store: Store, actor: Actor, enquiry: int) -> tuple[Photograph, ...]:
    """The first added first. Raises NotFound."""
    with store.reading() as db:
        own_enquiry(db, actor, enquiry)
        return photographs.of(db, enquiry)


def photograph(store: Store, actor: Actor, enquiry: int, number: int) -> Photograph:
    """Raises NotFound."""
    with store.reading() as db:
        return _own(db, actor, enquiry, number)


def content(store: Store, actor: Actor, enquiry: int, number: int, *, small: bool) -> bytes:
    """A JPEG. Raises NotFound."""
    with store.reading() as db:
        _own(db, actor, enquiry, number)
        return photographs.content(db, number, photographs.SMALL if small else photographs.WHOLE)


def remove(store: Store, actor: Actor, enquiry: int, number: int, now: datetime) -> None:
    """Out of the file for good. Raises NotFound, PhotographPointedAt where somebody who says so points to it."""
    with store.writing() as db:
        one = _own(db, actor, enquiry, number)
        if photographs.pointed_at(db, number):
            raise PhotographPointedAt(number=number)
        photographs.remove(db, number)
        _note(db, own_enquiry(db, actor, enquiry), "photograph-removed", actor, now, one.shows)


def _own(db: Database, actor: Actor, enquiry: int, number: int) -> Photograph:
    own_enquiry(db, actor, enquiry)
    found = photographs.get(db, enquiry, number)
    if found is None:
        raise NotFound(what="photograph", name=str(number))
    return found


def _notes(note: str, count: int) -> list[str]:
    """Of each page, which of how many it is."""
    return [note] if count == 1 else [f"{note} ({place}/{count})".strip() for place in range(1, count + 1)]


def _size(picture: Remade) -> tuple[int, int, int]:
    return picture.width, picture.height, len(picture.jpeg)


def _remade(data: bytes) -> tuple[Remade, ...]:
    """Of a scan every page."""
    return _or_refused(pages_of, data) if is_pdf(data) else (remade_or_refused(data),)


def remade_or_refused(data: bytes) -> Remade:
    """Raises BadInput (field `file`: why it can't be taken)."""
    return _or_refused(remade, data)


def _or_refused(make: Callable[[bytes], Made], data: bytes) -> Made:
    try:
        return make(data)
    except NoPhotograph as none:
        raise BadInput((Fault("file", f"picture-{none.why}", {"most": MOST_PAGES}),)) from None


def _part_faults(book: Book, shows: Shows, part: str) -> list[Fault]:
    rules = [rule.id for rule in book.rules if Kind.PART in rule.kinds]
    if shows is Shows.PART and not part:
        return [Fault("part", "required")]
    return [Fault("part", "not-one-of", {"allowed": rules})] if part and part not in rules else []


def _note(db: Database, enquiry: Enquiry, what: str, actor: Actor, now: datetime, shows: Shows) -> None:
    history.add(db, "enquiry", enquiry.reference, what, actor.name, now, shows=shows.value)

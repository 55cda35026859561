"""Taking an enquiry down, changing it, finding it again. A dealer's work is his own: of another's there is no trace."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from sqlite_utils import Database

from app.domain.actor import Actor
from app.domain.enquiry import Enquiry, Wish
from app.domain.errors import ChangedByAnother, NoBook, NotFound
from app.domain.finding import known_number, sought_words
from app.services.checking import refuse, wish_faults
from app.services.once import Once, perform
from app.services.publishing import current_book
from app.store import counters, dealers, enquiries, history
from app.store.db import Store
from rules.model import Book


def create_enquiry(store: Store, actor: Actor, wish: Wish, now: datetime, *, once: Once | None = None) -> Enquiry:
    """Takes it down; a dealer's becomes his own, and the firm's people may take one down for `customer.dealer`.

    Raises BadInput or UnknownNames with every field at fault, KeyReused, Underway.
    """
    book = current_book(store, now)

    def take_down(db: Database) -> int:
        _check(db, actor, book, wish)
        dealer = actor.dealer or wish.customer.dealer
        reference = running_name(db, "E", book, now)
        history.add(db, "enquiry", reference, "enquiry-taken-down", actor.name, now)
        return enquiries.add(db, reference, wish, dealer, actor.name, now, car=_car(book, wish))

    return enquiry(store, actor, perform(store, once, now, take_down))


def edit_enquiry(store: Store, actor: Actor, enquiry: int, wish: Wish, now: datetime, *, expected: int) -> Enquiry:
    """Replaces what was typed; whose it is stays. Raises NotFound, BadInput, UnknownNames, ChangedByAnother."""
    book = current_book(store, now)
    with store.writing() as db:
        old = own_enquiry(db, actor, enquiry)
        if old.version != expected:
            raise ChangedByAnother(what="enquiry", name=old.reference, expected=expected, actual=old.version)
        _check(db, actor, book, wish)
        enquiries.change(db, old, wish, now, car=_car(book, wish))
        history.add(db, "enquiry", old.reference, "enquiry-changed", actor.name, now)
        return own_enquiry(db, actor, enquiry)


def enquiry(store: Store, actor: Actor, enquiry: int) -> Enquiry:
    """Raises NotFound, for another dealer's exactly as for one that does not exist."""
    with store.reading() as db:
        return own_enquiry(db, actor, enquiry)


def find_enquiries(
    store: Store, actor: Actor, now: datetime, text: str = "", *, page: int = 1, size: int = 50
) -> tuple[Enquiry, ...]:
    """Those whose customer's name, telephone, donor number, reference or quotation number holds every word of `text`.

    The last changed first; all of them for an empty text.
    """
    words = words_of(store, text, now)
    with store.reading() as db:
        return enquiries.find(db, words, actor.dealer, size, (page - 1) * size)


def words_of(store: Store, text: str, now: datetime) -> tuple[str, ...]:
    """What is sought: a telephone or donor number counts however it is written, the latter where a book is in force."""
    try:
        series = current_book(store, now).series if text.strip() else ()
    except NoBook:
        series = ()
    return sought_words(text, series)


def own_enquiry(db: Database, actor: Actor, enquiry: int) -> Enquiry:
    """For use inside a transaction. Raises NotFound."""
    found = enquiries.get(db, enquiry, actor.dealer)
    if found is None:
        raise NotFound(what="enquiry", name=str(enquiry))
    return found


def running_name(db: Database, prefix: str, book: Book, now: datetime) -> str:
    """As in Q-2026-00042: the year in the firm's own zone, a running number without gaps."""
    series = f"{prefix}-{now.astimezone(ZoneInfo(book.calendar.zone)).year}"
    return f"{series}-{counters.next_number(db, series):05d}"


def _car(book: Book, wish: Wish) -> str:
    return known_number(wish.donor.number_text, book.series)


def _check(db: Database, actor: Actor, book: Book, wish: Wish) -> None:
    """What a dealer writes as the customer's dealer is not even looked at: an error would tell that others exist."""
    named = wish.customer.dealer
    unknown = actor.dealer is None and named is not None and dealers.get(db, named) is None
    refuse(wish_faults(book, wish, unknown_dealer=unknown))

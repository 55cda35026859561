"""Taking an enquiry down, changing it, finding it again. A dealer's work is his own: of another's there is no trace."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import ChangedByAnother, NoBook, NotFound
from app.domain.finding import Hit, hits, known_number, sought_words
from app.domain.paging import SIZE, Page
from app.domain.quotations.enquiry import Enquiry, Wish
from app.domain.quotations.photograph import Photograph
from app.services.answering.checking import pointing_faults, refuse, wish_faults
from app.services.books.publishing import current_book
from app.services.customers.erased import refuse_erased
from app.services.once import Once, perform
from app.store import counters, customers, dealers, enquiries, found, history, photographs
from app.store.db import Store
from rules.model import Book


def create_enquiry(store: Store, actor: Actor, wish: Wish, now: datetime, *, once: Once | None = None) -> Enquiry:
    """Takes it down; a dealer's becomes his own, and the firm's people may take one down for `customer.dealer`.

    `customer.id` names one who is known already; without it he is new. Raises BadInput or UnknownNames with every field
    at fault, NotFound where nobody has that number, DataErased, KeyReused, Underway.
    """
    book = current_book(store, now)

    def take_down(db: Database) -> int:
        _check(db, actor, book, wish)
        dealer = actor.dealer or wish.customer.dealer
        known = _known(db, wish, dealer)
        reference = running_name(db, "E", book, now)
        history.add(db, "enquiry", reference, "enquiry-taken-down", actor.name, now)
        return enquiries.add(db, reference, known, dealer, actor.name, now, car=_car(book, wish))

    return enquiry(store, actor, perform(store, once, now, take_down))


def edit_enquiry(store: Store, actor: Actor, enquiry: int, wish: Wish, now: datetime, *, expected: int) -> Enquiry:
    """Replaces what was typed; whose it is stays, and what is said of the customer counts for all his enquiries.

    A customer without an id, or with that of nobody known, is the one it had, if he is nobody else's; else a new one.
    Raises NotFound, BadInput, UnknownNames, ChangedByAnother, DataErased.
    """
    book = current_book(store, now)
    with store.writing() as db:
        old = own_enquiry(db, actor, enquiry)
        if old.version != expected:
            raise ChangedByAnother(what="enquiry", name=old.reference, expected=expected, actual=old.version)
        _check(db, actor, book, wish, photographs.of(db, enquiry))
        for number in (old.customer.id, wish.customer.id):
            refuse_erased(None if number is None else customers.standing(db, number, actor.dealer))
        enquiries.change(db, old, wish, now, car=_car(book, wish))
        history.add(db, "enquiry", old.reference, "enquiry-changed", actor.name, now)
        return own_enquiry(db, actor, enquiry)


def enquiry(store: Store, actor: Actor, enquiry: int) -> Enquiry:
    """Raises NotFound, for another dealer's exactly as for one that does not exist."""
    with store.reading() as db:
        return own_enquiry(db, actor, enquiry)


def find_enquiries(
    store: Store, actor: Actor, now: datetime, text: str = "", *, after: int | None = None, size: int = SIZE
) -> Page[Enquiry]:
    """Those whose customer's name, telephone, donor number, reference, quotation or order holds every word of `text`.

    The last changed first, from `after` on; all of them for an empty text.
    """
    words = words_of(store, text, now)
    with store.reading() as db:
        return enquiries.find(db, words, actor.dealer, size, after)


def found_by(
    store: Store, actor: Actor, enquiries: Sequence[int], text: str, now: datetime
) -> dict[int, tuple[Hit, ...]]:
    """Key of an enquiry → by which of its facts the words of `text` find it; empty for an empty text."""
    words = words_of(store, text, now)
    if not words:
        return {}
    with store.reading() as db:
        facts = found.facts_of(db, enquiries)
    return {enquiry: hits(words, own) for enquiry, own in facts.items()}


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


def _known(db: Database, wish: Wish, dealer: str | None) -> Wish:
    """The customer by the number that he has now; another dealer's is as if he did not exist."""
    if wish.customer.id is None:
        return wish
    kept = customers.standing(db, wish.customer.id, None)
    if kept is None or kept.customer.dealer != dealer:
        raise NotFound(what="customer", name=str(wish.customer.id))
    refuse_erased(kept)
    return replace(wish, customer=replace(wish.customer, id=kept.id))


def _check(db: Database, actor: Actor, book: Book, wish: Wish, kept: tuple[Photograph, ...] = ()) -> None:
    """What a dealer writes as the customer's dealer is not even looked at: an error would tell that others exist."""
    named = wish.customer.dealer
    unknown = actor.dealer is None and named is not None and dealers.get(db, named) is None
    refuse([*wish_faults(book, wish, unknown_dealer=unknown), *pointing_faults(wish.donor, kept)])

"""Which countries a form offers: all there are, the firm's usual ones first. Naming them is the reader's affair."""

from __future__ import annotations

from datetime import datetime

from app.domain.asking.people import Person
from app.services.books.publishing import current_book
from app.services.people.introducing import dealer
from app.store.db import Store
from rules.model import Book
from rules.money.countries import COUNTRIES


def countries(store: Store, actor: Person, now: datetime) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """(usual, other), by ISO 3166-1: a dealer's own, the firm's, where deliveries go; then the rest. Raises NoBook."""
    usual = tuple(dict.fromkeys((*_own(store, actor), *_served(current_book(store, now)))))
    return usual, tuple(sorted(COUNTRIES.difference(usual)))


def _own(store: Store, actor: Person) -> tuple[str, ...]:
    found = dealer(store, actor.dealer)
    return () if found is None else (found.country,)


def _served(book: Book) -> tuple[str, ...]:
    codes = (book.tax.home, *(goes.country for goes in book.tax.goes))
    return tuple(code for code in codes if code in COUNTRIES)

"""A published book made ready for questions: by its diagram or, where that would keep a reader waiting, without one.

A request compiles no more than a small number of states. A book that needs more is answered without a diagram, exactly
but for counts and prices (`rules.engine.without_diagram`), while a thread compiles it with all the room there is.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from contextlib import suppress
from threading import Thread

from app.services.books.shelf import bare_of, compiling_of, facts_of, prepared_of
from app.store import books
from app.store.db import Store
from rules.donor.resolve import donor_atoms, facts_key
from rules.engine.diagram import TooLarge
from rules.engine.prepare import LIMIT, Prepared, prepare
from rules.engine.without_diagram import WithoutDiagram, prepare_without_diagram
from rules.model import Book, ToolCondition
from rules.specification import Donor

#: Raw states that a request compiles at most under one order.
QUICKLY = 10_000
#: And the thread.
ROOM = LIMIT

Conditions = Mapping[str, ToolCondition]


def compiled(store: Store, book: Book, conditions: Conditions, donor: Donor) -> Prepared:
    """The compiled book, however long it takes, kept for all cars that it doesn't tell apart. Raises TooLarge."""
    key = _key(store, book, conditions, donor)
    return prepared_of(store).have(key, lambda: _compile(store, book, conditions, donor, ROOM))


def ready(store: Store, book: Book, conditions: Conditions, donor: Donor) -> Prepared | WithoutDiagram:
    """The compiled book where it is at hand or quickly made, else one that goes on without a diagram."""
    key = _key(store, book, conditions, donor)
    at_hand = prepared_of(store).at_hand(key) or bare_of(store).at_hand(key)
    if at_hand is not None:
        return at_hand
    try:
        return prepared_of(store).have(key, lambda: _compile(store, book, conditions, donor, QUICKLY))
    except TooLarge:
        return bare_of(store).have(key, lambda: _without(store, book, conditions, donor))


def is_underway(store: Store, book: Book, conditions: Conditions, donor: Donor) -> bool:
    """Whether a thread is at work on the diagram of a book that is answered without one meanwhile."""
    return _key(store, book, conditions, donor) in compiling_of(store)


def order_of(book: Book, conditions: Conditions) -> tuple[str, ...]:
    """A good order to publish the book with: the best that is quickly found."""
    try:
        return prepare(book, conditions, Donor(), QUICKLY).order
    except TooLarge:
        return prepare_without_diagram(book, conditions, Donor()).order


def _key(store: Store, book: Book, conditions: Conditions, donor: Donor) -> Hashable:
    not_ok = frozenset((t, condition) for t, condition in conditions.items() if condition is not ToolCondition.OK)
    facts = facts_of(store).have(book.number, lambda: donor_atoms(book))
    return book.number, not_ok, facts_key(book, donor, facts)


def _compile(store: Store, book: Book, conditions: Conditions, donor: Donor, limit: int) -> Prepared:
    return prepare(book, conditions, donor, limit, _order(store, book))


def _order(store: Store, book: Book) -> tuple[str, ...] | None:
    with store.reading() as db:
        return books.order(db, book.number)


def _without(store: Store, book: Book, conditions: Conditions, donor: Donor) -> WithoutDiagram:
    """Begins to compile as well: once that is done, `ready` finds it."""
    compiling_of(store).add(_key(store, book, conditions, donor))
    Thread(target=_compile_on, args=(store, book, conditions, donor), name="compiling", daemon=True).start()
    return prepare_without_diagram(book, conditions, donor, _order(store, book))


def _compile_on(store: Store, book: Book, conditions: Conditions, donor: Donor) -> None:
    try:
        with suppress(TooLarge):
            compiled(store, book, conditions, donor)
    finally:
        compiling_of(store).discard(_key(store, book, conditions, donor))
        store.close()

"""What was worked out of published books and may be had again: the read book by number, the compiled one by its states.

A published book never changes, so neither does what is made of it. Compiling holds no lock of the store; two that need
the same one at the same time share the work.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterator
from contextlib import contextmanager
from threading import Lock
from typing import Generic, TypeVar
from weakref import WeakKeyDictionary

from app.store.db import Store
from rules.donor.resolve import DonorAtom
from rules.engine.prepare import Prepared
from rules.engine.without_diagram import WithoutDiagram
from rules.model import Book
from rules.suggest import Surroundings

T = TypeVar("T")

#: Compiled books kept: one for each book, set of tools not in order, and group of donor cars that no rule tells apart.
PREPARED = 64

#: Read books kept.
BOOKS = 256


class Shelf(Generic[T]):
    """The last `room` things made, each made once."""

    def __init__(self, room: int) -> None:
        self._room = room
        self._lock = Lock()
        self._made: OrderedDict[Hashable, tuple[T]] = OrderedDict()
        self._turns: dict[Hashable, tuple[Lock, int]] = {}

    def have(self, key: Hashable, make: Callable[[], T]) -> T:
        """The thing under the key, made now where it is not at hand. What `make` raises is raised, and nothing kept."""
        found = self._take(key)
        if found:
            return found[0]
        with self._turn(key):
            found = self._take(key) or (make(),)
            self._put(key, found)
            return found[0]

    def at_hand(self, key: Hashable) -> T | None:
        """The thing under the key where it is at hand; nothing is waited for."""
        found = self._take(key)
        return found[0] if found else None

    def _take(self, key: Hashable) -> tuple[T] | None:
        with self._lock:
            if key in self._made:
                self._made.move_to_end(key)
            return self._made.get(key)

    def _put(self, key: Hashable, thing: tuple[T]) -> None:
        with self._lock:
            self._made[key] = thing
            while len(self._made) > self._room:
                self._made.popitem(last=False)

    @contextmanager
    def _turn(self, key: Hashable) -> Iterator[None]:
        """One at a time under the same key."""
        with self._lock:
            turn, waiting = self._turns.get(key, (Lock(), 0))
            self._turns[key] = (turn, waiting + 1)
        try:
            with turn:
                yield
        finally:
            self._leave(key)

    def _leave(self, key: Hashable) -> None:
        with self._lock:
            turn, waiting = self._turns.pop(key)
            if waiting > 1:
                self._turns[key] = (turn, waiting - 1)


_books: WeakKeyDictionary[Store, Shelf[Book]] = WeakKeyDictionary()
_facts: WeakKeyDictionary[Store, Shelf[tuple[DonorAtom, ...]]] = WeakKeyDictionary()
_prepared: WeakKeyDictionary[Store, Shelf[Prepared]] = WeakKeyDictionary()
_bare: WeakKeyDictionary[Store, Shelf[WithoutDiagram]] = WeakKeyDictionary()
_compiling: WeakKeyDictionary[Store, set[Hashable]] = WeakKeyDictionary()
_surroundings: WeakKeyDictionary[Store, Shelf[Surroundings]] = WeakKeyDictionary()
_lock = Lock()


def books_of(store: Store) -> Shelf[Book]:
    """Read books by number."""
    with _lock:
        return _books.setdefault(store, Shelf(BOOKS))


def facts_of(store: Store) -> Shelf[tuple[DonorAtom, ...]]:
    """What each book asks of a donor car."""
    with _lock:
        return _facts.setdefault(store, Shelf(BOOKS))


def prepared_of(store: Store) -> Shelf[Prepared]:
    """Compiled books."""
    with _lock:
        return _prepared.setdefault(store, Shelf(PREPARED))


def bare_of(store: Store) -> Shelf[WithoutDiagram]:
    """Books that are answered without a diagram."""
    with _lock:
        return _bare.setdefault(store, Shelf(PREPARED))


def compiling_of(store: Store) -> set[Hashable]:
    """The keys of what threads are compiling just now."""
    with _lock:
        return _compiling.setdefault(store, set())


def surroundings_of(store: Store) -> Shelf[Surroundings]:
    """What suggestions are looked for in."""
    with _lock:
        return _surroundings.setdefault(store, Shelf(PREPARED))

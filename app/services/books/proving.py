"""What can be proved of a published book, and what a change of book does: worked out once, beside the requests.

A published book never changes, so one proof holds for a book and a state of the tools. It may take seconds: it is
worked out in a thread of its own, one at a time, with no lock of the store held, and whoever asks waits a moment for
it. Beyond that he is told to ask again, so that no number of readers takes the desk's threads from the others.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from concurrent.futures import Future
from contextlib import closing
from dataclasses import dataclass
from threading import Lock, Thread
from typing import Any
from weakref import WeakKeyDictionary

from app.domain.books.tool_state import ToolStates
from app.domain.errors import BeingWorkedOut, BookTooBranched
from app.services.answering.specifying import prepared_book
from app.services.books import publishing
from app.services.books.shelf import Shelf
from app.services.books.tools import tool_states
from app.store.db import Store
from rules.engine.diagram import TooLarge
from rules.engine.prepare import LIMIT
from rules.model import Book, ToolCondition
from rules.proof import Proof, prove
from rules.proof.compare import Comparison, Side, compare
from rules.proof.reliance import Reliance, reliance
from rules.specification import Donor

#: Seconds that a reader waits before he is told to ask again.
PATIENCE = 6.0

#: Seconds after which to ask again.
AGAIN = 2

#: Proofs, comparisons and what relies on a tool: so many are kept.
ROOM = 128


@dataclass(frozen=True, slots=True)
class Proved:
    """A book under the state of its tools in force, and what was proved of it."""

    book: Book
    tools: ToolStates
    proof: Proof


@dataclass(frozen=True, slots=True)
class Compared:
    """What changes from `old` to `new`, both under the state of the tools in force, for an unknown donor car."""

    new: Book
    old: Book
    tools: ToolStates
    comparison: Comparison


def proved(store: Store, number: int, patience: float = PATIENCE) -> Proved:
    """Raises NotFound, BookTooBranched, and BeingWorkedOut where it takes longer than `patience` seconds."""
    return proved_book(store, publishing.book(store, number), patience)


def proved_book(store: Store, book: Book, patience: float = PATIENCE) -> Proved:
    """Of a book that need not be published, but has a number of its own. Raises BookTooBranched, BeingWorkedOut."""
    tools = tool_states(store)
    conditions = tools.conditions_in(book)

    def make() -> Proof:
        return prove(book, conditions, prepared=prepared_book(store, book, conditions, Donor()))

    return Proved(book, tools, _had(store, ("proof", book.number, _key(conditions)), make, patience))


def compared(store: Store, number: int, against: int, patience: float = PATIENCE) -> Compared:
    """Book `number` as the new one, `against` as the old. Raises as `proved` does."""
    return compared_books(store, publishing.book(store, number), publishing.book(store, against), patience)


def compared_books(store: Store, new: Book, old: Book, patience: float = PATIENCE) -> Compared:
    """Two books that need not be published, but have numbers of their own. Raises as `proved_book` does."""
    tools = tool_states(store)
    was, now = (Side(book, tools.conditions_in(book)) for book in (old, new))
    key = ("comparison", new.number, old.number, _key(was.states), _key(now.states))
    return Compared(new, old, tools, _had(store, key, lambda: compare(was, now), patience))


def relied(store: Store, number: int, tool: str, patience: float = PATIENCE) -> Reliance:
    """What relies on a tool of book `number`, the others as they stand. Raises as `proved` does."""
    book, tools = publishing.book(store, number), tool_states(store)
    others = {other: condition for other, condition in tools.conditions_in(book).items() if other != tool}

    def make() -> Reliance:
        return reliance(book, others, tool, prepared_book(store, book, others, Donor()).order)

    return _had(store, ("reliance", number, tool, _key(others)), make, patience)


def _key(conditions: Any) -> Hashable:
    return frozenset((tool, condition) for tool, condition in conditions.items() if condition is not ToolCondition.OK)


_jobs: WeakKeyDictionary[Store, Shelf[Future[Any]]] = WeakKeyDictionary()
_lock = Lock()
#: One at a time: two would only take the processor from each other and from the readers.
_bench = Lock()


def _had(store: Store, key: Hashable, make: Callable[[], Any], patience: float) -> Any:
    with _lock:
        jobs = _jobs.setdefault(store, Shelf(ROOM))
    try:
        return jobs.have(key, lambda: _begun(store, make)).result(patience)
    except TimeoutError:
        raise BeingWorkedOut(seconds=AGAIN) from None
    except TooLarge:
        raise BookTooBranched(limit=LIMIT) from None


def _begun(store: Store, make: Callable[[], Any]) -> Future[Any]:
    """Being made in a thread that keeps nobody from stopping the desk."""
    job: Future[Any] = Future()
    Thread(target=_make, args=(store, job, make), name="proof", daemon=True).start()
    return job


def _make(store: Store, job: Future[Any], make: Callable[[], Any]) -> None:
    """The thread's own connection is closed before anybody is told."""
    try:
        with _bench, closing(store):
            made = make()
    except Exception as error:
        job.set_exception(error)
    else:
        job.set_result(made)

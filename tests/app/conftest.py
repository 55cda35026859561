from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from app.services.books import shelf
from app.store.db import Store
from demo.loading import set_up
from tests.app.desk import NOW, Desk


@pytest.fixture(scope="session")
def set_up_store(tmp_path_factory: pytest.TempPathFactory) -> Store:
    """The demo firm without work in hand, loaded once."""
    store = Store(tmp_path_factory.mktemp("set-up") / "desk.sqlite3")
    set_up(store, NOW - timedelta(days=30))
    store.close()
    return store


#: What is worked out of a book and kept beside a store; their contents differ in type.
SHELVES: tuple[Callable[[Store], Any], ...] = (shelf.books_of, shelf.facts_of, shelf.prepared_of)


@pytest.fixture
def desk(tmp_path: Path, set_up_store: Store) -> Iterator[Desk]:
    """A desk of its own for each test, on a copy of the file."""
    store = Store(shutil.copy(set_up_store.path, tmp_path / "desk.sqlite3"))
    _begin_with_what_was_worked_out(store, set_up_store)
    yield Desk(store)
    _keep_what_is_of_the_first_book(store, set_up_store)
    store.close()


def _begin_with_what_was_worked_out(store: Store, before: Store) -> None:
    """The first book is in every copy, so what an earlier test compiled of it need not be compiled again."""
    for shelf_of in SHELVES:
        shelf_of(store)._made.update(shelf_of(before)._made)


def _keep_what_is_of_the_first_book(store: Store, after: Store) -> None:
    """A book that a test published itself has a number of its own in that test alone."""
    for shelf_of in SHELVES:
        made = shelf_of(store)._made
        own = {key: made[key] for key in made if (key[0] if isinstance(key, tuple) else key) == 1}
        shelf_of(after)._made.update(own)

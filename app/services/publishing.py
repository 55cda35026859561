"""Publishing rule books and having them again by number. A published book never changes; going back is publishing again."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.domain.actor import Actor
from app.store.db import Store
from rules.model import Book


@dataclass(frozen=True, slots=True)
class Published:
    """A published book's entry: in force from `valid_from` on, until a later one's."""

    number: int
    title: str
    published_at: datetime
    valid_from: datetime
    by: str
    note: str


def publish_book(
    store: Store, actor: Actor, text: str, now: datetime, *, file: str = "", note: str = "", valid_from: datetime | None = None
) -> int:
    """The new book's number. Raises BookRefused with every mistake, BookTooBranched."""
    raise NotImplementedError


def current_book(store: Store, now: datetime) -> Book:
    """The book in force at `now`, its `number` set. Raises NoBook."""
    raise NotImplementedError


def book(store: Store, number: int) -> Book:
    """A published book by its number. Raises NotFound."""
    raise NotImplementedError


def book_text(store: Store, number: int) -> str:
    """The text as it was published. Raises NotFound."""
    raise NotImplementedError


def published_books(store: Store) -> tuple[Published, ...]:
    """All of them, the newest first."""
    raise NotImplementedError

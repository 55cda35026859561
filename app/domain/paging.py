"""Pages of a list, and the key by which the next is asked for: where the last one ended, and of which list.

A list is walked in its own order from where the page before ended. So a page costs the same wherever it lies, and what
comes in the meantime moves nothing twice into sight and lets nothing slip past.
"""

from __future__ import annotations

import json
from base64 import urlsafe_b64decode, urlsafe_b64encode
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Generic, TypeVar

from app.domain.errors import BadInput, Fault

T = TypeVar("T")
U = TypeVar("U")

#: What the order of a list is told by, of one row.
Position = tuple[int | str, ...]

#: Rows of a page, of every list alike.
SIZE = 25

#: The longest key that is read at all.
LONGEST_KEY = 200

#: A key of another form is none of ours.
FORM = 1

_INTEGERS = range(-(2**63), 2**63)


@dataclass(frozen=True, slots=True)
class Page(Generic[T]):
    """`next`: where it ended; None where nothing follows."""

    rows: tuple[T, ...]
    next: Position | None

    def of(self, make: Callable[[T], U]) -> Page[U]:
        """The same page of what is made of each row."""
        return Page(tuple(map(make, self.rows)), self.next)


def page(rows: Sequence[T], size: int, position_of: Callable[[T], Position]) -> Page[T]:
    """Of up to `size` + 1 rows the first `size`: one more says that something follows."""
    shown = tuple(rows[:size])
    return Page(shown, position_of(shown[-1]) if len(rows) > size else None)


def key_of(of: Sequence[str], position: Position) -> str:
    """The key to what follows `position`. `of`: what the list is of, and what it was narrowed to."""
    return _written([FORM, _mark(of), *position])


def position_in(key: str, of: Sequence[str], kinds: Sequence[type]) -> Position:
    """Where the page before ended. `kinds`: int or str, of each part of a position.

    Raises BadInput for what is no key of a page (`not-a-page-key`) or of another list (`page-key-of-another-list`).
    """
    told = _read(key)
    if told is None or _written(told) != key:
        raise _fault("not-a-page-key")
    _, mark, *position = told
    if mark != _mark(of) or not _fits(position, kinds):
        raise _fault("page-key-of-another-list")
    return tuple(position)


def _written(told: Sequence[int | str]) -> str:
    """In one way only: whoever wrote it in another did not get it from here."""
    return urlsafe_b64encode(json.dumps(told, separators=(",", ":")).encode()).decode().rstrip("=")


def _read(key: str) -> list[int | str] | None:
    try:
        told = json.loads(urlsafe_b64decode(key + "=" * (-len(key) % 4)))
    except (ValueError, RecursionError):
        return None
    return told if isinstance(told, list) and len(told) > 2 and told[0] == FORM and all(map(_plain, told)) else None


def _plain(part: object) -> bool:
    return isinstance(part, str) or (type(part) is int and part in _INTEGERS)


def _fits(position: Sequence[int | str], kinds: Sequence[type]) -> bool:
    return [type(part) for part in position] == list(kinds)


def _mark(of: Sequence[str]) -> str:
    return sha256("\x1f".join(of).encode()).hexdigest()[:12]


def _fault(code: str) -> BadInput:
    return BadInput((Fault("after", code),))

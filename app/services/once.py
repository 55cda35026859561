"""Doing what creates only once, however often it is asked for with the same idempotency key.

The key is kept in the very transaction that makes the thing: a crash leaves both or neither. A second request that
comes while the first is underway waits for it a little, and then is given what the first one made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from threading import Lock
from typing import Any
from weakref import WeakKeyDictionary

from sqlite_utils import Database

from app.domain.errors import KeyReused, Underway
from app.store import keys
from app.store.db import Store

#: Seconds that a second request waits for the first.
PATIENCE = 10.0


@dataclass(frozen=True, slots=True)
class Once:
    """`key` as the client sent it, `person` who asks, `fingerprint` a hash of method, path and payload."""

    key: str
    person: str
    fingerprint: str


@dataclass
class _Turn:
    lock: Lock
    waiting: int = 0


_turns: WeakKeyDictionary[Store, dict[tuple[str, str], _Turn]] = WeakKeyDictionary()
_door = Lock()


def perform(store: Store, once: Once | None, now: datetime, make: Callable[[Database], Any]) -> Any:
    """What `make` names (plain JSON) of the thing it made, or what the first request with this key made.

    Raises KeyReused, Underway, and whatever `make` refuses, in which case nothing is kept.
    """
    with underway(store, once), store.writing() as db:
        if (made := already(db, once)) is not None:
            return made
        made = make(db)
        if once is not None:
            keys.add(db, once.person, once.key, once.fingerprint, made, now)
        return made


def already(db: Database, once: Once | None) -> Any:
    """What was made under the key, None where nothing was. Raises KeyReused."""
    kept = None if once is None else keys.get(db, once.person, once.key)
    if kept is None or once is None:
        return None
    if kept.fingerprint != once.fingerprint:
        raise KeyReused(key=once.key)
    return kept.made


def remember(store: Store, once: Once, response: Any) -> None:
    """Keeps the answer (plain JSON) that was given to the first request with the key."""
    with store.writing() as db:
        keys.answer(db, once.person, once.key, response)


def replayed(store: Store, once: Once) -> Any:
    """The answer that was given before, None where there is none. Raises KeyReused."""
    with store.reading() as db:
        kept = keys.get(db, once.person, once.key)
        return None if already(db, once) is None or kept is None else kept.response


@contextmanager
def underway(store: Store, once: Once | None) -> Iterator[None]:
    """One at a time with the same key. Raises Underway when the first takes too long."""
    if once is None:
        yield
        return
    turn = _enter(store, once)
    try:
        if not turn.lock.acquire(timeout=PATIENCE):
            raise Underway(key=once.key)
        try:
            yield
        finally:
            turn.lock.release()
    finally:
        _leave(store, once, turn)


def _enter(store: Store, once: Once) -> _Turn:
    with _door:
        turn = _turns.setdefault(store, {}).setdefault((once.person, once.key), _Turn(Lock()))
        turn.waiting += 1
        return turn


def _leave(store: Store, once: Once, turn: _Turn) -> None:
    with _door:
        turn.waiting -= 1
        if not turn.waiting:
            _turns[store].pop((once.person, once.key), None)

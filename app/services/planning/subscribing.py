"""Calendar feeds made, shown once, listed, used, revoked. Only the hash of a secret is kept.

A wrong address, a revoked one and one whose maker may no longer read the calendar are all the same nothing.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.feed import Feed
from app.domain.asking.people import Action, Person, Role, Sort, reach
from app.domain.errors import NotFound
from app.services.answering.checking import blank_faults, long_faults, refuse
from app.services.once import Once, perform
from app.services.people.pacing import MINUTE, keep_pace
from app.services.people.signing_in import hash_of
from app.store import feeds as kept
from app.store import people
from app.store.db import Store

#: Requests in a minute: of one feed, and of one network address that knows no feed.
MOST_A_MINUTE = 30

LONGEST_LABEL = 80


@dataclass(frozen=True, slots=True)
class Made:
    """`secret` is seen here once and never again: None where the same request had made it before."""

    feed: Feed
    secret: str | None


def make(store: Store, person: Person, label: str, language: str, now: datetime, *, once: Once | None = None) -> Made:
    """A feed of the person's own. Raises BadInput, KeyReused, Underway."""
    refuse((*blank_faults("label", label), *long_faults("label", label, LONGEST_LABEL)))
    secret, fresh = secrets.token_urlsafe(32), list[int]()

    def write(db: Database) -> int:
        fresh.append(kept.add(db, Feed(0, person.name, label.strip(), language, now), hash_of(secret)))
        return fresh[0]

    feed = _own(store, person, perform(store, once, now, write))
    return Made(feed, secret if fresh else None)


def feeds(store: Store, person: Person) -> tuple[Feed, ...]:
    """The person's own; the manager sees everybody's."""
    with store.reading() as db:
        return kept.every(db, _whose(person))


def revoke(store: Store, person: Person, feed: int, now: datetime) -> Feed:
    """From this moment its address leads nowhere. Raises NotFound."""
    found = _own(store, person, feed)
    if found.live:
        with store.writing() as db:
            kept.revoke(db, feed, person.name, now)
    return _own(store, person, feed)


def reader_of(store: Store, secret: str, address: str, now: datetime) -> tuple[Person, Feed]:
    """As whom the feed with that secret reads; `address`: the network's, of who asks. Raises NotFound, SlowDown."""
    with store.reading() as db:
        feed = kept.by_hash(db, hash_of(secret))
        found = None if feed is None else people.person_and_hash(db, feed.person)
    if feed is None or found is None or not feed.live or reach(found[0].role, Action.READ, Sort.SLOT) is None:
        keep_pace(store, ("no feed", address), MOST_A_MINUTE, now, "feed-too-often")
        raise NotFound(what="feed")
    keep_pace(store, ("feed", feed.id), MOST_A_MINUTE, now, "feed-too-often")
    _note_use(store, feed, now)
    return found[0], feed


def _note_use(store: Store, feed: Feed, now: datetime) -> None:
    """To the minute, as of a token."""
    if feed.used_at is None or now - feed.used_at >= MINUTE:
        with store.writing() as db:
            kept.used(db, feed.id, now)


def _whose(person: Person) -> str | None:
    return None if person.role is Role.MANAGER else person.name


def _own(store: Store, person: Person, feed: int) -> Feed:
    with store.reading() as db:
        found = kept.get(db, feed, _whose(person))
    if found is None:
        raise NotFound(what="feed")
    return found

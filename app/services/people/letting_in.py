"""Letting a dealer's own programs in: tokens made, shown once, used, listed, revoked. Only the hash of one is kept."""

from __future__ import annotations

import secrets
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.asking.people import Person
from app.domain.asking.token import ApiToken, Scope, TokenState
from app.domain.errors import Fault, NotFound, TokenRefused
from app.services.answering.checking import blank_faults, long_faults, refuse
from app.services.answering.pricing import day_of, midnight_of
from app.services.books.publishing import current_book
from app.services.once import Once, perform
from app.services.people.pacing import MINUTE, keep_pace
from app.services.people.signing_in import hash_of
from app.store import people
from app.store import tokens as kept
from app.store.db import Store

#: By this a token is known where it has strayed, into a log or a listing.
PREFIX = "bodywright_"

#: Requests that one token may make in a minute.
MOST_A_MINUTE = 300

LONGEST_LABEL = 80


@dataclass(frozen=True, slots=True)
class Made:
    """`secret` is seen here once and never again: None where the same request had made it before."""

    token: ApiToken
    secret: str | None


@dataclass(frozen=True, slots=True)
class LetIn:
    """As whom a program reads, and for what."""

    person: Person
    scopes: tuple[Scope, ...]


def make(
    store: Store,
    actor: Actor,
    label: str,
    scopes: Sequence[Scope],
    expires_on: date | None,
    now: datetime,
    *,
    once: Once | None = None,
) -> Made:
    """A token for the actor's dealer; `expires_on`: the last day on which it lets anybody in, None: until revoked.

    Raises BadInput, NotFound for who is no dealer's, KeyReused, Underway.
    """
    book = current_book(store, now)
    refuse(_faults(label, scopes, expires_on, day_of(book, now)))
    secret, fresh = PREFIX + secrets.token_urlsafe(32), list[int]()

    def write(db: Database) -> int:
        if actor.dealer is None:
            raise NotFound(what="dealer", name="–")
        end = None if expires_on is None else midnight_of(book, expires_on + timedelta(days=1))
        wanted = tuple(scope for scope in Scope if scope in scopes)
        token = ApiToken(0, actor.dealer, actor.name, label.strip(), wanted, now, end)
        fresh.append(kept.add(db, token, hash_of(secret)))
        return fresh[0]

    token = _own(store, actor, perform(store, once, now, write))
    return Made(token, secret if fresh else None)


def let_in(store: Store, secret: str, now: datetime) -> LetIn:
    """Who comes with that secret. Raises TokenRefused, SlowDown."""
    with store.reading() as db:
        token = kept.by_hash(db, hash_of(secret))
        person = None if token is None else people.person_and_hash(db, token.person)
    if token is None or person is None:
        raise TokenRefused(why="token-unknown")
    if (state := token.state(now)) is not TokenState.LIVE:
        raise TokenRefused(why=f"token-{state.value}")
    keep_pace(store, ("token", token.id), MOST_A_MINUTE, now, "too-many-requests")
    _note_use(store, token, now)
    return LetIn(person[0], token.scopes)


def tokens(store: Store, actor: Actor) -> tuple[ApiToken, ...]:
    """The dealer's own; the firm's people see every dealer's."""
    with store.reading() as db:
        return kept.every(db, actor.dealer)


def revoke(store: Store, actor: Actor, token: int, now: datetime) -> ApiToken:
    """From this moment it lets nobody in; said twice, it stays as it was said first. Raises NotFound."""
    found = _own(store, actor, token)
    if found.revoked_at is None:
        with store.writing() as db:
            kept.revoke(db, token, actor.name, now)
    return _own(store, actor, token)


def _own(store: Store, actor: Actor, token: int) -> ApiToken:
    with store.reading() as db:
        found = kept.get(db, token, actor.dealer)
    if found is None:
        raise NotFound(what="token", name=str(token))
    return found


def _faults(label: str, scopes: Sequence[Scope], expires_on: date | None, today: date) -> Iterator[Fault]:
    yield from (*blank_faults("label", label), *long_faults("label", label, LONGEST_LABEL))
    if not set(scopes) - {Scope.PRICES}:
        yield Fault("scopes", "opens-nothing")
    if expires_on is not None and expires_on < today:
        yield Fault("expires_on", "in-the-past")


def _note_use(store: Store, token: ApiToken, now: datetime) -> None:
    """To the minute: a program that asks ten times a second must not write as often."""
    if token.used_at is None or now - token.used_at >= MINUTE:
        with store.writing() as db:
            kept.used(db, token.id, now)

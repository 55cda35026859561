"""Signing in and out. The token goes to the browser alone; here only its hash is known.

The forgery token is derived from the sign-in's token, so nothing more is stored and no secret of the house is needed:
who cannot read the cookie cannot know it.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import cache

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from app.domain.asking.guessing import MEMORY, SAME_ADDRESS, SAME_NAME, SAME_NAME_AND_ADDRESS, seconds_to_wait
from app.domain.asking.members import password_faults
from app.domain.asking.people import Person, Role
from app.domain.errors import BadInput, Fault, NotSignedIn, SignInFailed, SlowDown
from app.services.answering import checking
from app.store import history, people, sessions
from app.store.db import Store
from app.store.sessions import SignIn


@dataclass(frozen=True, slots=True)
class Opened:
    """A fresh sign-in and its token, seen here once and never again."""

    sign_in: SignIn
    token: str


def sign_in(
    store: Store, hasher: PasswordHasher, name: str, password: str, address: str, now: datetime, hours: int = 12
) -> Opened:
    """Raises SlowDown before it looks at the password, SignInFailed without saying which of the two is wrong."""
    hold_up(store, name, address, now)
    with store.reading() as db:
        found = people.person_and_hash(db, name)
    right = fits(hasher, found[1] if found else nobodys_hash(hasher), password)
    if found is None or not right:
        note_failure(store, name, address, now)
        raise SignInFailed
    return _open(store, found[0], address, now, hours)


def signed_in(store: Store, token: str, now: datetime) -> SignIn:
    """Whose token it is. Raises NotSignedIn."""
    with store.reading() as db:
        found = sessions.sign_in_of(db, hash_of(token), now)
    if found is None:
        raise NotSignedIn
    return found


def change(store: Store, token: str, current: SignIn, prices_shown: bool | None, language: str | None) -> SignIn:
    """Shows or hides prices, or changes the language, for this sign-in; None leaves as it is."""
    changed = replace(
        current,
        prices_shown=current.prices_shown if prices_shown is None else prices_shown,
        language=language or current.language,
    )
    with store.writing() as db:
        sessions.change_sign_in(db, hash_of(token), changed.prices_shown, changed.language)
    return changed


def sign_out(store: Store, token: str) -> None:
    """The token is worth nothing any more."""
    with store.writing() as db:
        sessions.end_sign_in(db, hash_of(token))


def choose_password(
    store: Store, hasher: PasswordHasher, token: str, current: str, new: str, address: str, now: datetime
) -> SignIn:
    """His own, instead of the one he has; wherever else he is signed in, he is out. Raises SlowDown, BadInput.

    Who knows the page but not the password guesses no faster here than at the door.
    """
    own = signed_in(store, token, now).person
    hold_up(store, own.name, address, now)
    with store.reading() as db:
        found = people.person_and_hash(db, own.name)
    if found is None or not fits(hasher, found[1], current):
        note_failure(store, own.name, address, now)
        raise BadInput([Fault("current", "wrong-password")])
    checking.refuse(password_faults(own.name, current, new))
    hashed = hasher.hash(new)
    with store.writing() as db:
        people.set_hash(db, own.name, hashed, first_password=False)
        sessions.end_sign_ins_of(db, own.name, but=hash_of(token))
        sessions.forget_failed_tries(db, own.name, address)
        history.add(db, "person", own.name, "password-chosen", own.name, now)
    return signed_in(store, token, now)


def add_person(store: Store, hasher: PasswordHasher, person: Person, password: str, now: datetime) -> None:
    """Raises BadInput where the name is taken."""
    hashed = hasher.hash(password)
    with store.writing() as db:
        if people.member(db, person.name) is not None:
            raise BadInput([Fault("name", "duplicate")])
        people.add_person(db, person, hashed, now)


def person(store: Store, name: str) -> Person | None:
    """Who signs in with this name, if anybody does."""
    with store.reading() as db:
        found = people.person_and_hash(db, name)
    return found[0] if found else None


def anybody(store: Store) -> bool:
    """Whether anybody can sign in at all."""
    with store.reading() as db:
        return bool(people.people(db))


def forgery_token(token: str) -> str:
    """What a page of ours sends along to show that it is ours."""
    return hmac.new(token.encode(), b"forgery", hashlib.sha256).hexdigest()


def hash_of(token: str) -> str:
    """What is kept of a token: it is drawn at random from 256 bits, so a plain hash is enough."""
    return hashlib.sha256(token.encode()).hexdigest()


def _open(store: Store, person: Person, address: str, now: datetime, hours: int) -> Opened:
    with store.reading() as db:
        found = people.member(db, person.name)
    first = found is not None and found.first_password
    shown = person.role is not Role.DEALER
    opened = Opened(SignIn(person, shown, person.language, first), secrets.token_urlsafe(32))
    with store.writing() as db:
        sessions.forget_failed_tries(db, person.name, address)
        sessions.keep_sign_in(db, hash_of(opened.token), opened.sign_in, now, now + timedelta(hours=hours))
    return opened


def hold_up(store: Store, name: str, address: str, now: datetime) -> None:
    """Raises SlowDown after too many wrong tries."""
    since = now - MEMORY
    with store.reading() as db:
        waits = (
            seconds_to_wait(sessions.failed_tries(db, since, name=name, address=address), SAME_NAME_AND_ADDRESS, now),
            seconds_to_wait(sessions.failed_tries(db, since, address=address), SAME_ADDRESS, now),
            seconds_to_wait(sessions.failed_tries(db, since, name=name), SAME_NAME, now),
        )
    if max(waits):
        raise SlowDown(seconds=max(waits))


def note_failure(store: Store, name: str, address: str, now: datetime) -> None:
    """A wrong try more."""
    with store.writing() as db:
        sessions.note_failed_try(db, name, address, now, now - MEMORY)


def fits(hasher: PasswordHasher, hashed: str, password: str) -> bool:
    """Whether it is the one that was hashed."""
    try:
        return hasher.verify(hashed, password)
    except (VerificationError, InvalidHashError):
        return False


@cache
def nobodys_hash(hasher: PasswordHasher) -> str:
    """Checked where there is no such person, so that the time it takes tells nothing."""
    return hasher.hash(secrets.token_urlsafe(16))

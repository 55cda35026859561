"""People: added, disabled, enabled, given a new first password; what each of them did. Nobody is ever deleted."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from argon2 import PasswordHasher
from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.asking.members import Member, last_manager, person_faults
from app.domain.asking.people import Person
from app.domain.errors import LastManager, NotFound, PersonDisabled
from app.domain.quotations.quotation import Happening
from app.services.answering.checking import long_faults, refuse
from app.services.once import Once, perform
from app.store import dealers, history, people, sessions, tokens
from app.store.db import Store
from app.store.history import Entry

#: Letters and figures that nobody takes for one another when a password is read out.
_ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789"
_GROUPS, _GROUP = 4, 4

DEEDS_ON_A_PAGE = 50


@dataclass(frozen=True, slots=True)
class Told:
    """`password` is told here once and never again: None where the same request had made it before."""

    member: Member
    password: str | None


def everybody(store: Store) -> tuple[Member, ...]:
    """In the order in which they were added."""
    with store.reading() as db:
        return people.members(db)


def member(store: Store, name: str) -> Member:
    """Raises NotFound."""
    with store.reading() as db:
        return _member(db, name)


def happened_to(store: Store, name: str) -> tuple[Happening, ...]:
    """Added, disabled, enabled, given a new password, by whom; in the order in which it happened."""
    with store.reading() as db:
        return history.of(db, "person", name)


def deeds(store: Store, name: str, page: int = 1) -> tuple[tuple[Entry, ...], bool]:
    """What he did, the last first, and whether there is more. Raises NotFound."""
    with store.reading() as db:
        _member(db, name)
        rows = history.by(db, name, limit=DEEDS_ON_A_PAGE + 1, offset=(page - 1) * DEEDS_ON_A_PAGE)
    return rows[:DEEDS_ON_A_PAGE], len(rows) > DEEDS_ON_A_PAGE


def add(
    store: Store, hasher: PasswordHasher, actor: Actor, person: Person, now: datetime, *, once: Once | None = None
) -> Told:
    """He signs in with the password told here, and then chooses his own. Raises BadInput, KeyReused, Underway."""
    refuse(long_faults("display_name", person.display_name))

    def write(db: Database, hashed: str) -> None:
        known = [one.id for one in dealers.every(db)]
        refuse(person_faults(person, people.members(db), known))
        people.add_person(db, person, hashed, now, first_password=True)
        history.add(db, "person", person.name, "person-added", actor.name, now, **_about(person))

    return _with_password(store, hasher, person.name, now, once, write)


def reset(
    store: Store, hasher: PasswordHasher, actor: Actor, name: str, now: datetime, *, once: Once | None = None
) -> Told:
    """A new first password; where he is signed in, he is out. Raises NotFound, PersonDisabled, KeyReused, Underway."""

    def write(db: Database, hashed: str) -> None:
        found = _member(db, name)
        if not found.active:
            raise PersonDisabled(name=found.person.display_name)
        people.set_hash(db, name, hashed, first_password=True)
        sessions.end_sign_ins_of(db, name)
        history.add(db, "person", name, "person-reset", actor.name, now, **_about(found.person))

    return _with_password(store, hasher, name, now, once, write)


def disable(store: Store, actor: Actor, name: str, now: datetime) -> Member:
    """He is out at once, and his programs with him; said twice, it stays as it was said first.

    Raises NotFound, LastManager.
    """
    with store.writing() as db:
        found = _member(db, name)
        if found.active:
            if last_manager(people.members(db), name):
                raise LastManager(name=found.person.display_name)
            people.disable(db, name, now)
            sessions.end_sign_ins_of(db, name)
            tokens.revoke_all_of(db, name, actor.name, now)
            history.add(db, "person", name, "person-disabled", actor.name, now, **_about(found.person))
        return _member(db, name)


def enable(store: Store, actor: Actor, name: str, now: datetime) -> Member:
    """With the password that he had; what his programs came in with stays revoked. Raises NotFound."""
    with store.writing() as db:
        found = _member(db, name)
        if not found.active:
            people.enable(db, name)
            history.add(db, "person", name, "person-enabled", actor.name, now, **_about(found.person))
        return _member(db, name)


def _with_password(
    store: Store,
    hasher: PasswordHasher,
    name: str,
    now: datetime,
    once: Once | None,
    write: Callable[[Database, str], None],
) -> Told:
    password = _first_password()
    hashed, fresh = hasher.hash(password), list[str]()

    def make(db: Database) -> str:
        write(db, hashed)
        fresh.append(name)
        return name

    perform(store, once, now, make)
    return Told(member(store, name), password if fresh else None)


def _first_password() -> str:
    groups = ("".join(secrets.choice(_ALPHABET) for _ in range(_GROUP)) for _ in range(_GROUPS))
    return "-".join(groups)


def _member(db: Database, name: str) -> Member:
    found = people.member(db, name)
    if found is None:
        raise NotFound(what="person", name=name)
    return found


def _about(person: Person) -> dict[str, str]:
    return {"person": person.display_name}

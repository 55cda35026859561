"""Personal codes: who signed a stage is who knows his code, whoever is signed in at the tablet. Never the password.

The manager sets a code and sets it anew; only its hash is kept. Wrong tries are slowed down as those of a password are.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from argon2 import PasswordHasher

from app.domain.asking.actor import Actor
from app.domain.asking.people import Action, Person, Role, Sort, reach
from app.domain.errors import BadInput, CodeRefused, Fault, MayNotSign, NotFound
from app.services.people.signing_in import fits, hold_up, nobodys_hash, note_failure
from app.store import people
from app.store import shells as kept
from app.store.db import Store
from rules.model import Work

#: Digits of a code: short enough for gloves, and a wrong one is told only so often.
FEWEST, MOST = 4, 8


@dataclass(frozen=True, slots=True)
class Signature:
    """`person`: the name that he signs in with; `address`: where it was typed."""

    person: str
    code: str
    address: str
    hasher: PasswordHasher


def signed_by(store: Store, signature: Signature, work: Work | None, now: datetime) -> Person:
    """Whose signature it is. Raises CodeRefused, SlowDown, MayNotSign."""
    tried = f"{signature.person} (code)"
    hold_up(store, tried, signature.address, now)
    with store.reading() as db:
        found, code = people.person_and_hash(db, signature.person), kept.code_of(db, signature.person)
    right = fits(signature.hasher, code or nobodys_hash(signature.hasher), signature.code)
    if found is None or code is None or not right:
        note_failure(store, tried, signature.address, now)
        raise CodeRefused
    person = found[0]
    if reach(person.role, Action.SIGN, Sort.SHELL) is None:
        raise MayNotSign(name=person.display_name, why="role")
    if work is Work.INSPECTION and person.role is not Role.INSPECTOR:
        raise MayNotSign(name=person.display_name, why="inspection")
    return person


def lead_or_inspector(signer: Person, why: str) -> None:
    """What only these two sign, `why` being its name: paint, receipt, second. Raises MayNotSign."""
    if signer.role not in (Role.LEAD, Role.INSPECTOR):
        raise MayNotSign(name=signer.display_name, why=why)


def set_code(store: Store, hasher: PasswordHasher, actor: Actor, name: str, code: str, now: datetime) -> None:
    """Raises NotFound for a person who signs nothing, BadInput for a code that is no few digits."""
    with store.reading() as db:
        found = people.person_and_hash(db, name)
    if found is None or reach(found[0].role, Action.SIGN, Sort.SHELL) is None:
        raise NotFound(what="person", name=name)
    if not (code.isascii() and code.isdigit() and FEWEST <= len(code) <= MOST):
        raise BadInput([Fault("code", "not-a-code", {"least": FEWEST, "most": MOST})])
    hashed = hasher.hash(code)
    with store.writing() as db:
        kept.set_code(db, name, hashed, actor.name, now)


def signers(store: Store) -> Mapping[Person, bool]:
    """Everybody who may sign a stage and is not disabled, and whether he has a code."""
    with store.reading() as db:
        having = kept.with_code(db)
        return {
            member.person: member.person.name in having
            for member in people.members(db)
            if member.active and reach(member.person.role, Action.SIGN, Sort.SHELL) is not None
        }

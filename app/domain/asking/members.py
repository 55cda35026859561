"""People as the manager keeps them: added, disabled, enabled, given a new first password. Nobody is deleted.

A first password is made here, told once, and good for one thing: choosing one's own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from app.domain.asking.people import Person, Role
from app.domain.errors import Fault

#: Length alone keeps a guesser out; letters, figures and signs are nobody's business.
SHORTEST_PASSWORD, LONGEST_PASSWORD = 12, 200

LONGEST_NAME = 40

_SIGN_IN_NAME = re.compile(r"[a-z][a-z0-9.-]{1,39}")


@dataclass(frozen=True, slots=True)
class Member:
    """`disabled_at` None: he may sign in; `first_password`: he has not chosen his own yet."""

    person: Person
    added_at: datetime
    disabled_at: datetime | None = None
    first_password: bool = False

    @property
    def active(self) -> bool:
        return self.disabled_at is None


def last_manager(everybody: Sequence[Member], name: str) -> bool:
    """Whether nobody would be left who can add, enable or reset anybody."""
    managers = [one.person.name for one in everybody if one.active and one.person.role is Role.MANAGER]
    return managers == [name]


def person_faults(person: Person, everybody: Sequence[Member], dealers: Sequence[str]) -> Iterator[Fault]:
    """Of somebody who is to be added. `dealers`: ids of those there are."""
    if not _SIGN_IN_NAME.fullmatch(person.name):
        yield Fault("name", "not-a-sign-in-name", {"most": LONGEST_NAME})
    if any(one.person.name == person.name for one in everybody):
        yield Fault("name", "name-taken", {"name": person.name})
    if not person.display_name.strip():
        yield Fault("display_name", "required")
    if person.role is Role.DEALER and person.dealer is None:
        yield Fault("dealer", "required")
    if person.role is not Role.DEALER and person.dealer is not None:
        yield Fault("dealer", "firms-own")
    if person.dealer is not None and person.dealer not in dealers:
        yield Fault("dealer", "unknown-dealer", {"name": person.dealer})


def password_faults(name: str, current: str, new: str) -> Iterator[Fault]:
    """Of a password that somebody chooses himself, instead of `current`."""
    if len(new) < SHORTEST_PASSWORD:
        yield Fault("new", "too-short", {"least": SHORTEST_PASSWORD})
    elif new == current:
        yield Fault("new", "same-password")
    elif name.casefold() in new.casefold():
        yield Fault("new", "name-in-password")

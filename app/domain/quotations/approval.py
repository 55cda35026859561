"""A manager's yes or no to one rule on one exact structure, and what it is bound to. Pure; changes no answer.

The engine goes on saying "once …": an approval decides only whether that is still waited for. It belongs to the
structural choices, the series and the market that it was asked for: a colour leaves it as it is, any of those kills it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum
from hashlib import sha256

from app.domain.quotations.quotation import Approved
from rules.model import Book, Role

#: What a structure is made of beside the structural options.
_KEYS = (Role.SERIES, Role.MARKET)


class Stage(Enum):
    """How a request stands. MOOT is never stored: nothing that may still be built waits for it."""

    WAITING = "waiting"
    GRANTED = "granted"
    REFUSED = "refused"
    WITHDRAWN = "withdrawn"
    MOOT = "moot"


@dataclass(frozen=True, slots=True)
class Act:
    """What was said of a request: `day` on which, `at` when it was recorded."""

    stage: Stage
    at: datetime
    by: str
    day: date
    reason: str


@dataclass(frozen=True, slots=True)
class Approval:
    """A request and all that was said of it since. `line` of revision `letter`, from 1, when it was asked for.

    `structure`: option → choice of what it is bound to; `fingerprint` of that; `book`: by which it was asked.
    """

    id: int
    number: str
    letter: str
    line: int
    rule: str
    fingerprint: str
    structure: Mapping[str, str]
    book: int
    asked_at: datetime
    asked_by: str
    note: str
    acts: tuple[Act, ...] = ()

    @property
    def stage(self) -> Stage:
        """As it was last said; WAITING while nothing was."""
        return self.acts[-1].stage if self.acts else Stage.WAITING


@dataclass(frozen=True, slots=True)
class Need:
    """A line (from 1) that depends on the manager's yes to a rule, and the request for it, if one was ever made."""

    line: int
    rule: str
    approval: Approval | None = None

    @property
    def met(self) -> bool:
        return self.approval is not None and self.approval.stage is Stage.GRANTED


def structure_of(book: Book, settled: Mapping[str, str]) -> dict[str, str]:
    """option → choice of all that an approval is bound to, in the book's order; what is open is left out."""
    return {option: settled[option] for option in _bound(book) if option in settled}


def open_structure(book: Book, settled: Mapping[str, str]) -> tuple[str, ...]:
    """Options that an approval would be bound to and that are still open: a half structure can't be approved."""
    return tuple(option for option in _bound(book) if option not in settled)


def fingerprint(structure: Mapping[str, str]) -> str:
    """The same for the same choices in whatever order: SHA-256, hexadecimal."""
    return sha256(json.dumps(sorted(structure.items())).encode()).hexdigest()


def needs_of(line: int, rules: Iterable[str], mark: str, approvals: Sequence[Approval]) -> Iterator[Need]:
    """What a line with the fingerprint `mark` needs: each rule with the last request for that structure."""
    for rule in rules:
        bound = [one for one in approvals if one.rule == rule and one.fingerprint == mark]
        yield Need(line, rule, bound[-1] if bound else None)


def granted(needs: Iterable[Need], names: Mapping[str, str]) -> tuple[Approved, ...]:
    """What a paper says of those that are met; `names`: what people are called."""
    met = ((need.rule, need.approval.acts[-1]) for need in needs if need.met and need.approval is not None)
    return tuple(Approved(rule, names.get(act.by, act.by), act.day, act.reason) for rule, act in met)


def _bound(book: Book) -> tuple[str, ...]:
    keys = {book.roles[key] for key in _KEYS if key in book.roles}
    return tuple(option.id for option in book.options if option.structural or option.id in keys)

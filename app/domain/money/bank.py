"""Bank details: the firm's own, and where a customer is paid back. A change takes two people, never a message.

One proposes it and says how it was confirmed: by a call to a number that was known before, or face to face. Another
agrees; only then it holds. What held before stays in the record.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum


class How(Enum):
    """A message is none of them, whoever sent it."""

    TELEPHONE = "telephone"
    IN_PERSON = "in-person"


@dataclass(frozen=True, slots=True)
class Account:
    """`account`: an IBAN, or a number as its country writes it; `routing`: a BIC, a sort code or the like."""

    holder: str
    account: str
    routing: str = ""
    bank: str = ""


@dataclass(frozen=True, slots=True)
class Confirmation:
    """`spoken_to`: who confirmed it; `known_number`: the telephone number that we had before, where it was a call."""

    how: How
    spoken_to: str
    day: date
    known_number: str = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """`agreed` False: turned down, by whoever may agree or by the one who proposed it."""

    agreed: bool
    why: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Proposal:
    """`customer`: his number; None: the firm's own."""

    id: int
    customer: int | None
    account: Account
    confirmation: Confirmation
    at: datetime
    by: str
    answer: Answer | None = None


def in_force(proposals: Sequence[Proposal]) -> Proposal | None:
    """The last one that a second person agreed to; `proposals` in the order in which they were made."""
    return next((one for one in reversed(proposals) if one.answer is not None and one.answer.agreed), None)


def waiting(proposals: Sequence[Proposal]) -> Proposal | None:
    """The one that waits for a second person."""
    return next((one for one in proposals if one.answer is None), None)

"""Concessions: what of a shell is not as it should be may stay so, because a second, named person said yes. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from app.domain.inspection.subject import Subject

#: As on a keyboard or from a tablet: `1.1 mm`, `3,2mm`, `320 µm`, `320 um`, `46`.
_FIGURE = re.compile(r"(?P<figure>[-+]?\d+(?:[.,]\d+)?)\s*(?P<unit>[^\d\s]*)", re.ASCII)

#: Units as they are typed where their sign is on no key.
_TYPED = {"µm": "um"}


class ConcessionStanding(StrEnum):
    ASKED = "asked"
    GRANTED = "granted"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class ConcessionAnswer:
    """`day`: on which it was said; `at`: when that was recorded."""

    granted: bool
    why: str
    day: date
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Concession:
    """Asked for by `asked_by` with `why`; `measured` and `limit` as they were written, where there are any.

    `seen`: the last reading of the shell that had come by then; what came later is not what was asked for.
    """

    id: int
    shell: int
    subject: Subject
    why: str
    measured: str
    limit: str
    asked_by: str
    asked_at: datetime
    answer: ConcessionAnswer | None = None
    seen: int = 0

    @property
    def standing(self) -> ConcessionStanding:
        if self.answer is None:
            return ConcessionStanding.ASKED
        return ConcessionStanding.GRANTED if self.answer.granted else ConcessionStanding.REFUSED


def waiting_for(concessions: Iterable[Concession], subject: Subject) -> Concession | None:
    """The one that nobody has answered yet."""
    return next((one for one in concessions if one.subject == subject and one.answer is None), None)


def granted_for(concessions: Iterable[Concession], subject: Subject) -> Concession | None:
    """The yes that holds: a no that was said later ends the yes before it."""
    answered = [one for one in concessions if one.subject == subject and one.answer is not None]
    last = max(answered, key=lambda one: one.answer.at if one.answer else one.asked_at, default=None)
    return last if last is not None and last.standing is ConcessionStanding.GRANTED else None


def holding(concessions: Iterable[Concession]) -> tuple[Concession, ...]:
    """Every yes that holds, as they were asked for."""
    every = tuple(concessions)
    return tuple(one for one in every if granted_for(every, one.subject) == one)


def figure_in(words: str, unit: str) -> str:
    """The one figure that the words are, with a decimal point; empty where they say anything else beside its unit."""
    found = _FIGURE.fullmatch(words.strip())
    alone = found is not None and found["unit"] in ("", unit, _TYPED.get(unit, unit))
    return found["figure"].replace(",", ".") if found is not None and alone else ""

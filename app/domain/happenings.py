"""A history as it is told: what one did many times running is told once. Nothing is taken out of what is kept."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from app.domain.quotations.quotation import Happening

#: What the page does by itself while somebody types: each of these is kept, and a row of them is one deed.
REPEATED = ("revision-changed", "enquiry-changed")


@dataclass(frozen=True, slots=True)
class Deed:
    """`last` of `times` alike, running."""

    last: Happening
    times: int


def deeds(history: Sequence[Happening]) -> Iterator[Deed]:
    """In their order."""
    for (at, *_), alike in groupby(enumerate(history), key=lambda numbered: _key(*numbered)):
        row = [happening for _, happening in alike]
        yield Deed(row[-1], len(row)) if at < 0 else Deed(row[0], 1)


def _key(at: int, happening: Happening) -> tuple[int, str, str, str]:
    """Alike where it is of the repeated and says the same of the same by the same; else alone, by its place."""
    place = -1 if happening.what in REPEATED else at
    return place, happening.what, happening.by, happening.facts.get("letter", "")

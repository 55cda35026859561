"""What is looked at on a shell: each subject with its name, what is told of it and its limits. Judges nothing.

A subject is named after its kind and what it is of: `nugget:z-sills`, `gap:df-top-left`, `film:bonnet`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from enum import Enum

from rules.inspection.coating import CLASSES
from rules.inspection.colour import Lab


class Phase(Enum):
    """When a subject is looked at: on bare metal, or once the shell has its coat."""

    METAL = "metal"
    COATED = "coated"


class Told(Enum):
    """What is told of a subject: a measure, a count, yes or no, what is found at a place, a class, a colour."""

    MEASURE = "measure"
    COUNT = "count"
    YES = "yes"
    FOUND = "found"
    CLASS = "class"
    COLOUR = "colour"


class Kind(Enum):
    """What a subject is. SEAM: whether fusion welds are whole. PAINTED and FLUSH_PAINTED: gap and flush once more."""

    FEATURE = "feature"
    WELD = "weld"
    SEAM = "seam"
    NUGGET = "nugget"
    SPACING = "spacing"
    OVERLAP = "overlap"
    DATUM = "datum"
    GAP = "gap"
    FLUSH = "flush"
    HOLE = "hole"
    THREAD = "thread"
    SURFACE = "surface"
    FILM = "film"
    ADHESION = "adhesion"
    SAMPLE = "sample"
    COLOUR = "colour"
    PAINTED = "painted"
    FLUSH_PAINTED = "flush-painted"


class Found(Enum):
    """What is found at a place of the map."""

    PRESENT = "present"
    BLANKED = "blanked"
    ABSENT = "absent"


_TOLD = {
    **dict.fromkeys((Kind.FEATURE, Kind.SEAM, Kind.SURFACE), Told.YES),
    **dict.fromkeys((Kind.WELD, Kind.THREAD), Told.COUNT),
    **dict.fromkeys((Kind.SAMPLE, Kind.COLOUR), Told.COLOUR),
    Kind.HOLE: Told.FOUND,
    Kind.ADHESION: Told.CLASS,
}

_UNITS = {Kind.FILM: "µm"}


@dataclass(frozen=True, slots=True)
class Limit:
    """`least` and `most` are within; below `aim` is within, but said. `expected`: what else it has to be."""

    least: Decimal | None = None
    aim: Decimal | None = None
    most: Decimal | None = None
    expected: str = ""

    def takes(self, low: Decimal, high: Decimal) -> bool:
        """Whether all that lies from `low` to `high` is within."""
        return (self.least is None or low >= self.least) and (self.most is None or high <= self.most)


@dataclass(frozen=True, slots=True)
class Subject:
    """`of`: the id of the zone, point, datum … in the book; empty where there is one only."""

    kind: Kind
    phase: Phase
    of: str = ""
    limit: Limit = field(default_factory=Limit)

    @property
    def id(self) -> str:
        return f"{self.kind.value}:{self.of}" if self.of else self.kind.value

    @property
    def told(self) -> Told:
        return _TOLD.get(self.kind, Told.MEASURE)

    @property
    def unit(self) -> str:
        """Of a measure; empty for all else."""
        return _UNITS.get(self.kind, "mm") if self.told is Told.MEASURE else ""


#: What was read: a number, a word, or a colour.
Value = Decimal | str | Lab

_NUMBER = re.compile(r"-?\d{1,5}(?:\.\d{1,3})?", re.ASCII)
_COUNT = re.compile(r"\d{1,4}", re.ASCII)


def value_of(told: Told, text: str) -> Value | None:
    """A reading as it was typed, a decimal point in its numbers; None where it is none of that sort."""
    return _READERS[told](text.strip())


def _measure(text: str) -> Decimal | None:
    return Decimal(text) if _NUMBER.fullmatch(text) else None


def _count(text: str) -> Decimal | None:
    return Decimal(text) if _COUNT.fullmatch(text) else None


def _class(text: str) -> Decimal | None:
    return Decimal(text) if text in map(str, CLASSES) else None


def _yes(text: str) -> str | None:
    return text if text in ("yes", "no") else None


def _found(text: str) -> str | None:
    return text if text in {one.value for one in Found} else None


def _colour(text: str) -> Lab | None:
    """`L* a* b*`, set apart by spaces."""
    parts = [float(part) for part in text.split() if _NUMBER.fullmatch(part) or _FINE.fullmatch(part)]
    if len(parts) != 3 or len(text.split()) != 3 or not 0 <= parts[0] <= 100:
        return None
    return Lab(*parts)


#: Colour meters give up to four decimals.
_FINE = re.compile(r"-?\d{1,3}\.\d{4}", re.ASCII)

_READERS: dict[Told, Callable[[str], Value | None]] = {
    Told.MEASURE: _measure,
    Told.COUNT: _count,
    Told.CLASS: _class,
    Told.YES: _yes,
    Told.FOUND: _found,
    Told.COLOUR: _colour,
}

"""The answers given so far, and what is known of the donor car: what the engine is asked about."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import Enum


class Origin(Enum):
    """Who gave an answer: the reader chose it, or a usual value was taken over."""

    CHOSEN = "chosen"
    USUAL = "usual"


@dataclass(frozen=True, slots=True)
class Taken:
    """One answer: `choice` of its option, and where it came from."""

    choice: str
    origin: Origin = Origin.CHOSEN


@dataclass(frozen=True, slots=True)
class Specification:
    """option id → answer; an option that is missing is still open."""

    answers: Mapping[str, Taken] = field(default_factory=dict)

    def choices(self) -> dict[str, str]:
        """option id → choice id, whoever gave the answer."""
        return {option: taken.choice for option, taken in self.answers.items()}

    def own(self) -> dict[str, str]:
        """option id → choice id of the answers the reader gave himself."""
        return {o: t.choice for o, t in self.answers.items() if t.origin is Origin.CHOSEN}


@dataclass(frozen=True, slots=True)
class Donor:
    """Facts of the donor car that conditions may name; None: not established."""

    series: str | None = None
    number: int | None = None
    gearbox: str | None = None


class UnknownNames(ValueError):
    """A specification names options or choices that the book hasn't: all of them, `names` as (option, choice or None).

    None: the option itself is unknown.
    """

    def __init__(self, names: Iterable[tuple[str, str | None]]) -> None:
        self.names = tuple(names)
        listed = ", ".join(option if choice is None else f"{option}: {choice}" for option, choice in self.names)
        super().__init__(f"The rule book doesn't know {listed}. Use the ids of its options and choices.")

"""What the engine and an oracle say differently."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Difference:
    """`what` was asked for; `engine` and `oracle`: their answers."""

    what: str
    engine: object
    oracle: object

    def __str__(self) -> str:
        return f"{self.what}\n    engine: {self.engine}\n    oracle: {self.oracle}"


def compared(*pairs: tuple[str, object, object]) -> Iterable[Difference]:
    """The differences among (what, engine, oracle)."""
    return [Difference(*pair) for pair in pairs if pair[1] != pair[2]]


def minimal(sets: Iterable[frozenset[object]]) -> list[frozenset[object]]:
    """The sets that contain no other one, the smallest first."""
    kept: list[frozenset[object]] = []
    for each in sorted(set(sets), key=len):
        if not any(less <= each for less in kept):
            kept.append(each)
    return kept


def hitting(sets: Iterable[frozenset[object]]) -> list[frozenset[object]]:
    """Every minimal set that has something of each set (Berge's algorithm); of no sets: the empty one."""
    found: list[frozenset[object]] = [frozenset()]
    for each in minimal(sets):
        found = minimal(hit | {one} for hit in found for one in (each if not hit & each else [next(iter(hit & each))]))
    return found

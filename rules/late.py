"""What may still change on a shell, by the stages that it has come into: read off the book's table. Pure.

A shell that leaves a stage out (a primed one is never painted) passes over that stage's row.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from rules.model import ORDERED, Allowed, Book, LateChange
from rules.resolve import domains_of, holds_with
from rules.specification import Donor


@dataclass(frozen=True, slots=True)
class Open:
    """How a change is taken `now`, and at which point that hardens next, to what; None: it stays so to the end."""

    change: LateChange
    now: Allowed
    next: tuple[str, Allowed] | None = None


def taken_at(change: LateChange, points: Iterable[str]) -> Allowed:
    """`points`: ORDERED and what the shell has come into since, in order."""
    found = change.since[ORDERED]
    for point in points:
        found = change.since.get(point, found)
    return found


def freeze_line(
    book: Book, settled: Mapping[str, str], donor: Donor, come: Sequence[str], ahead: Sequence[str]
) -> tuple[Open, ...]:
    """Every change that is any of this shell's, in the book's order.

    `come`: ORDERED and the points that it has come into; `ahead`: those before it, in order.
    """
    domains = domains_of(book)
    held = (change for change in book.late_changes if holds_with(change.when, book, donor, settled, domains))
    return tuple(_open(change, come, ahead) for change in held)


def _open(change: LateChange, come: Sequence[str], ahead: Sequence[str]) -> Open:
    now = taken_at(change, come)
    later = ((point, change.since[point]) for point in ahead if point in change.since)
    return Open(change, now, next(((point, taken) for point, taken in later if taken is not now), None))

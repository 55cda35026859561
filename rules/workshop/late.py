"""What may still change on a shell, by the stages that it has come into: read off the book's table. Pure.

A shell that leaves a stage out (a primed one is never painted) passes over that stage's row.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from rules.donor.resolve import domains_of, holds_with
from rules.model import ORDERED, Allowed, Book, LateChange
from rules.specification import Donor

#: From what costs nothing to what can't be done.
_HARDER = (Allowed.FREE, Allowed.PRICED, Allowed.APPROVAL, Allowed.NO)

#: What no row of the table speaks of is somebody's to decide.
UNSAID = Allowed.APPROVAL


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


def hardest(taken: Iterable[Allowed]) -> Allowed:
    """Of all of them together; free where there are none."""
    return max(taken, key=_HARDER.index, default=Allowed.FREE)


def rows_for(book: Book, settled: Mapping[str, str], donor: Donor) -> tuple[LateChange, ...]:
    """The rows of the book's table that are any of this shell's, in the book's order."""
    domains = domains_of(book)
    return tuple(one for one in book.late_changes if holds_with(one.when, book, donor, settled, domains))


def freeze_line(
    book: Book, settled: Mapping[str, str], donor: Donor, come: Sequence[str], ahead: Sequence[str]
) -> tuple[Open, ...]:
    """Every change that is any of this shell's, in the book's order.

    `come`: ORDERED and the points that it has come into; `ahead`: those before it, in order.
    """
    return tuple(_open(change, come, ahead) for change in rows_for(book, settled, donor))


def _open(change: LateChange, come: Sequence[str], ahead: Sequence[str]) -> Open:
    now = taken_at(change, come)
    later = ((point, change.since[point]) for point in ahead if point in change.since)
    return Open(change, now, next(((point, taken) for point, taken in later if taken is not now), None))


@dataclass(frozen=True, slots=True)
class Taken:
    """How a change of `option` is taken, and the row of the book's table that says so; None: the book is silent."""

    option: str
    taken: Allowed
    change: LateChange | None


def taken_each(
    book: Book, settled: Mapping[str, str], donor: Donor, come: Sequence[str], options: Sequence[str]
) -> tuple[Taken, ...]:
    """How each of these changes of one shell is taken at the points that it has come into, in the order of `options`.

    Where several rows speak of an option, the one that speaks of most of what changes does, of those the one that
    speaks of least besides: paint that goes with *painted → primed* is taken as that, and a colour alone as a colour.
    What no row speaks of is taken with approval.
    """
    rows = rows_for(book, settled, donor)
    said = dict[str, LateChange]()
    left = set(options)
    while left:
        best = max(rows, key=lambda row: (len(left.intersection(row.options)), -len(row.options)), default=None)
        covered = set() if best is None else left.intersection(best.options)
        if best is None or not covered:
            break
        said.update(dict.fromkeys(covered, best))
        left -= covered
    return tuple(_taken(option, said.get(option), come) for option in options)


def gravest(taken: Iterable[Taken]) -> Allowed:
    """Of all of them together; free where there are none."""
    return hardest(one.taken for one in taken)


def _taken(option: str, change: LateChange | None, come: Sequence[str]) -> Taken:
    return Taken(option, UNSAID if change is None else taken_at(change, come), change)

"""How long a shell takes once its gates are open: the figure that paper and screen show, worked out once.

Working days of the book alone: neither slots taken nor a calendar is known here, so nothing is promised by it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rules.answer import Depends
from rules.model import Book
from rules.schedule.days import route_days
from rules.specification import Donor


@dataclass(frozen=True, slots=True)
class Ready:
    """Ready between `from_days` and `to_days` working days after the last gate opens.

    `gates`: deposit and specification always, then parts, approvals and tools where the shell depends on any.
    `additions`: ids of the book's additions that are in the figure.
    """

    from_days: int
    to_days: int
    gates: tuple[str, ...]
    additions: tuple[str, ...]


def ready_of(book: Book, settled: Mapping[str, str], donor: Donor, depends: Depends) -> Ready | None:
    """For what is settled so far: what is still open adds nothing yet. None where the book has no stages."""
    route = route_days(book, settled, donor)
    if not route.stages:
        return None
    earliest = route.to_slot + route.after_slot
    added = (*route.gates, *(addition for stage in route.stages for addition in stage.added))
    return Ready(earliest, earliest + book.calendar.spread, tuple(_gates(depends)), tuple(one.id for one in added))


def _gates(depends: Depends) -> Iterator[str]:
    yield from ("deposit", "specification")
    asked = {"parts": depends.parts, "approvals": depends.approvals, "tools": depends.tools}
    yield from (gate for gate, ids in asked.items() if ids)

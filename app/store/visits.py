"""What a shell takes of the stages, as rows of a table of the plan: of customers' shells and of stock alike."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from sqlite3 import Row

from rules.schedule.capacity import Visit


def visit_of(row: Row) -> Visit:
    first, end = date.fromisoformat(row["first_day"]), date.fromisoformat(row["end_day"])
    return Visit(row["stage"], first, end, row["kind"])


def visit_rows(visits: Iterable[Visit], slot: date) -> Iterator[tuple[str, str, str, str, int]]:
    """Stage, first day, end day, kind, and whether it is the slot: the first of the visits that begin on that day."""
    ordered = sorted(visits, key=lambda visit: (visit.start < slot, visit.start))
    for n, v in enumerate(ordered):
        yield v.stage, v.start.isoformat(), v.end.isoformat(), v.kind, int(v.start == slot and not n)

"""What a shell takes of the stages, as rows of a table of the plan: of customers' shells and of stock alike."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from sqlite3 import Row

from sqlite_utils import Database

from rules.schedule.capacity import Visit


def leave_only(db: Database, of: str, key: Sequence[int], had: Iterable[Visit], left: Iterable[Visit]) -> None:
    """Of what a shell takes no more than is `left` of it. `of`: table and condition, as in `visits WHERE seat = ?`."""
    ends = {one.stage: one.end for one in left}
    table, where = of.split(" WHERE ", 1)
    for one in had:
        if one.stage not in ends:
            db.execute(f"DELETE FROM {of} AND stage = ?", [*key, one.stage])  # noqa: S608 - a table of ours
        elif ends[one.stage] != one.end:
            facts = [ends[one.stage].isoformat(), *key, one.stage]
            db.execute(f"UPDATE {table} SET end_day = ? WHERE {where} AND stage = ?", facts)  # noqa: S608


def visit_of(row: Row) -> Visit:
    first, end = date.fromisoformat(row["first_day"]), date.fromisoformat(row["end_day"])
    return Visit(row["stage"], first, end, row["kind"])


def visit_rows(visits: Iterable[Visit], slot: date) -> Iterator[tuple[str, str, str, str, int]]:
    """Stage, first day, end day, kind, and whether it is the slot: the first of the visits that begin on that day."""
    ordered = sorted(visits, key=lambda visit: (visit.start < slot, visit.start))
    for n, v in enumerate(ordered):
        yield v.stage, v.start.isoformat(), v.end.isoformat(), v.kind, int(v.start == slot and not n)

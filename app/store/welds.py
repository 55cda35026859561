"""Who welded each zone of a shell. Rows are only added."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from sqlite_utils import Database

from app.domain.floor.welding import Weld, welders_of
from app.store.texts import moment, moment_text


def add(db: Database, shell: int, welds: Iterable[Weld]) -> None:
    for one in welds:
        row = [shell, one.zone, one.welder, one.day.isoformat(), moment_text(one.at), one.by]
        db.execute("INSERT INTO welds (shell, zone, welder, day, at, by) VALUES (?, ?, ?, ?, ?, ?)", row)


def of_shell(db: Database, shell: int) -> tuple[Weld, ...]:
    """As they were signed, the first first."""
    rows = db.execute("SELECT * FROM welds WHERE shell = ? ORDER BY id", [shell]).fetchall()
    return tuple(
        Weld(row["zone"], row["welder"], date.fromisoformat(row["day"]), moment(row["at"]), row["by"]) for row in rows
    )


def welders(db: Database, shell: int) -> Mapping[str, tuple[str, ...]]:
    """zone → the sign-in names of who welded it. A zone that is not in it has no welder."""
    return welders_of(of_shell(db, shell))

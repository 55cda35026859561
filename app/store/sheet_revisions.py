"""Revisions of build sheets, shell by shell: they only grow. Decides nothing."""

from __future__ import annotations

import json
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.floor.sheets import SheetRevision
from app.store.texts import json_text, moment_text

_OF = """
SELECT sheet_revisions.*, number FROM sheet_revisions LEFT JOIN change_notes ON change_notes.id = note
WHERE sheet_revisions.shell = ? ORDER BY revision
"""


def of(db: Database, shell: int) -> tuple[SheetRevision, ...]:
    """The first first; none while the shell is planned."""
    return tuple(
        SheetRevision(
            revision=row["revision"],
            day=date.fromisoformat(row["day"]),
            changed=tuple(json.loads(row["changed"])),
            note=row["number"] or "",
            why=row["why"],
        )
        for row in db.execute(_OF, [shell]).fetchall()
    )


def add(
    db: Database, shell: int, day: date, by: str, now: datetime, *, note: int | None = None,
    changed: tuple[str, ...] = (), why: str = "",
) -> int:  # fmt: skip
    """The next revision of the shell's sheet: its number. `note`: the key of the change note that made it."""
    sql = "SELECT coalesce(max(revision), 0) + 1 FROM sheet_revisions WHERE shell = ?"
    (revision,) = db.execute(sql, [shell]).fetchone()
    row = [shell, revision, day.isoformat(), note, json_text(list(changed)), why, moment_text(now), by]
    sql = (
        "INSERT INTO sheet_revisions (shell, revision, day, note, changed, why, at, by) VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
    )
    db.execute(sql, row)
    return int(revision)

"""Difference sheets as they went out, byte for byte: kept when first asked for, never changed after."""

from __future__ import annotations

from sqlite_utils import Database


def up(db: Database) -> None:
    """One for each issued revision, language and size."""
    db.execute(
        """CREATE TABLE difference_sheets (
          id INTEGER PRIMARY KEY,
          revision INTEGER NOT NULL REFERENCES revisions (id),
          language TEXT NOT NULL,
          size TEXT NOT NULL,
          sha256 TEXT NOT NULL,
          pdf BLOB NOT NULL,
          UNIQUE (revision, language, size)
        ) STRICT"""
    )
    for act in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER difference_sheets_no_{act.lower()} BEFORE {act} ON difference_sheets "
            "BEGIN SELECT RAISE(ABORT, 'difference_sheets only grow: nothing is changed or taken out'); END"
        )

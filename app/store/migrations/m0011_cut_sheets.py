"""The sheets "Where to cut" as they went out, byte for byte: kept when first asked for, never changed after."""

from __future__ import annotations

from sqlite_utils import Database

from app.store.migrations.m0010_customers import OF_ERASED


def up(db: Database) -> None:
    """One for each issued revision, language and size; only erasing takes one out, as it does difference sheets."""
    db.execute(
        """CREATE TABLE cut_sheets (
          id INTEGER PRIMARY KEY,
          revision INTEGER NOT NULL REFERENCES revisions (id),
          language TEXT NOT NULL,
          size TEXT NOT NULL,
          sha256 TEXT NOT NULL,
          pdf BLOB NOT NULL,
          UNIQUE (revision, language, size)
        ) STRICT"""
    )
    for act, unless in (("UPDATE", ""), ("DELETE", f" WHEN NOT ({OF_ERASED})")):
        db.execute(
            f"CREATE TRIGGER cut_sheets_no_{act.lower()} BEFORE {act} ON cut_sheets{unless} "
            "BEGIN SELECT RAISE(ABORT, 'cut_sheets only grow: nothing is changed or taken out'); END"
        )

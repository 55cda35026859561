"""The order of a published book's diagram, so that compiling it anew need not search for one."""

from __future__ import annotations

from sqlite_utils import Database


def up(db: Database) -> None:
    """A JSON list of option ids; null for books published before: theirs is searched for."""
    db.execute("ALTER TABLE books ADD COLUMN diagram_order TEXT")

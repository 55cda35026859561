"""The delivery term that was agreed, with its place."""

from __future__ import annotations

from sqlite_utils import Database


def up(db: Database) -> None:
    """Empty on every revision of before: none could be written down."""
    db.execute("ALTER TABLE revisions ADD COLUMN delivery_term TEXT NOT NULL DEFAULT ''")

"""What the customer wants of the shell against his car: as original, as another series had it, or modified."""

from __future__ import annotations

from sqlite_utils import Database


def up(db: Database) -> None:
    """Null on every car taken down before: nobody had asked."""
    db.execute(
        "ALTER TABLE donors ADD COLUMN intent TEXT CHECK (intent IN ('as-original', 'another-series', 'modified'))"
    )

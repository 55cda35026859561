"""The kit of each shell, line by line, as it was checked before release."""

from __future__ import annotations

from sqlite_utils import Database


def up(db: Database) -> None:
    """Shells released before were released without: nothing is made up for them."""
    db.execute(
        """CREATE TABLE kit_checks (
          id INTEGER PRIMARY KEY,
          shell INTEGER NOT NULL REFERENCES shells (id),
          line TEXT NOT NULL,
          stands TEXT NOT NULL CHECK (stands IN ('present', 'short', 'substitute')),
          what TEXT NOT NULL,
          approved_by TEXT,
          at TEXT NOT NULL,
          by TEXT NOT NULL,
          CHECK ((stands = 'substitute') = (approved_by IS NOT NULL))
        ) STRICT"""
    )
    db.execute("CREATE INDEX kit_checks_by_shell ON kit_checks (shell, id)")
    for act in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER kit_checks_no_{act.lower()} BEFORE {act} ON kit_checks "
            "BEGIN SELECT RAISE(ABORT, 'kit_checks only grow: nothing is changed or taken out'); END"
        )

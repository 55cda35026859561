"""Promises that hold a slot and that no customer was told: another is built in the place of a rejected shell."""

from __future__ import annotations

from sqlite_utils import Database

TABLE = """
CREATE TABLE promises_untold (
  promise INTEGER PRIMARY KEY REFERENCES promises (id),
  told INTEGER NOT NULL REFERENCES promises (id)
) STRICT
"""


def up(db: Database) -> None:
    """Until now no promise was written but as it was told. What is moved later is told by that."""
    db.execute(TABLE)
    for act in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER promises_untold_no_{act.lower()} BEFORE {act} ON promises_untold "
            "BEGIN SELECT RAISE(ABORT, 'promises_untold only grows: nothing is changed or taken out'); END"
        )

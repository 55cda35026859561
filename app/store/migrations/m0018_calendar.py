"""A gate's day can be taken back."""

from __future__ import annotations

from sqlite_utils import Database

#: The same as before, but that `day` may be empty: what was said of the gate no longer counts.
STEPS = """
DROP TRIGGER gate_days_no_update;
DROP TRIGGER gate_days_no_delete;
DROP INDEX gate_days_by_order;
ALTER TABLE gate_days RENAME TO gate_days_before;
CREATE TABLE gate_days (
  id INTEGER PRIMARY KEY,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  seat INTEGER NOT NULL CHECK (seat >= 0),
  gate TEXT NOT NULL,
  of TEXT NOT NULL,
  day TEXT,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
INSERT INTO gate_days SELECT * FROM gate_days_before;
DROP TABLE gate_days_before;
CREATE INDEX gate_days_by_order ON gate_days (order_id, id);
"""

ONLY_GROWING = ("gate_days",)


def up(db: Database) -> None:
    """What was said stays as it was said."""
    for statement in STEPS.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )

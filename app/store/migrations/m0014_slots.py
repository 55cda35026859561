"""Gates with their days, promises as they were made, and what each shell takes of the stages."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE gate_days (
  id INTEGER PRIMARY KEY,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  seat INTEGER NOT NULL CHECK (seat >= 0),
  gate TEXT NOT NULL,
  of TEXT NOT NULL,
  day TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX gate_days_by_order ON gate_days (order_id, id);

CREATE TABLE promises (
  id INTEGER PRIMARY KEY,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  seat INTEGER NOT NULL CHECK (seat > 0),
  act TEXT NOT NULL CHECK (act IN ('taken', 'moved', 'released')),
  promise TEXT CHECK (promise IS NULL OR json_valid(promise)),
  route TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK ((act = 'released') = (promise IS NULL))
) STRICT;
CREATE INDEX promises_by_seat ON promises (order_id, seat, id);

CREATE TABLE visits (
  id INTEGER PRIMARY KEY,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  seat INTEGER NOT NULL CHECK (seat > 0),
  stage TEXT NOT NULL,
  first_day TEXT NOT NULL,
  end_day TEXT NOT NULL CHECK (end_day >= first_day),
  kind TEXT NOT NULL,
  is_slot INTEGER NOT NULL CHECK (is_slot IN (0, 1)),
  UNIQUE (order_id, seat, stage)
) STRICT;
CREATE UNIQUE INDEX visits_one_shell_a_slot ON visits (first_day) WHERE is_slot = 1;
CREATE INDEX visits_by_end ON visits (end_day);
"""

#: What was said and promised stays; the visits are the plan as it stands now.
ONLY_GROWING = ("gate_days", "promises")


def up(db: Database) -> None:
    """Nothing has a slot yet: a slot is taken by a deposit, and none was kept before."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )

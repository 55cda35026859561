"""Shells built for stock, what they take of the stages, what was done with them, and how many there may be."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE stock_shells (
  id INTEGER PRIMARY KEY,
  book INTEGER NOT NULL,
  settled TEXT NOT NULL CHECK (json_valid(settled)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE stock_acts (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES stock_shells (id),
  act TEXT NOT NULL CHECK (act IN ('taken', 'moved', 'withdrawn')),
  plan TEXT NOT NULL CHECK (json_valid(plan)),
  because TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX stock_acts_by_shell ON stock_acts (shell, id);

CREATE TABLE stock_visits (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES stock_shells (id),
  stage TEXT NOT NULL,
  first_day TEXT NOT NULL,
  end_day TEXT NOT NULL CHECK (end_day >= first_day),
  kind TEXT NOT NULL,
  is_slot INTEGER NOT NULL CHECK (is_slot IN (0, 1)),
  UNIQUE (shell, stage)
) STRICT;
CREATE INDEX stock_visits_by_end ON stock_visits (end_day);
CREATE UNIQUE INDEX stock_visits_one_shell_a_slot ON stock_visits (first_day) WHERE is_slot = 1;

CREATE TABLE stock_caps (
  id INTEGER PRIMARY KEY,
  cap INTEGER NOT NULL CHECK (cap >= 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
"""

#: The visits are the plan as it stands now; all else stays as it was said.
ONLY_GROWING = ("stock_shells", "stock_acts", "stock_caps")


def up(db: Database) -> None:
    """Nothing is built for stock yet, and until the manager says how many nothing may be."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )

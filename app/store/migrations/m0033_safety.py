"""Safety faults, how each was lifted, and which owners of despatched shells were written to."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE safety_faults (
  id INTEGER PRIMARY KEY,
  subject TEXT NOT NULL CHECK (subject IN ('choice', 'tool', 'operation', 'zone', 'books')),
  of TEXT NOT NULL,
  since TEXT,
  why TEXT NOT NULL CHECK (json_valid(why)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE safety_liftings (
  id INTEGER PRIMARY KEY,
  fault INTEGER NOT NULL UNIQUE REFERENCES safety_faults (id),
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE safety_letters (
  id INTEGER PRIMARY KEY,
  fault INTEGER NOT NULL REFERENCES safety_faults (id),
  shell INTEGER NOT NULL REFERENCES shells (id),
  text TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (fault, shell)
) STRICT;
"""

ONLY_GROWING = ("safety_faults", "safety_liftings", "safety_letters")


def up(db: Database) -> None:
    """Nothing was ever said to be at fault."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )

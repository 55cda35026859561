"""Inspections: gauges, readings, verdicts, photographs against a subject, days of priming. All of it only grows."""

from __future__ import annotations

from sqlite_utils import Database

#: A gauge that is calibrated anew is a new row under its mark: a reading keeps the calibration that it was taken with.
TABLES = """
CREATE TABLE gauges (
  id INTEGER PRIMARY KEY,
  mark TEXT NOT NULL CHECK (mark <> ''),
  sort TEXT NOT NULL,
  calibrated TEXT NOT NULL,
  due TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK (calibrated <= due)
) STRICT;
CREATE INDEX gauges_by_mark ON gauges (mark, id);

CREATE TABLE readings (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  subject TEXT NOT NULL,
  value TEXT NOT NULL CHECK (value <> ''),
  unit TEXT NOT NULL,
  gauge INTEGER REFERENCES gauges (id),
  taken TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  key TEXT NOT NULL UNIQUE
) STRICT;
CREATE INDEX readings_by_shell ON readings (shell, id);

CREATE TABLE verdicts (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  phase TEXT NOT NULL CHECK (phase IN ('metal', 'coated')),
  verdict TEXT NOT NULL CHECK (verdict IN ('pass', 'concession', 'rework', 'reject')),
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  signed TEXT NOT NULL,
  second TEXT,
  CHECK (second IS NULL OR second <> signed)
) STRICT;
CREATE INDEX verdicts_by_shell ON verdicts (shell, id);

CREATE TABLE inspection_photographs (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  subject TEXT NOT NULL,
  note TEXT NOT NULL,
  width INTEGER NOT NULL,
  height INTEGER NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  jpeg BLOB NOT NULL,
  small BLOB NOT NULL
) STRICT;
CREATE INDEX inspection_photographs_by_shell ON inspection_photographs (shell, id);

CREATE TABLE primings (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  coat TEXT NOT NULL,
  day TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX primings_by_shell ON primings (shell, id);

CREATE TABLE overcoat_words (
  id INTEGER PRIMARY KEY,
  priming INTEGER NOT NULL REFERENCES primings (id),
  said_by TEXT NOT NULL CHECK (said_by <> ''),
  words TEXT NOT NULL CHECK (words <> ''),
  day TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX overcoat_words_by_priming ON overcoat_words (priming, id);
"""

ONLY_GROWING = ("gauges", "readings", "verdicts", "inspection_photographs", "primings", "overcoat_words")


def up(db: Database) -> None:
    """Nothing was inspected before: what a shell passed then stays passed, without a record."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )

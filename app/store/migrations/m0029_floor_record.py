"""Who welded each zone of a shell, concessions, and rework."""

from __future__ import annotations

from sqlite_utils import Database

#: `after`: the shell's last deed when it was said, so that deeds and rework are read in the order in which they came.
TABLES = """
CREATE TABLE welds (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  zone TEXT NOT NULL,
  welder TEXT NOT NULL,
  day TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (shell, zone, welder, day)
) STRICT;

CREATE TABLE concessions (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  subject TEXT NOT NULL,
  why TEXT NOT NULL,
  measured TEXT NOT NULL,
  target TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX concessions_by_shell ON concessions (shell, id);

CREATE TABLE concession_answers (
  concession INTEGER PRIMARY KEY REFERENCES concessions (id),
  granted INTEGER NOT NULL CHECK (granted IN (0, 1)),
  why TEXT NOT NULL CHECK (why <> ''),
  day TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE rework (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  subject TEXT NOT NULL,
  what TEXT NOT NULL,
  stage TEXT NOT NULL,
  after INTEGER NOT NULL REFERENCES shell_deeds (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX rework_by_shell ON rework (shell, id);

CREATE TABLE rework_ends (
  rework INTEGER PRIMARY KEY REFERENCES rework (id),
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  minutes INTEGER CHECK (minutes >= 0),
  note TEXT NOT NULL,
  day TEXT NOT NULL,
  after INTEGER NOT NULL REFERENCES shell_deeds (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  signed TEXT,
  CHECK ((withdrawn = 0) = (signed IS NOT NULL))
) STRICT;
"""

ONLY_GROWING = ("welds", "concessions", "concession_answers", "rework", "rework_ends")

#: Nobody answers a concession that he asked for himself.
OTHER_PERSON = """
CREATE TRIGGER concession_answers_by_another BEFORE INSERT ON concession_answers
WHEN NEW.by = (SELECT by FROM concessions WHERE id = NEW.concession)
BEGIN SELECT RAISE(ABORT, 'a concession is answered by another than who asked for it'); END
"""


def up(db: Database) -> None:
    """Nobody signed for a zone before. A shell that is sent back before its inspection is inspected once more."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    db.execute(OTHER_PERSON)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )
    db.execute("DROP INDEX IF EXISTS shell_deeds_each_stage_once")

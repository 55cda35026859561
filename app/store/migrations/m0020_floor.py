"""Orders confirmed with their papers, what is done to each shell, shells that replace others, and personal codes."""

from __future__ import annotations

from sqlite_utils import Database

#: A shell that replaces a rejected one has its place and the next `turn`: no place's slot moves by it.
SHELLS = """
DROP TRIGGER shells_no_delete;
DROP TRIGGER shells_keep_their_place;
DROP INDEX shells_by_serial;
ALTER TABLE shells RENAME TO shells_before;
CREATE TABLE shells (
  id INTEGER PRIMARY KEY,
  order_line INTEGER NOT NULL REFERENCES order_lines (id),
  place INTEGER NOT NULL CHECK (place > 0),
  turn INTEGER NOT NULL DEFAULT 1 CHECK (turn > 0),
  serial TEXT,
  UNIQUE (order_line, place, turn)
) STRICT;
INSERT INTO shells (id, order_line, place, serial) SELECT id, order_line, place, serial FROM shells_before;
DROP TABLE shells_before;
CREATE UNIQUE INDEX shells_by_serial ON shells (serial);
"""

TABLES = """
CREATE TABLE shell_deeds (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  deed TEXT NOT NULL CHECK (deed IN ('released', 'begun', 'done', 'held', 'went-on', 'rejected', 'cancelled')),
  stage TEXT,
  why TEXT NOT NULL,
  route TEXT CHECK (route IS NULL OR json_valid(route)),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  signed TEXT,
  CHECK ((deed = 'released') = (route IS NOT NULL)),
  CHECK ((deed IN ('begun', 'done')) = (stage IS NOT NULL)),
  CHECK ((deed = 'done') <= (signed IS NOT NULL))
) STRICT;
CREATE INDEX shell_deeds_by_shell ON shell_deeds (shell, id);
CREATE UNIQUE INDEX shell_deeds_each_stage_once ON shell_deeds (shell, stage) WHERE deed = 'done';

CREATE TABLE confirmations (
  id INTEGER PRIMARY KEY,
  basis INTEGER NOT NULL UNIQUE REFERENCES order_bases (id),
  content TEXT NOT NULL CHECK (json_valid(content)),
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE confirmation_papers (
  id INTEGER PRIMARY KEY,
  confirmation INTEGER NOT NULL REFERENCES confirmations (id),
  language TEXT NOT NULL,
  size TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  pdf BLOB NOT NULL,
  UNIQUE (confirmation, language, size)
) STRICT;

CREATE TABLE personal_codes (
  id INTEGER PRIMARY KEY,
  person TEXT NOT NULL REFERENCES person (name) ON DELETE CASCADE,
  hash TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX personal_codes_by_person ON personal_codes (person, id);
"""

#: Rows that are only ever added.
ONLY_GROWING = ("shell_deeds", "confirmations", "confirmation_papers")


def up(db: Database) -> None:
    """No order was confirmed and no shell released before: nothing is made here but the tables."""
    for statement in (SHELLS + TABLES).split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            _forbid(db, table, act)
    _forbid(db, "shells", "DELETE")
    db.execute(
        "CREATE TRIGGER shells_keep_their_place BEFORE UPDATE ON shells WHEN OLD.order_line <> NEW.order_line "
        "OR OLD.place <> NEW.place OR OLD.turn <> NEW.turn OR OLD.serial IS NOT NULL "
        "BEGIN SELECT RAISE(ABORT, 'a shell keeps its line and its serial'); END"
    )


def _forbid(db: Database, table: str, act: str) -> None:
    db.execute(
        f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
    )

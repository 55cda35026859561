"""Revisions of a shell's build sheet, and change notes with what was said to them and their papers."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE change_notes (
  id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  shell INTEGER NOT NULL REFERENCES shells (id),
  content TEXT NOT NULL CHECK (json_valid(content)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX change_notes_by_shell ON change_notes (shell, id);

CREATE TABLE change_note_acts (
  id INTEGER PRIMARY KEY,
  note INTEGER NOT NULL REFERENCES change_notes (id),
  act TEXT NOT NULL CHECK (act IN ('approved', 'turned-down', 'signed', 'withdrawn')),
  who TEXT NOT NULL,
  day TEXT NOT NULL,
  why TEXT NOT NULL,
  content TEXT CHECK (content IS NULL OR json_valid(content)),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (note, act),
  CHECK ((act = 'signed') = (content IS NOT NULL)),
  CHECK ((act = 'signed') <= (who <> ''))
) STRICT;
CREATE UNIQUE INDEX change_notes_end_once ON change_note_acts (note) WHERE act <> 'approved';

CREATE TABLE change_note_papers (
  id INTEGER PRIMARY KEY,
  note INTEGER NOT NULL REFERENCES change_notes (id),
  language TEXT NOT NULL,
  size TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  pdf BLOB NOT NULL,
  UNIQUE (note, language, size)
) STRICT;

CREATE TABLE sheet_revisions (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  revision INTEGER NOT NULL CHECK (revision > 0),
  day TEXT NOT NULL,
  note INTEGER UNIQUE REFERENCES change_notes (id),
  changed TEXT NOT NULL CHECK (json_valid(changed)),
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (shell, revision)
) STRICT;
"""

#: What a note became is read off what was said to it; a sheet on the wall keeps its revision.
ONLY_GROWING = ("change_notes", "change_note_acts", "change_note_papers", "sheet_revisions")

#: Shells released before sheets were counted have their first.
_FIRST = """
INSERT INTO sheet_revisions (shell, revision, day, changed, why, at, by)
SELECT shell, 1, substr(at, 1, 10), '[]', '', at, by FROM shell_deeds WHERE deed = 'released' ORDER BY id
"""

#: A sheet printed of such a shell says the same as its first revision.
_SAID = """
UPDATE sheet_codes SET says = says || ' 1' WHERE EXISTS (
  SELECT 1 FROM shells WHERE shells.id = sheet_codes.shell AND serial IS NOT NULL AND says LIKE '% ' || serial)
"""


def up(db: Database) -> None:
    """No change was ever noted before."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    db.execute(_FIRST)
    db.execute(_SAID)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )

"""Rule books being drafted, every text that each has had, and what was rehearsed of them."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE book_drafts (
  id INTEGER PRIMARY KEY,
  base INTEGER NOT NULL REFERENCES books (number),
  begun_at TEXT NOT NULL,
  begun_by TEXT NOT NULL,
  closed_at TEXT,
  closed_by TEXT,
  book INTEGER REFERENCES books (number),
  CHECK ((closed_at IS NULL) = (closed_by IS NULL)),
  CHECK (book IS NULL OR closed_at IS NOT NULL)
) STRICT;

CREATE TABLE book_draft_texts (
  draft INTEGER NOT NULL REFERENCES book_drafts (id),
  version INTEGER NOT NULL CHECK (version > 0),
  text TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  act TEXT NOT NULL,
  about TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  PRIMARY KEY (draft, version)
) STRICT;

CREATE TABLE rehearsals (
  id INTEGER PRIMARY KEY,
  draft INTEGER NOT NULL REFERENCES book_drafts (id),
  sha256 TEXT NOT NULL,
  against INTEGER NOT NULL REFERENCES books (number),
  tool_state INTEGER NOT NULL,
  found TEXT NOT NULL CHECK (json_valid(found)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX rehearsals_of_draft ON rehearsals (draft, sha256, id);
"""

ONLY_GROWING = ("book_draft_texts", "rehearsals")


def up(db: Database) -> None:
    """A text that a draft once had is never changed or taken out, so that every step can be taken back."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )

"""What shows that a shell left the country: recorded after it left, and taken back where it was none."""

from __future__ import annotations

from sqlite_utils import Database

TABLE = """
CREATE TABLE export_evidence (
  id INTEGER PRIMARY KEY,
  despatch INTEGER NOT NULL REFERENCES despatches (id),
  what TEXT NOT NULL CHECK (what <> ''),
  day TEXT,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX export_evidence_by_despatch ON export_evidence (despatch, id);
"""


def up(db: Database) -> None:
    """Nobody could record any before: of what left already it is awaited. `day` null takes back what was said."""
    for statement in TABLE.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for act in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER export_evidence_no_{act.lower()} BEFORE {act} ON export_evidence "
            "BEGIN SELECT RAISE(ABORT, 'export_evidence only grows: nothing is changed or taken out'); END"
        )

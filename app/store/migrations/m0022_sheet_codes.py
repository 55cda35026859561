"""Codes of build sheets: whoever finds one on the wall learns whether it still holds, and nothing else."""

from __future__ import annotations

from sqlite_utils import Database

TABLE = """
CREATE TABLE sheet_codes (
  code TEXT PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  says TEXT NOT NULL,
  at TEXT NOT NULL,
  UNIQUE (shell, says)
) STRICT
"""


def up(db: Database) -> None:
    """`says`: revision and serial that the sheet was printed with."""
    db.execute(TABLE)

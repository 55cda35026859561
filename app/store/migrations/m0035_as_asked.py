"""Up to which reading a shell had been measured when a concession was asked for: a yes is to that, and to no worse.

Those that were answered before this was kept go on by what had been read by the answer, as their managers saw it.
"""

from __future__ import annotations

from sqlite_utils import Database

#: `reading`: the last one of its shell that had come; 0: none had.
TABLE = """
CREATE TABLE concession_basis (
  concession INTEGER PRIMARY KEY REFERENCES concessions (id),
  reading INTEGER NOT NULL CHECK (reading >= 0)
) STRICT
"""

_OF_BEFORE = """
INSERT INTO concession_basis (concession, reading)
SELECT asked.id, COALESCE((
  SELECT MAX(readings.id) FROM readings
  WHERE readings.shell = asked.shell AND readings.at <= COALESCE(said.at, asked.at)), 0)
FROM concessions AS asked LEFT JOIN concession_answers AS said ON said.concession = asked.id
"""


def up(db: Database) -> None:
    """Its rows are only added."""
    db.execute(TABLE)
    db.execute(_OF_BEFORE)
    for act in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER concession_basis_no_{act.lower()} BEFORE {act} ON concession_basis "
            "BEGIN SELECT RAISE(ABORT, 'concession_basis only grows: nothing is changed or taken out'); END"
        )

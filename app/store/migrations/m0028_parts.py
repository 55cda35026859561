"""Customers' parts as they come: arrivals, verdicts, photographs, what becomes of them, and what is built instead."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE part_arrivals (
  id INTEGER PRIMARY KEY,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  seat INTEGER NOT NULL CHECK (seat > 0),
  rule TEXT NOT NULL,
  day TEXT NOT NULL,
  note TEXT NOT NULL,
  by_hand INTEGER NOT NULL CHECK (by_hand IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX part_arrivals_by_order ON part_arrivals (order_id, id);

CREATE TABLE part_verdicts (
  id INTEGER PRIMARY KEY,
  arrival INTEGER NOT NULL REFERENCES part_arrivals (id),
  passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
  book INTEGER NOT NULL,
  findings TEXT NOT NULL CHECK (json_valid(findings)),
  why TEXT NOT NULL,
  day TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  signed TEXT NOT NULL
) STRICT;
CREATE INDEX part_verdicts_by_arrival ON part_verdicts (arrival, id);

CREATE TABLE part_acts (
  id INTEGER PRIMARY KEY,
  arrival INTEGER NOT NULL REFERENCES part_arrivals (id),
  act TEXT NOT NULL CHECK (act IN ('tagged', 'kept', 'returned')),
  day TEXT NOT NULL,
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX part_acts_by_arrival ON part_acts (arrival, id);

CREATE TABLE part_choices (
  id INTEGER PRIMARY KEY,
  arrival INTEGER NOT NULL REFERENCES part_arrivals (id),
  choice TEXT NOT NULL CHECK (choice IN ('second', 'instead', 'cancel')),
  day TEXT,
  option TEXT,
  instead TEXT,
  letter TEXT,
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK ((choice = 'second') = (day IS NOT NULL)),
  CHECK ((choice = 'instead') = (option IS NOT NULL AND instead IS NOT NULL AND letter IS NOT NULL))
) STRICT;
CREATE INDEX part_choices_by_arrival ON part_choices (arrival, id);

CREATE TABLE part_photographs (
  id INTEGER PRIMARY KEY,
  arrival INTEGER NOT NULL REFERENCES part_arrivals (id),
  note TEXT NOT NULL,
  width INTEGER NOT NULL,
  height INTEGER NOT NULL,
  size INTEGER NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX part_photographs_by_arrival ON part_photographs (arrival, id);

CREATE TABLE part_photograph_files (
  photograph INTEGER PRIMARY KEY REFERENCES part_photographs (id),
  sha256 TEXT NOT NULL,
  jpeg BLOB NOT NULL,
  small BLOB NOT NULL
) STRICT;
"""

#: An arrival goes with its shell to another place of the order, as the shell's other gates do; all else stays.
ONLY_GROWING = ("part_verdicts", "part_acts", "part_choices", "part_photographs", "part_photograph_files")

#: Gates that somebody had written open by hand: their parts are here and have passed, and by whose word is kept.
_TAKEN_OVER = """
INSERT INTO part_arrivals (order_id, seat, rule, day, note, by_hand, at, by)
SELECT order_id, seat, of, day, '', 1, at, by FROM gate_days AS said
WHERE gate = 'parts' AND seat > 0 AND day IS NOT NULL AND day <= substr(at, 1, 10)
AND id = (SELECT max(id) FROM gate_days WHERE order_id = said.order_id AND seat = said.seat AND gate = said.gate
  AND of = said.of)
"""
_AS_PASSED = """
INSERT INTO part_verdicts (arrival, passed, book, findings, why, day, at, by, signed)
SELECT id, 1, 0, '[]', '', day, at, by, by FROM part_arrivals
"""


def up(db: Database) -> None:
    """A gate written open by hand stays open, as a part that passed on that day by that word."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    db.execute(_TAKEN_OVER)
    db.execute(_AS_PASSED)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            _forbid(db, table, act)
    _forbid(db, "part_arrivals", "DELETE")
    db.execute(
        "CREATE TRIGGER part_arrivals_keep BEFORE UPDATE ON part_arrivals WHEN OLD.id <> NEW.id "
        "OR OLD.order_id <> NEW.order_id OR OLD.rule <> NEW.rule OR OLD.day <> NEW.day OR OLD.note <> NEW.note "
        "OR OLD.by_hand <> NEW.by_hand OR OLD.at <> NEW.at OR OLD.by <> NEW.by "
        "BEGIN SELECT RAISE(ABORT, 'an arrival moves with its shell, and says what it said'); END"
    )


def _forbid(db: Database, table: str, act: str) -> None:
    db.execute(
        f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
    )

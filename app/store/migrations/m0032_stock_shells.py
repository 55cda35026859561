"""Stock as shells of the floor: where each came from, who holds it for how long, and which order it went to."""

from __future__ import annotations

from sqlite_utils import Database

#: An allocation that ended because the shell was cancelled or replaced there stays told in its place of the order.
TABLES = """
CREATE TABLE stock_reservations (
  id INTEGER PRIMARY KEY,
  stock INTEGER NOT NULL REFERENCES stock_shells (id),
  quotation TEXT NOT NULL,
  settled TEXT NOT NULL CHECK (json_valid(settled)),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  until TEXT NOT NULL,
  extended INTEGER NOT NULL DEFAULT 0 CHECK (extended IN (0, 1)),
  ended_at TEXT
) STRICT;
CREATE UNIQUE INDEX stock_reservations_one_holds ON stock_reservations (stock) WHERE ended_at IS NULL;
CREATE INDEX stock_reservations_by_quotation ON stock_reservations (quotation);

CREATE TABLE stock_allocations (
  id INTEGER PRIMARY KEY,
  stock INTEGER NOT NULL REFERENCES stock_shells (id),
  order_id INTEGER NOT NULL REFERENCES orders (id),
  seat INTEGER NOT NULL CHECK (seat > 0),
  order_line INTEGER NOT NULL REFERENCES order_lines (id),
  place INTEGER NOT NULL CHECK (place > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  last_deed INTEGER NOT NULL,
  ended_at TEXT,
  ended_why TEXT CHECK (ended_why IN ('given-up', 'cancelled', 'replaced')),
  CHECK ((ended_at IS NULL) = (ended_why IS NULL))
) STRICT;
CREATE UNIQUE INDEX stock_allocations_one_has_it ON stock_allocations (stock) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX stock_allocations_one_for_a_place ON stock_allocations (order_line, place)
  WHERE ended_why IS NULL OR ended_why = 'cancelled';

CREATE TABLE stock_terms (
  id INTEGER PRIMARY KEY,
  hours INTEGER NOT NULL CHECK (hours > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
"""

#: Where a shell of stock came from, by its row of `shells`, the order that it was built for before, and the key of
#: the last deed that was done to it by then.
COLUMNS = (
    "shell INTEGER REFERENCES shells (id)",
    "source TEXT NOT NULL DEFAULT 'built' CHECK (source IN ('built', 'cancelled', 'second'))",
    "came_from TEXT NOT NULL DEFAULT ''",
    "why TEXT NOT NULL DEFAULT ''",
    "last_deed INTEGER NOT NULL DEFAULT 0",
)

KEEPS_ITS_PLACE = """
CREATE TRIGGER shells_keep_their_place BEFORE UPDATE ON shells WHEN OLD.order_line IS NOT NEW.order_line
OR OLD.place <> NEW.place OR OLD.turn <> NEW.turn OR OLD.serial IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a shell keeps its line and its serial'); END
"""


def up(db: Database) -> None:
    """What is built for stock already gets its row of the floor; nobody holds or has any of it yet."""
    _let_shells_be_of_no_order(db)
    for column in COLUMNS:
        db.execute(f"ALTER TABLE stock_shells ADD COLUMN {column}")
    db.execute("DROP TRIGGER stock_shells_no_update")
    for (stock,) in db.execute("SELECT id FROM stock_shells").fetchall():
        (shell,) = db.execute("INSERT INTO shells (order_line, place) VALUES (NULL, 1) RETURNING id").fetchone()
        db.execute("UPDATE stock_shells SET shell = ? WHERE id = ?", [shell, stock])
    _forbid(db, "stock_shells", "UPDATE")
    db.execute("CREATE INDEX stock_shells_by_shell ON stock_shells (shell)")
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table, act in (("stock_reservations", "DELETE"), ("stock_allocations", "DELETE"), ("stock_terms", "DELETE")):
        _forbid(db, table, act)


def _let_shells_be_of_no_order(db: Database) -> None:
    """By the way that SQLite's own manual gives for taking a NOT NULL away: nothing stored changes by it.

    https://www.sqlite.org/lang_altertable.html, "Making Other Kinds Of Table Schema Changes".
    """
    (version,) = db.execute("PRAGMA schema_version").fetchone()
    db.execute("PRAGMA writable_schema = ON")
    db.execute(
        "UPDATE sqlite_master SET sql = replace(sql, 'order_line INTEGER NOT NULL', 'order_line INTEGER') "
        "WHERE type = 'table' AND name = 'shells'"
    )
    db.execute(f"PRAGMA schema_version = {version + 1}")
    db.execute("PRAGMA writable_schema = OFF")
    db.execute("DROP TRIGGER shells_keep_their_place")
    db.execute(KEEPS_ITS_PLACE)


def _forbid(db: Database, table: str, act: str) -> None:
    db.execute(
        f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
    )

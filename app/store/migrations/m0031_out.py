"""Shells that leave: how each is packed, the deed, its papers and its as-built record; what a dealer may owe."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE packings (
  id INTEGER PRIMARY KEY,
  shell INTEGER NOT NULL REFERENCES shells (id),
  content TEXT NOT NULL CHECK (json_valid(content)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX packings_by_shell ON packings (shell, id);

CREATE TABLE despatches (
  id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  shell INTEGER NOT NULL UNIQUE REFERENCES shells (id),
  order_id INTEGER NOT NULL REFERENCES orders (id),
  place INTEGER NOT NULL CHECK (place > 0),
  content TEXT NOT NULL CHECK (json_valid(content)),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  signed TEXT NOT NULL
) STRICT;
CREATE INDEX despatches_by_order ON despatches (order_id, id);

CREATE TABLE despatch_papers (
  id INTEGER PRIMARY KEY,
  despatch INTEGER NOT NULL REFERENCES despatches (id),
  paper TEXT NOT NULL,
  language TEXT NOT NULL,
  size TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  pdf BLOB NOT NULL,
  UNIQUE (despatch, paper, language, size)
) STRICT;

CREATE TABLE as_built (
  shell INTEGER PRIMARY KEY REFERENCES shells (id),
  code TEXT NOT NULL UNIQUE,
  sha256 TEXT NOT NULL,
  text BLOB NOT NULL,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE dealer_credits (
  id INTEGER PRIMARY KEY,
  dealer TEXT NOT NULL REFERENCES dealers (id),
  currency TEXT NOT NULL,
  amount INTEGER NOT NULL CHECK (amount >= 0),
  day TEXT NOT NULL,
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX dealer_credits_by_dealer ON dealer_credits (dealer, id);

CREATE TABLE export_terms (
  id INTEGER PRIMARY KEY,
  content TEXT NOT NULL CHECK (json_valid(content)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
"""

ONLY_GROWING = ("packings", "despatches", "despatch_papers", "as_built", "dealer_credits", "export_terms")

#: Everything that hangs on the table of deeds: made again once the table is.
_AROUND = (
    "SELECT name, type, sql FROM sqlite_master WHERE tbl_name = 'shell_deeds' AND type <> 'table' AND sql NOT NULL"
)


def up(db: Database) -> None:
    """No shell had left before. A despatch is a deed of its own, signed like a stage."""
    _let_shells_leave(db)
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
            )


def _let_shells_leave(db: Database) -> None:
    """A closed list in a CHECK takes one more: the table is made again with all that it had, whatever that is by now.

    Rows of other tables may name its own: by the end of the transaction they find them again.
    """
    (made,) = db.execute("SELECT sql FROM sqlite_master WHERE name = 'shell_deeds'").fetchone()
    around = db.execute(_AROUND).fetchall()
    db.execute("PRAGMA defer_foreign_keys = ON")
    db.execute("CREATE TABLE shell_deeds_before AS SELECT * FROM shell_deeds")
    for name, kind, _ in around:
        db.execute(f"DROP {kind} {name}")
    db.execute("DROP TABLE shell_deeds")
    db.execute(made.replace("deed IN (", "deed IN ('despatched', ", 1).replace("(deed = 'done') <=", _SIGNED, 1))
    db.execute("INSERT INTO shell_deeds SELECT * FROM shell_deeds_before")
    db.execute("DROP TABLE shell_deeds_before")
    for _, _, sql in around:
        db.execute(sql)


_SIGNED = "(deed IN ('done', 'despatched')) <="

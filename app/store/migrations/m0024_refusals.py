"""What was asked for and could not be built, once for each enquiry and set of causes; what remaking a tool takes."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = (
    """CREATE TABLE refusals (
      id INTEGER PRIMARY KEY,
      enquiry INTEGER NOT NULL REFERENCES enquiries (id),
      quotation TEXT NOT NULL REFERENCES quotations (number),
      causes TEXT NOT NULL CHECK (json_valid(causes)),
      book INTEGER NOT NULL REFERENCES books (number),
      quantity INTEGER NOT NULL CHECK (quantity > 0),
      currency TEXT NOT NULL,
      net INTEGER,
      at TEXT NOT NULL,
      UNIQUE (enquiry, causes)
    ) STRICT""",
    "CREATE INDEX refusals_by_day ON refusals (at)",
    """CREATE TABLE remakings (
      id INTEGER PRIMARY KEY,
      tool TEXT NOT NULL,
      cost INTEGER NOT NULL CHECK (cost >= 0),
      margin INTEGER NOT NULL CHECK (margin > 0),
      currency TEXT NOT NULL,
      at TEXT NOT NULL,
      by TEXT NOT NULL
    ) STRICT""",
)


def up(db: Database) -> None:
    """What was asked before was not written down, and nothing is made up for it."""
    for statement in TABLES:
        db.execute(statement)
    for table in ("refusals", "remakings"):
        for act in ("UPDATE", "DELETE"):
            says = f"{table} only grow: nothing is changed or taken out"
            name = f"{table}_no_{act.lower()}"
            db.execute(f"CREATE TRIGGER {name} BEFORE {act} ON {table} BEGIN SELECT RAISE(ABORT, '{says}'); END")

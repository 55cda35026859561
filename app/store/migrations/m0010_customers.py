"""Customers as things of their own: who is like whom, who was merged, who is not the same, whose data were erased.

What went out stays as it was but for one case: of a customer whose data were erased, what no order follows loses what
says who he was. The guards name that case and let nothing else by. Nobody is merged here: each enquiry taken down
before keeps the customer that it had.
"""

from __future__ import annotations

from sqlite_utils import Database

from app.domain.customers.likeness import keys_of
from app.domain.finding import sought_text

STEPS = """
ALTER TABLE customers ADD COLUMN merged_into INTEGER REFERENCES customers (id);
ALTER TABLE customers ADD COLUMN version INTEGER NOT NULL DEFAULT 1;
ALTER TABLE customers ADD COLUMN sought TEXT NOT NULL DEFAULT '';
CREATE INDEX customers_by_merged ON customers (merged_into) WHERE merged_into IS NOT NULL;

CREATE TABLE customer_keys (
  customer INTEGER NOT NULL REFERENCES customers (id),
  kind TEXT NOT NULL,
  key TEXT NOT NULL,
  PRIMARY KEY (kind, key, customer)
) STRICT, WITHOUT ROWID;
CREATE INDEX customer_keys_by_customer ON customer_keys (customer);

CREATE TABLE customers_apart (
  one INTEGER NOT NULL REFERENCES customers (id),
  other INTEGER NOT NULL REFERENCES customers (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  PRIMARY KEY (one, other),
  CHECK (one < other)
) STRICT, WITHOUT ROWID;

CREATE TABLE erasures (
  id INTEGER PRIMARY KEY,
  customer INTEGER NOT NULL REFERENCES customers (id),
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX erasures_by_customer ON erasures (customer);

CREATE TABLE retentions (
  id INTEGER PRIMARY KEY,
  months INTEGER CHECK (months > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
"""

ONLY_GROWING = ("customers_apart", "erasures", "retentions")

#: The quotations whose customer's data were erased and that no order follows.
ERASED = (
    "(SELECT quotations.{column} FROM quotations JOIN enquiries ON enquiries.id = quotations.enquiry "
    "JOIN erasures ON erasures.customer = enquiries.customer "
    "WHERE quotations.id NOT IN (SELECT quotation FROM orders))"
)

#: The same, of a row that belongs to a revision.
OF_ERASED = f"OLD.revision IN (SELECT id FROM revisions WHERE quotation IN {ERASED.format(column='id')})"  # noqa: S608

_ONLY_GROW = "'{table} only grow: nothing is changed or taken out'"
_FROZEN = "'an issued revision never changes'"

#: Of an issued revision: who it was for, and what was noted.
_REVISION_KEPT = (
    " AND ".join(
        f"OLD.{column} IS NEW.{column}"
        for column in (
            *("id", "quotation", "letter", "version", "price_list", "delivery_country", "delivery_region"),
            *("created_at", "created_by", "book", "tool_state", "issued_at", "issued_by", "valid_until", "code"),
        )
    )
    + " AND json_remove(OLD.frozen, '$.customer', '$.donor') = json_remove(NEW.frozen, '$.customer', '$.donor')"
)

#: Trigger, its table, the act, what else has to hold for the one case, and what it says otherwise.
GUARDS = (
    (
        "issued_revision_no_update",
        "revisions",
        "UPDATE",
        f"OLD.issued_at IS NOT NULL AND NOT (OLD.quotation IN {ERASED.format(column='id')} AND {_REVISION_KEPT})",
        _FROZEN,
    ),
    ("papers_no_delete", "papers", "DELETE", f"NOT ({OF_ERASED})", _ONLY_GROW.format(table="papers")),
    (
        "papers_frozen_on_delete",
        "papers",
        "DELETE",
        f"OLD.revision IN (SELECT id FROM revisions WHERE issued_at IS NOT NULL) AND NOT ({OF_ERASED})",  # noqa: S608 - texts of this file
        _FROZEN,
    ),
    (
        "difference_sheets_no_delete",
        "difference_sheets",
        "DELETE",
        f"NOT ({OF_ERASED})",
        _ONLY_GROW.format(table="difference_sheets"),
    ),
    (
        "revision_acts_no_update",
        "revision_acts",
        "UPDATE",
        f"NOT ({OF_ERASED} AND OLD.revision = NEW.revision AND OLD.act = NEW.act AND OLD.at = NEW.at "
        "AND OLD.by = NEW.by AND OLD.said_at IS NEW.said_at AND OLD.reason IS NEW.reason)",
        _ONLY_GROW.format(table="revision_acts"),
    ),
    (
        "sendings_no_update",
        "sendings",
        "UPDATE",
        f"NOT ({OF_ERASED} AND OLD.id = NEW.id AND OLD.revision = NEW.revision AND OLD.kind = NEW.kind "
        "AND OLD.way = NEW.way AND OLD.sent_on = NEW.sent_on AND OLD.at = NEW.at AND OLD.by = NEW.by)",
        _ONLY_GROW.format(table="sendings"),
    ),
    (
        "history_no_update",
        "history",
        "UPDATE",
        f"NOT (OLD.thing = 'quotation' AND OLD.name IN {ERASED.format(column='number')} AND OLD.id = NEW.id "
        "AND OLD.thing = NEW.thing AND OLD.name = NEW.name AND OLD.at = NEW.at AND OLD.by = NEW.by "
        "AND OLD.what = NEW.what AND NEW.facts = json_replace(OLD.facts, '$.to', '–', '$.said_by', '–'))",
        _ONLY_GROW.format(table="history"),
    ),
)


def up(db: Database) -> None:
    """Tables, guards, and for every customer what he is found and known again by."""
    for statement in STEPS.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            _guard(db, f"{table}_no_{act.lower()}", f"BEFORE {act} ON {table}", _ONLY_GROW.format(table=table))
    for name, table, act, unless, says in GUARDS:
        db.execute(f"DROP TRIGGER {name}")
        _guard(db, name, f"BEFORE {act} ON {table} WHEN {unless}", says)
    for row in db.execute("SELECT id, name, country, telephone, email FROM customers").fetchall():
        _know_again(db, *row)


def _guard(db: Database, name: str, when: str, says: str) -> None:
    db.execute(f"CREATE TRIGGER {name} {when} BEGIN SELECT RAISE(ABORT, {says}); END")


def _know_again(db: Database, customer: int, name: str, country: str, telephone: str, email: str) -> None:
    sought = sought_text((name, telephone, email))
    db.execute("UPDATE customers SET sought = ? WHERE id = ?", [sought, customer])
    for kind, key in keys_of(name, country, telephone, email):
        db.execute("INSERT INTO customer_keys VALUES (?, ?, ?)", [customer, kind, key])

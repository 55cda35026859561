"""What keeps lists, searches and pages quick however much lies behind them.

A list is walked in its own order from where the page before ended, so each thing has its place in that order in one
whole number: its `turn`. What is sought is found by the three-letter pieces of its text, kept in the order of the list.
All of it follows from other rows and is kept by triggers alone: no code writes it, and none can forget to.
"""

# ruff: noqa: S608 - what is put together here are texts of this file alone

from __future__ import annotations

from dataclasses import dataclass
from sqlite3 import Connection

from sqlite_utils import Database


def places_of(moment: str) -> str:
    """SQL: the first of the thousand places of a microsecond."""
    return f"(CAST(strftime('%s', {moment}) AS INTEGER) * 1000000 + CAST(substr({moment}, 21, 6) AS INTEGER)) * 1000"


def turn_of(moment: str, table: str) -> str:
    """SQL: the place of a moment: the next that is free of those of its microsecond."""
    base = places_of(moment)
    return f"(SELECT coalesce(max(turn) + 1, {base}) FROM {table} WHERE turn >= {base} AND turn < {base} + 1000)"


@dataclass(frozen=True)
class Sought:
    """An index of texts: `turn`, `text`, `dealer` and `standing` of each row of `rows`."""

    name: str
    turn: str
    text: str
    rows: str
    dealer: str = "NULL"
    standing: str = "''"

    def told(self, where: str = "true") -> str:
        """SQL: the turn of each row, and what it is found by."""
        told = f"{self.turn}, {self.text}, '=' || ifnull({self.dealer}, '') || '=', substr({self.standing}, 1, 3)"
        return f"SELECT {told} FROM {self.rows} WHERE {where}"

    def anew(self, where: str = "true") -> str:
        """SQL: writes down what the rows are found by."""
        return f"INSERT INTO {self.name} (rowid, text, dealer, standing) {self.told(where)};"

    def out(self, which: str) -> str:
        """SQL: forgets those turns."""
        return f"DELETE FROM {self.name} WHERE rowid IN ({which});"

    def again(self, where: str) -> str:
        """SQL: the text of rows that keep their turn."""
        return self.out(f"SELECT {self.turn} FROM {self.rows} WHERE {where}") + self.anew(where)


def _number(column: str) -> str:
    return f"lower(replace({column}, '-', ''))"


def _numbers(of: str) -> str:
    """Those of all quotations of an enquiry, and of their orders."""
    joined = "quotations AS own LEFT JOIN orders AS made ON made.quotation = own.id"
    both = f"{_number('own.number')} || ' ' || ifnull({_number('made.number')}, '')"
    return f"ifnull((SELECT ' ' || group_concat({both}, ' ') FROM {joined} WHERE own.enquiry = {of}), '')"


_ORDER = f"ifnull((SELECT ' ' || {_number('orders.number')} FROM orders WHERE orders.quotation = quotations.id), '')"
_QUOTED = "quotations JOIN enquiries ON enquiries.id = quotations.enquiry"
_FORMER = (
    "ifnull((SELECT ' ' || group_concat(former.sought, ' ') FROM customers AS former "
    "WHERE former.merged_into = customers.id), '')"
)

ENQUIRIES = Sought(
    "enquiries_sought",
    "enquiries.turn",
    f"enquiries.sought || {_numbers('enquiries.id')}",
    "enquiries",
    "enquiries.dealer",
)
QUOTATIONS = Sought(
    "quotations_sought",
    "quotations.turn",
    f"enquiries.sought || ' ' || {_number('quotations.number')} || {_ORDER}",
    _QUOTED,
    "quotations.dealer",
    "quotations.standing",
)
ORDERS = Sought(
    "orders_sought",
    "orders.id",
    f"enquiries.sought || ' ' || {_number('orders.number')} || ' ' || {_number('quotations.number')}",
    f"orders JOIN {_QUOTED.replace(' ON', ' ON', 1)} AND quotations.id = orders.quotation",
    "quotations.dealer",
)
OUT = Sought(
    "out_sought",
    "last_out.turn",
    f"enquiries.sought || ' ' || {_number('quotations.number')}",
    f"last_out JOIN {_QUOTED} AND quotations.id = last_out.quotation",
)
CUSTOMERS = Sought(
    "customers_sought", "customers.id", f"customers.sought || {_FORMER}", "customers", "customers.dealer"
)
EVERY = (ENQUIRIES, QUOTATIONS, ORDERS, OUT, CUSTOMERS)

#: Where a customer has not said yes, was not merged and is not erased: the last moment at which anything of him moved.
_STILL = """
INSERT INTO customers_still (customer, moved)
SELECT id, max(
    (SELECT max(updated_at) FROM enquiries WHERE customer = customers.id),
    ifnull((SELECT max(max(quotations.updated_at, ifnull(quotations.valid_until, '')))
      FROM quotations JOIN enquiries ON enquiries.id = enquiry WHERE customer = customers.id), '')) AS moved
FROM customers WHERE {which} AND merged_into IS NULL AND id NOT IN (SELECT customer FROM erasures)
  AND EXISTS (SELECT 1 FROM enquiries WHERE customer = customers.id)
  AND NOT EXISTS (SELECT 1 FROM enquiries JOIN quotations ON enquiry = enquiries.id
    JOIN revisions ON quotation = quotations.id JOIN revision_acts ON revision = revisions.id
    WHERE customer = customers.id AND act = 'accepted');
"""

TABLES = """
ALTER TABLE enquiries ADD COLUMN turn INTEGER NOT NULL DEFAULT 0;
ALTER TABLE quotations ADD COLUMN turn INTEGER NOT NULL DEFAULT 0;
DROP INDEX enquiries_by_dealer;
DROP INDEX enquiries_by_change;
DROP INDEX quotations_by_dealer;
DROP INDEX quotations_by_change;
CREATE INDEX enquiries_by_turn ON enquiries (turn);
CREATE INDEX enquiries_by_dealer ON enquiries (dealer, turn);
CREATE INDEX quotations_by_turn ON quotations (turn);
CREATE INDEX quotations_by_dealer ON quotations (dealer, turn);
CREATE INDEX quotations_by_standing_and_turn ON quotations (standing, turn);
CREATE INDEX quotations_of_dealer_by_standing ON quotations (dealer, standing, turn);
CREATE INDEX quotations_of_dealer_by_lapse ON quotations (dealer, standing, valid_until);
CREATE INDEX drafts ON revisions (quotation) WHERE issued_at IS NULL;
CREATE TABLE last_out (
  quotation INTEGER PRIMARY KEY REFERENCES quotations (id),
  revision INTEGER NOT NULL REFERENCES revisions (id),
  turn INTEGER NOT NULL UNIQUE
) STRICT;
CREATE TABLE approval_stages (
  approval INTEGER PRIMARY KEY REFERENCES approvals (id),
  dealer TEXT,
  stage TEXT NOT NULL,
  place INTEGER NOT NULL UNIQUE
) STRICT;
CREATE INDEX approval_stages_by_stage ON approval_stages (stage, place);
CREATE INDEX approval_stages_by_dealer ON approval_stages (dealer, place);
CREATE INDEX approval_stages_of_dealer ON approval_stages (dealer, stage, place);
CREATE TABLE customers_still (
  customer INTEGER PRIMARY KEY REFERENCES customers (id),
  moved TEXT NOT NULL
) STRICT;
CREATE INDEX customers_by_move ON customers_still (moved, customer);
"""

#: What waits comes first, the longest waiting at the top: below every other place.
WAITING_FROM = -(10**15)

_STAGE = f"""
INSERT INTO approval_stages (approval, dealer, stage, place)
SELECT approvals.id, quotations.dealer, coalesce(acts.act, 'waiting'), coalesce(-acts.id, approvals.id + {WAITING_FROM})
FROM approvals JOIN quotations ON quotations.id = approvals.quotation
LEFT JOIN approval_acts AS acts ON acts.id = (SELECT max(id) FROM approval_acts WHERE approval = approvals.id)
WHERE {{which}};
"""

_OF_ENQUIRY = "quotations.enquiry = NEW.id"
_OF_QUOTATION = "quotations.id = NEW.quotation"


def _still(which: str) -> str:
    gone = f"DELETE FROM customers_still WHERE customer IN (SELECT id FROM customers WHERE {which});"
    return gone + _STILL.format(which=which)


_OUT_NOW = f"""
INSERT INTO last_out (quotation, revision, turn) VALUES (NEW.quotation, NEW.id, {turn_of("NEW.issued_at", "last_out")});
"""
_OUT_GONE = OUT.out("SELECT turn FROM last_out WHERE quotation = NEW.quotation")

#: Trigger, when, and what it does.
TRIGGERS = (
    (
        "enquiries_come",
        "AFTER INSERT ON enquiries",
        f"UPDATE enquiries SET turn = {turn_of('NEW.updated_at', 'enquiries')} WHERE id = NEW.id;",
    ),
    (
        "enquiries_move",
        "AFTER UPDATE OF updated_at ON enquiries WHEN OLD.updated_at <> NEW.updated_at",
        f"UPDATE enquiries SET turn = {turn_of('NEW.updated_at', 'enquiries')} WHERE id = NEW.id;",
    ),
    (
        "enquiries_turn",
        "AFTER UPDATE OF turn ON enquiries",
        ENQUIRIES.out("OLD.turn") + ENQUIRIES.anew("enquiries.id = NEW.id") + _still("id = NEW.customer"),
    ),
    (
        "enquiries_told",
        "AFTER UPDATE OF sought ON enquiries WHEN OLD.sought <> NEW.sought",
        ENQUIRIES.again("enquiries.id = NEW.id")
        + QUOTATIONS.again(_OF_ENQUIRY)
        + ORDERS.again(_OF_ENQUIRY)
        + OUT.again(_OF_ENQUIRY),
    ),
    (
        "enquiries_given",
        "AFTER UPDATE OF customer ON enquiries WHEN OLD.customer <> NEW.customer",
        _still("id IN (OLD.customer, NEW.customer)"),
    ),
    (
        "quotations_come",
        "AFTER INSERT ON quotations",
        f"UPDATE quotations SET turn = {turn_of('NEW.updated_at', 'quotations')} WHERE id = NEW.id;"
        + ENQUIRIES.again("enquiries.id = NEW.enquiry"),
    ),
    (
        "quotations_move",
        "AFTER UPDATE OF updated_at, standing ON quotations "
        "WHEN OLD.updated_at <> NEW.updated_at OR OLD.standing <> NEW.standing",
        "UPDATE quotations SET turn = CASE WHEN OLD.updated_at = NEW.updated_at THEN OLD.turn "
        f"ELSE {turn_of('NEW.updated_at', 'quotations')} END WHERE id = NEW.id;",
    ),
    (
        "quotations_turn",
        "AFTER UPDATE OF turn ON quotations",
        QUOTATIONS.out("OLD.turn")
        + QUOTATIONS.anew("quotations.id = NEW.id")
        + _still("id = (SELECT customer FROM enquiries WHERE id = NEW.enquiry)"),
    ),
    (
        "revisions_leave",
        "AFTER UPDATE OF issued_at ON revisions WHEN OLD.issued_at IS NULL AND NEW.issued_at IS NOT NULL",
        f"{_OUT_GONE}DELETE FROM last_out WHERE quotation = NEW.quotation;{_OUT_NOW}{OUT.anew(_OF_QUOTATION)}",
    ),
    (
        "revisions_come",
        "AFTER INSERT ON revisions WHEN NEW.issued_at IS NOT NULL",
        f"{_OUT_GONE}DELETE FROM last_out WHERE quotation = NEW.quotation;{_OUT_NOW}{OUT.anew(_OF_QUOTATION)}",
    ),
    (
        "yes_is_said",
        "AFTER INSERT ON revision_acts WHEN NEW.act = 'accepted'",
        "DELETE FROM customers_still WHERE customer = (SELECT customer FROM enquiries "
        "JOIN quotations ON enquiry = enquiries.id JOIN revisions ON quotation = quotations.id "
        "WHERE revisions.id = NEW.revision);",
    ),
    (
        "orders_come",
        "AFTER INSERT ON orders",
        ORDERS.anew("orders.id = NEW.id")
        + QUOTATIONS.again(_OF_QUOTATION)
        + ENQUIRIES.again("enquiries.id = (SELECT enquiry FROM quotations WHERE id = NEW.quotation)"),
    ),
    ("customers_come", "AFTER INSERT ON customers", CUSTOMERS.anew("customers.id = NEW.id")),
    (
        "customers_told",
        "AFTER UPDATE OF sought, dealer, merged_into ON customers",
        CUSTOMERS.again("customers.id IN (NEW.id, NEW.merged_into)") + _still("id IN (NEW.id, NEW.merged_into)"),
    ),
    (
        "customers_go",
        "AFTER DELETE ON customers",
        CUSTOMERS.out("OLD.id") + "DELETE FROM customers_still WHERE customer = OLD.id;",
    ),
    ("customers_erased", "AFTER INSERT ON erasures", "DELETE FROM customers_still WHERE customer = NEW.customer;"),
    ("approvals_come", "AFTER INSERT ON approvals", _STAGE.format(which="approvals.id = NEW.id")),
    (
        "approvals_said",
        "AFTER INSERT ON approval_acts",
        "DELETE FROM approval_stages WHERE approval = NEW.approval;"
        + _STAGE.format(which="approvals.id = NEW.approval"),
    ),
)

_TURNS = f"""
UPDATE {{table}} SET turn = placed.turn FROM (
  SELECT id, {places_of("updated_at")} + row_number() OVER (PARTITION BY updated_at ORDER BY id) - 1 AS turn
  FROM {{table}}) AS placed
WHERE placed.id = {{table}}.id
"""

_OUT_BEFORE = f"""
INSERT INTO last_out (quotation, revision, turn)
SELECT quotation, id, {places_of("issued_at")} + row_number() OVER (PARTITION BY issued_at ORDER BY id) - 1
FROM revisions WHERE id IN (SELECT max(id) FROM revisions WHERE issued_at IS NOT NULL GROUP BY quotation)
"""


def up(db: Database) -> None:
    """Tables, then what stands already, and the triggers that keep it from here on."""
    for statement in filter(str.strip, TABLES.split(";\n")):
        db.execute(statement)
    for index in EVERY:
        db.execute(f"CREATE VIRTUAL TABLE {index.name} USING fts5 (text, dealer, standing, tokenize = 'trigram')")
    keep(db)


def keep(db: Database | Connection) -> None:
    """From what stands in the other tables, once; then by triggers."""
    for table in ("enquiries", "quotations"):
        db.execute(_TURNS.format(table=table))
    db.execute(_OUT_BEFORE)
    for index in EVERY:
        db.execute(index.anew().rstrip(";"))
    for statement in (_STAGE, _STILL):
        db.execute(statement.format(which="true").strip().rstrip(";"))
    for name, when, does in TRIGGERS:
        db.execute(f"CREATE TRIGGER {name} {when} BEGIN {does} END")


def let_go(db: Database | Connection) -> None:
    """For filling in bulk: no trigger keeps anything until `keep`, and nothing may stand in it yet."""
    for name, _, _ in TRIGGERS:
        db.execute(f"DROP TRIGGER {name}")

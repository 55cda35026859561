"""Books, tool states, dealers, customers, donor cars, enquiries, quotations, papers, history, idempotency keys.

What must not change once it stands is guarded by triggers, so that no code, however wrong, can change it. Moments are
ISO 8601 text in UTC, days ISO text, percents decimal text, money whole minor units, mappings JSON text.
"""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE books (
  number INTEGER PRIMARY KEY,
  title TEXT NOT NULL CHECK (json_valid(title)),
  text TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  published_at TEXT NOT NULL,
  valid_from TEXT NOT NULL,
  by TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;

CREATE TABLE tool_states (
  number INTEGER PRIMARY KEY,
  tool TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('ok', 'down', 'lost')),
  until TEXT CHECK (until IS NULL OR state = 'down'),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX tool_states_by_tool ON tool_states (tool, number);

CREATE TABLE firm (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  data TEXT NOT NULL CHECK (json_valid(data))
) STRICT;

CREATE TABLE dealers (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  country TEXT NOT NULL,
  language TEXT NOT NULL,
  units TEXT NOT NULL,
  price_list TEXT NOT NULL
) STRICT;

CREATE TABLE trade_terms (
  dealer TEXT NOT NULL REFERENCES dealers (id),
  category TEXT NOT NULL,
  percent TEXT NOT NULL,
  PRIMARY KEY (dealer, category)
) STRICT, WITHOUT ROWID;

CREATE TABLE customers (
  id INTEGER PRIMARY KEY,
  dealer TEXT REFERENCES dealers (id),
  name TEXT NOT NULL,
  trade INTEGER NOT NULL CHECK (trade IN (0, 1)),
  country TEXT NOT NULL,
  language TEXT NOT NULL,
  units TEXT NOT NULL CHECK (units IN ('metric', 'imperial')),
  telephone TEXT NOT NULL,
  email TEXT NOT NULL,
  address TEXT NOT NULL,
  tax_number TEXT NOT NULL
) STRICT;
CREATE INDEX customers_by_dealer ON customers (dealer);

CREATE TABLE donors (
  id INTEGER PRIMARY KEY,
  number_text TEXT NOT NULL,
  series TEXT,
  number INTEGER,
  established INTEGER NOT NULL CHECK (established IN (0, 1)),
  gearbox TEXT
) STRICT;
CREATE INDEX donors_by_number ON donors (series, number);

CREATE TABLE donor_pictures (
  donor INTEGER NOT NULL REFERENCES donors (id),
  picture TEXT NOT NULL CHECK (picture IN ('built', 'stands', 'ordered')),
  choices TEXT NOT NULL CHECK (json_valid(choices)),
  said_by TEXT CHECK (said_by IN ('plate-photograph', 'factory-record', 'owner')),
  note TEXT NOT NULL,
  PRIMARY KEY (donor, picture)
) STRICT, WITHOUT ROWID;

CREATE TABLE enquiries (
  id INTEGER PRIMARY KEY,
  reference TEXT NOT NULL UNIQUE,
  customer INTEGER NOT NULL REFERENCES customers (id),
  donor INTEGER NOT NULL REFERENCES donors (id),
  dealer TEXT REFERENCES dealers (id),
  wanted_by TEXT,
  note TEXT NOT NULL,
  created_at TEXT NOT NULL,
  created_by TEXT NOT NULL,
  updated_at TEXT NOT NULL,
  version INTEGER NOT NULL,
  sought TEXT NOT NULL
) STRICT;
CREATE INDEX enquiries_by_dealer ON enquiries (dealer, updated_at);
CREATE INDEX enquiries_by_change ON enquiries (updated_at);
CREATE INDEX enquiries_by_customer ON enquiries (customer);
CREATE INDEX enquiries_by_donor ON enquiries (donor);

CREATE TABLE quotations (
  id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  enquiry INTEGER NOT NULL REFERENCES enquiries (id),
  dealer TEXT REFERENCES dealers (id),
  letter TEXT NOT NULL,
  standing TEXT NOT NULL CHECK (standing IN ('draft', 'issued', 'accepted', 'declined')),
  valid_until TEXT,
  created_at TEXT NOT NULL,
  created_by TEXT NOT NULL,
  updated_at TEXT NOT NULL
) STRICT;
CREATE INDEX quotations_by_dealer ON quotations (dealer, updated_at);
CREATE INDEX quotations_by_change ON quotations (updated_at);
CREATE INDEX quotations_by_standing ON quotations (standing, valid_until);
CREATE INDEX quotations_by_enquiry ON quotations (enquiry);

CREATE TABLE revisions (
  id INTEGER PRIMARY KEY,
  quotation INTEGER NOT NULL REFERENCES quotations (id),
  letter TEXT NOT NULL,
  version INTEGER NOT NULL,
  price_list TEXT NOT NULL,
  delivery_country TEXT NOT NULL,
  delivery_region TEXT NOT NULL,
  note TEXT NOT NULL,
  created_at TEXT NOT NULL,
  created_by TEXT NOT NULL,
  book INTEGER REFERENCES books (number),
  tool_state INTEGER,
  issued_at TEXT,
  issued_by TEXT,
  valid_until TEXT,
  code TEXT UNIQUE,
  frozen TEXT CHECK (frozen IS NULL OR json_valid(frozen)),
  UNIQUE (quotation, letter),
  CHECK ((issued_at IS NULL) = (frozen IS NULL)),
  CHECK ((issued_at IS NULL) = (book IS NULL)),
  CHECK ((issued_at IS NULL) = (tool_state IS NULL)),
  CHECK ((issued_at IS NULL) = (code IS NULL))
) STRICT;

CREATE TABLE revision_lines (
  id INTEGER PRIMARY KEY,
  revision INTEGER NOT NULL REFERENCES revisions (id),
  position INTEGER NOT NULL,
  quantity INTEGER NOT NULL CHECK (quantity > 0),
  specification TEXT NOT NULL CHECK (json_valid(specification)),
  frozen TEXT CHECK (frozen IS NULL OR json_valid(frozen)),
  UNIQUE (revision, position)
) STRICT;

CREATE TABLE revision_extras (
  revision INTEGER NOT NULL REFERENCES revisions (id),
  position INTEGER NOT NULL,
  extra TEXT NOT NULL,
  quantity INTEGER NOT NULL CHECK (quantity > 0),
  PRIMARY KEY (revision, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE revision_acts (
  revision INTEGER PRIMARY KEY REFERENCES revisions (id),
  act TEXT NOT NULL CHECK (act IN ('accepted', 'declined', 'superseded')),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  why TEXT NOT NULL
) STRICT;

CREATE TABLE papers (
  id INTEGER PRIMARY KEY,
  revision INTEGER NOT NULL REFERENCES revisions (id),
  language TEXT NOT NULL,
  size TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  pdf BLOB NOT NULL,
  UNIQUE (revision, language, size)
) STRICT;

CREATE TABLE history (
  id INTEGER PRIMARY KEY,
  thing TEXT NOT NULL,
  name TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  what TEXT NOT NULL,
  facts TEXT NOT NULL CHECK (json_valid(facts))
) STRICT;
CREATE INDEX history_of_thing ON history (thing, name, id);

CREATE TABLE counters (
  series TEXT PRIMARY KEY,
  last INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE idempotency_keys (
  person TEXT NOT NULL,
  key TEXT NOT NULL,
  fingerprint TEXT NOT NULL,
  at TEXT NOT NULL,
  made TEXT NOT NULL CHECK (json_valid(made)),
  response TEXT CHECK (response IS NULL OR json_valid(response)),
  PRIMARY KEY (person, key)
) STRICT, WITHOUT ROWID;
"""

#: Tables whose rows are only ever added.
ONLY_GROWING = ("books", "tool_states", "revision_acts", "papers", "history")

#: Tables whose rows belong to a revision: no row of an issued one may come, change or go.
OF_A_REVISION = ("revision_lines", "revision_extras", "papers")


_IS_ISSUED = "{row}.revision IN (SELECT id FROM revisions WHERE issued_at IS NOT NULL)"


def up(db: Database) -> None:
    """Tables first, then the guards."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        _forbid(db, table, "UPDATE")
        _forbid(db, table, "DELETE")
    for table in OF_A_REVISION:
        _guard_part_of_a_revision(db, table)
    _guard_issued_revisions(db)


def _forbid(db: Database, table: str, act: str) -> None:
    db.execute(
        f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
    )


def _guard_issued_revisions(db: Database) -> None:
    for act in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER issued_revision_no_{act.lower()} BEFORE {act} ON revisions WHEN OLD.issued_at IS NOT NULL "
            "BEGIN SELECT RAISE(ABORT, 'an issued revision never changes'); END"
        )


def _guard_part_of_a_revision(db: Database, table: str) -> None:
    for act, rows in {"INSERT": ("NEW",), "UPDATE": ("OLD", "NEW"), "DELETE": ("OLD",)}.items():
        of = " OR ".join(_IS_ISSUED.format(row=row) for row in rows)
        db.execute(
            f"CREATE TRIGGER {table}_frozen_on_{act.lower()} BEFORE {act} ON {table} WHEN {of} "
            "BEGIN SELECT RAISE(ABORT, 'an issued revision never changes'); END"
        )

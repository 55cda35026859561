"""Orders that acceptance makes, their planned shells, what was paid for them and the documents that go with it.

An order has no row that changes: what it is made of is its last basis (the accepted revision that it follows), and what
is paid and written only grows. What is accepted already in an older desk gets its order here.
"""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE orders (
  id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  quotation INTEGER NOT NULL REFERENCES quotations (id),
  made_at TEXT NOT NULL,
  made_by TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX orders_one_of_a_quotation ON orders (quotation);

CREATE TABLE order_bases (
  id INTEGER PRIMARY KEY,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  revision INTEGER NOT NULL UNIQUE REFERENCES revisions (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX order_bases_by_order ON order_bases (order_id, id);

CREATE TABLE order_lines (
  id INTEGER PRIMARY KEY,
  basis INTEGER NOT NULL REFERENCES order_bases (id),
  position INTEGER NOT NULL,
  revision_line INTEGER NOT NULL REFERENCES revision_lines (id),
  UNIQUE (basis, position)
) STRICT;

CREATE TABLE shells (
  id INTEGER PRIMARY KEY,
  order_line INTEGER NOT NULL REFERENCES order_lines (id),
  place INTEGER NOT NULL CHECK (place > 0),
  serial TEXT,
  UNIQUE (order_line, place)
) STRICT;
CREATE UNIQUE INDEX shells_by_serial ON shells (serial);

CREATE TABLE tax_decisions (
  id INTEGER PRIMARY KEY,
  basis INTEGER NOT NULL REFERENCES order_bases (id),
  tax_case TEXT NOT NULL,
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX tax_decisions_by_basis ON tax_decisions (basis, id);

CREATE TABLE payments (
  id INTEGER PRIMARY KEY,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  direction TEXT NOT NULL CHECK (direction IN ('received', 'paid-back')),
  amount INTEGER NOT NULL CHECK (amount > 0),
  currency TEXT NOT NULL,
  day TEXT NOT NULL,
  means TEXT NOT NULL,
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX payments_by_order ON payments (order_id, id);
CREATE INDEX payments_by_day ON payments (day, id);

CREATE TABLE payment_agreements (
  id INTEGER PRIMARY KEY,
  payment INTEGER NOT NULL REFERENCES payments (id),
  amount INTEGER NOT NULL CHECK (amount > 0),
  rate TEXT NOT NULL,
  rate_day TEXT NOT NULL,
  agreed_by TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX payment_agreements_by_payment ON payment_agreements (payment, id);

CREATE TABLE payment_mistakes (
  payment INTEGER PRIMARY KEY REFERENCES payments (id),
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE tolerances (
  id INTEGER PRIMARY KEY,
  currency TEXT NOT NULL,
  amount INTEGER NOT NULL CHECK (amount >= 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX tolerances_by_currency ON tolerances (currency, id);

CREATE TABLE documents (
  id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  kind TEXT NOT NULL CHECK (kind IN ('deposit', 'balance', 'credit-note', 'refund-worksheet')),
  payment INTEGER UNIQUE REFERENCES payments (id),
  credits INTEGER REFERENCES documents (id),
  worksheet INTEGER REFERENCES documents (id),
  dated TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  content TEXT NOT NULL CHECK (json_valid(content)),
  xml BLOB,
  CHECK ((kind = 'deposit') = (payment IS NOT NULL)),
  CHECK ((kind = 'credit-note') = (credits IS NOT NULL)),
  CHECK ((kind = 'refund-worksheet') = (xml IS NULL))
) STRICT;
CREATE INDEX documents_by_order ON documents (order_id, id);
CREATE INDEX documents_by_day ON documents (dated, id);
CREATE INDEX documents_by_credited ON documents (credits, id);

CREATE TABLE document_papers (
  id INTEGER PRIMARY KEY,
  document INTEGER NOT NULL REFERENCES documents (id),
  language TEXT NOT NULL,
  size TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  pdf BLOB NOT NULL,
  UNIQUE (document, language, size)
) STRICT;
"""

#: Tables whose rows are only ever added. A shell will get its serial at release: until then it has nothing to change.
ONLY_GROWING = (
    "orders",
    "order_bases",
    "order_lines",
    "tax_decisions",
    "payments",
    "payment_agreements",
    "payment_mistakes",
    "tolerances",
    "documents",
    "document_papers",
)

#: The last accepted revision of every quotation, in the order in which they were accepted.
_ACCEPTED = """
SELECT revisions.quotation, max(revisions.id) AS revision, revision_acts.at, revision_acts.by
FROM revision_acts JOIN revisions ON revisions.id = revision_acts.revision
WHERE revision_acts.act = 'accepted' GROUP BY revisions.quotation ORDER BY revision_acts.at, revisions.id
"""

_LINES = "SELECT id, position, quantity FROM revision_lines WHERE revision = ? ORDER BY position"

_COUNT = """
INSERT INTO counters (series, last) VALUES (?, 1) ON CONFLICT (series) DO UPDATE SET last = last + 1 RETURNING last
"""


def up(db: Database) -> None:
    """Tables, their guards, and an order for what was accepted before there were any."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        _forbid(db, table, "UPDATE")
        _forbid(db, table, "DELETE")
    _forbid(db, "shells", "DELETE")
    _guard_accepted(db)
    for quotation, revision, at, by in db.execute(_ACCEPTED).fetchall():
        _order(db, quotation, revision, at, by)


def _forbid(db: Database, table: str, act: str) -> None:
    db.execute(
        f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} only grow: nothing is changed or taken out'); END"
    )


def _guard_accepted(db: Database) -> None:
    """An order follows what was accepted of its own quotation, and nothing else."""
    db.execute(
        "CREATE TRIGGER order_bases_of_what_was_accepted BEFORE INSERT ON order_bases WHEN NOT EXISTS ("
        "SELECT 1 FROM revisions JOIN revision_acts ON revision_acts.revision = revisions.id "
        "JOIN orders ON orders.quotation = revisions.quotation "
        "WHERE revisions.id = NEW.revision AND orders.id = NEW.order_id AND revision_acts.act = 'accepted') "
        "BEGIN SELECT RAISE(ABORT, 'an order follows an accepted revision of its own quotation'); END"
    )
    db.execute(
        "CREATE TRIGGER shells_keep_their_place BEFORE UPDATE ON shells "
        "WHEN OLD.order_line <> NEW.order_line OR OLD.place <> NEW.place OR OLD.serial IS NOT NULL "
        "BEGIN SELECT RAISE(ABORT, 'a shell keeps its line and its serial'); END"
    )


def _order(db: Database, quotation: int, revision: int, at: str, by: str) -> None:
    series = f"O-{at[:4]}"
    (last,) = db.execute(_COUNT, [series]).fetchone()
    order = _row(db, "orders (number, quotation, made_at, made_by)", [f"{series}-{last:05d}", quotation, at, by])
    basis = _row(db, "order_bases (order_id, revision, at, by)", [order, revision, at, by])
    for line, position, quantity in db.execute(_LINES, [revision]).fetchall():
        key = _row(db, "order_lines (basis, position, revision_line)", [basis, position, line])
        for place in range(1, quantity + 1):
            _row(db, "shells (order_line, place)", [key, place])


def _row(db: Database, into: str, values: list[object]) -> int:
    marks = ", ".join("?" * len(values))
    (key,) = db.execute(f"INSERT INTO {into} VALUES ({marks}) RETURNING id", values).fetchone()  # noqa: S608 - names of ours
    return int(key)

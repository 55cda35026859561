"""What a dealer's desk keeps: how he heads his own offers, what he asks of the office, and his programs' tokens."""

from __future__ import annotations

from sqlite_utils import Database

from app.store.migrations.m0010_customers import OF_ERASED

TABLES = """
CREATE TABLE retail_terms (
  id INTEGER PRIMARY KEY,
  dealer TEXT NOT NULL REFERENCES dealers (id),
  address TEXT NOT NULL,
  telephone TEXT NOT NULL,
  email TEXT NOT NULL,
  margin TEXT,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX retail_terms_by_dealer ON retail_terms (dealer, id);

CREATE TABLE requests (
  id INTEGER PRIMARY KEY,
  revision INTEGER NOT NULL REFERENCES revisions (id),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX requests_by_revision ON requests (revision);

CREATE TABLE request_ends (
  request INTEGER PRIMARY KEY REFERENCES requests (id),
  how TEXT NOT NULL CHECK (how IN ('answered', 'withdrawn', 'refused')),
  why TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE api_tokens (
  id INTEGER PRIMARY KEY,
  dealer TEXT NOT NULL REFERENCES dealers (id),
  person TEXT NOT NULL,
  label TEXT NOT NULL,
  token_hash TEXT NOT NULL UNIQUE,
  scopes TEXT NOT NULL CHECK (json_valid(scopes)),
  made_at TEXT NOT NULL,
  expires_at TEXT,
  used_at TEXT,
  revoked_at TEXT,
  revoked_by TEXT,
  CHECK ((revoked_at IS NULL) = (revoked_by IS NULL))
) STRICT;
CREATE INDEX api_tokens_by_dealer ON api_tokens (dealer, id);
"""

#: What was said and asked stays as it was; of a token only its use and its end are written later.
ONLY_GROWING = ("retail_terms", "requests", "request_ends")

#: But for one case: of a customer whose data were erased, and whose quotation no order follows, the words go.
_ERASED = {
    # ruff: noqa: S608 - texts of this file alone
    "requests": f"NOT ({OF_ERASED} AND OLD.id = NEW.id AND OLD.revision = NEW.revision AND OLD.at = NEW.at "
    "AND OLD.by = NEW.by)",
    "request_ends": f"NOT (EXISTS (SELECT 1 FROM requests AS asked WHERE asked.id = OLD.request AND "
    f"{OF_ERASED.replace('OLD.revision', 'asked.revision')}) AND OLD.request = NEW.request AND OLD.how = NEW.how "
    "AND OLD.at = NEW.at AND OLD.by = NEW.by)",
}

_TOKEN_STAYS = " OR ".join(
    f"OLD.{column} IS NOT NEW.{column}"
    for column in ("id", "dealer", "person", "label", "token_hash", "scopes", "made_at", "expires_at")
)


def up(db: Database) -> None:
    """Nobody has said, asked or made anything yet."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    for table in ONLY_GROWING:
        for act in ("UPDATE", "DELETE"):
            unless = f" WHEN {_ERASED[table]}" if act == "UPDATE" and table in _ERASED else ""
            _guard(db, f"{table}_no_{act.lower()}", f"BEFORE {act} ON {table}{unless}", f"{table} only grow")
    _guard(db, "api_tokens_no_delete", "BEFORE DELETE ON api_tokens", "a token is revoked, not deleted")
    widened = f"BEFORE UPDATE ON api_tokens WHEN {_TOKEN_STAYS} OR OLD.revoked_at IS NOT NULL"
    _guard(db, "api_tokens_no_update", widened, "a token never changes, and what is revoked stays so")


def _guard(db: Database, name: str, when: str, says: str) -> None:
    db.execute(f"CREATE TRIGGER {name} {when} BEGIN SELECT RAISE(ABORT, '{says}'); END")

"""Calendar feeds: secret addresses by which people's own programs read the calendar, under the hash of the secret."""

from __future__ import annotations

from sqlite_utils import Database

TABLES = """
CREATE TABLE feeds (
  id INTEGER PRIMARY KEY,
  person TEXT NOT NULL,
  label TEXT NOT NULL,
  language TEXT NOT NULL,
  secret_hash TEXT NOT NULL UNIQUE,
  made_at TEXT NOT NULL,
  used_at TEXT,
  revoked_at TEXT,
  revoked_by TEXT,
  CHECK ((revoked_at IS NULL) = (revoked_by IS NULL))
) STRICT;
CREATE INDEX feeds_by_person ON feeds (person, id);
"""

#: Only its use and its end are written later.
_STAYS = " OR ".join(
    f"OLD.{column} IS NOT NEW.{column}" for column in ("id", "person", "label", "language", "secret_hash", "made_at")
)


def up(db: Database) -> None:
    """Nobody has made one yet."""
    for statement in TABLES.split(";\n"):
        if statement.strip():
            db.execute(statement)
    _guard(db, "feeds_no_delete", "BEFORE DELETE ON feeds", "a feed is revoked, not deleted")
    widened = f"BEFORE UPDATE ON feeds WHEN {_STAYS} OR OLD.revoked_at IS NOT NULL"
    _guard(db, "feeds_no_update", widened, "a feed never changes, and what is revoked stays so")


def _guard(db: Database, name: str, when: str, says: str) -> None:
    db.execute(f"CREATE TRIGGER {name} {when} BEGIN SELECT RAISE(ABORT, '{says}'); END")

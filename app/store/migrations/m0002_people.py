"""People, their sign-ins, and failed tries. No token stands here in the clear: only its SHA-256."""

from __future__ import annotations

from sqlite_utils import Database

PEOPLE = """
CREATE TABLE person (
    name TEXT PRIMARY KEY,
    display_name TEXT NOT NULL,
    role TEXT NOT NULL CHECK (role IN ('clerk', 'dealer', 'lead', 'inspector', 'welder', 'manager')),
    dealer TEXT REFERENCES dealers (id),
    language TEXT NOT NULL,
    password TEXT NOT NULL,
    created_at TEXT NOT NULL,
    CHECK ((role = 'dealer') = (dealer IS NOT NULL))
) STRICT
"""

SIGN_INS = """
CREATE TABLE sign_in (
    token_hash TEXT PRIMARY KEY,
    person TEXT NOT NULL REFERENCES person (name) ON DELETE CASCADE,
    prices_shown INTEGER NOT NULL CHECK (prices_shown IN (0, 1)),
    language TEXT NOT NULL,
    created_at TEXT NOT NULL,
    expires_at TEXT NOT NULL
) STRICT
"""

FAILED_TRIES = """
CREATE TABLE failed_try (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    address TEXT NOT NULL,
    at TEXT NOT NULL
) STRICT
"""

INDEXES = (
    "CREATE INDEX sign_in_by_person ON sign_in (person)",
    "CREATE INDEX sign_in_by_expiry ON sign_in (expires_at)",
    "CREATE INDEX failed_try_by_name ON failed_try (name, at)",
    "CREATE INDEX failed_try_by_address ON failed_try (address, at)",
)


def up(db: Database) -> None:
    """Make the tables."""
    for statement in (PEOPLE, SIGN_INS, FAILED_TRIES, *INDEXES):
        db.conn.execute(statement)

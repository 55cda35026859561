"""Photographs kept with an enquiry, and which of them whoever says so of the donor car points to."""

from __future__ import annotations

from sqlite_utils import Database


def up(db: Database) -> None:
    """The bytes stand apart, so that a list reads none of them. Whoever said so before points to none."""
    db.execute(
        """CREATE TABLE photographs (
          id INTEGER PRIMARY KEY,
          enquiry INTEGER NOT NULL REFERENCES enquiries (id),
          shows TEXT NOT NULL,
          part TEXT NOT NULL,
          note TEXT NOT NULL,
          width INTEGER NOT NULL,
          height INTEGER NOT NULL,
          size INTEGER NOT NULL,
          at TEXT NOT NULL,
          by TEXT NOT NULL
        ) STRICT"""
    )
    db.execute("CREATE INDEX photographs_by_enquiry ON photographs (enquiry)")
    db.execute(
        """CREATE TABLE photograph_files (
          photograph INTEGER PRIMARY KEY REFERENCES photographs (id),
          sha256 TEXT NOT NULL,
          jpeg BLOB NOT NULL,
          small BLOB NOT NULL
        ) STRICT"""
    )
    db.execute("ALTER TABLE donor_pictures ADD COLUMN photograph INTEGER REFERENCES photographs (id)")

"""Calendar feeds, under the hash of their secret. What is revoked stays on the list."""

from __future__ import annotations

from datetime import datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.asking.feed import Feed
from app.store.texts import maybe_moment, moment, moment_text


def add(db: Database, feed: Feed, secret_hash: str) -> int:
    """The id of the new feed; the one it carries is not looked at."""
    plain = {name: getattr(feed, name) for name in ("person", "label", "language")}
    row = {**plain, "secret_hash": secret_hash, "made_at": moment_text(feed.made_at)}
    made: Any = db.table("feeds").insert(row).last_pk
    return int(made)


def get(db: Database, feed: int, person: str | None) -> Feed | None:
    """`person` None: anybody's."""
    row = db.execute("SELECT * FROM feeds WHERE id = ? AND (? IS NULL OR person = ?)", [feed, person, person])
    return _maybe(row.fetchone())


def by_hash(db: Database, secret_hash: str) -> Feed | None:
    return _maybe(db.execute("SELECT * FROM feeds WHERE secret_hash = ?", [secret_hash]).fetchone())


def every(db: Database, person: str | None) -> tuple[Feed, ...]:
    """The last made first, those that are revoked after the others."""
    sql = "SELECT * FROM feeds WHERE (? IS NULL OR person = ?) ORDER BY revoked_at IS NOT NULL, id DESC"
    return tuple(map(_feed, db.execute(sql, [person, person]).fetchall()))


def used(db: Database, feed: int, now: datetime) -> None:
    """Once it is revoked there is nothing left to note."""
    db.execute("UPDATE feeds SET used_at = ? WHERE id = ? AND revoked_at IS NULL", [moment_text(now), feed])


def revoke(db: Database, feed: int, by: str, now: datetime) -> None:
    """Said twice, it stays as it was said first."""
    sql = "UPDATE feeds SET revoked_at = ?, revoked_by = ? WHERE id = ? AND revoked_at IS NULL"
    db.execute(sql, [moment_text(now), by, feed])


def _maybe(row: Row | None) -> Feed | None:
    return None if row is None else _feed(row)


def _feed(row: Row) -> Feed:
    return Feed(
        made_at=moment(row["made_at"]),
        used_at=maybe_moment(row["used_at"]),
        revoked_at=maybe_moment(row["revoked_at"]),
        **{name: row[name] for name in ("id", "person", "label", "language", "revoked_by")},
    )

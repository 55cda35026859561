"""Published rule books: their text, and from when each is in force."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import datetime
from hashlib import sha256
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.books.published import Published
from app.store.texts import json_text, moment, moment_text

_ENTRY = "SELECT number, title, sha256, published_at, valid_from, by, note FROM books"


def add(
    db: Database,
    title: Mapping[str, str],
    text: str,
    by: str,
    now: datetime,
    valid_from: datetime,
    note: str,
    order: Sequence[str] | None = None,
) -> int:
    """The number that the new book got: one more than the last. `order`: of its diagram."""
    row = {
        "title": json_text(dict(title)),
        "text": text,
        "sha256": sha256(text.encode()).hexdigest(),
        "published_at": moment_text(now),
        "valid_from": moment_text(valid_from),
        "by": by,
        "note": note,
        "diagram_order": None if order is None else json.dumps(order),
    }
    number: Any = db.table("books").insert(row).last_pk
    return int(number)


def number_in_force(db: Database, at: datetime) -> int | None:
    """The last published of the books that are in force at that moment."""
    (number,) = db.execute("SELECT max(number) FROM books WHERE valid_from <= ?", [moment_text(at)]).fetchone()
    return None if number is None else int(number)


def text(db: Database, number: int) -> str | None:
    row = db.execute("SELECT text FROM books WHERE number = ?", [number]).fetchone()
    return None if row is None else str(row[0])


def order(db: Database, number: int) -> tuple[str, ...] | None:
    """The order of its diagram; None where none was stored."""
    row = db.execute("SELECT diagram_order FROM books WHERE number = ?", [number]).fetchone()
    return None if row is None or row[0] is None else tuple(json.loads(row[0]))


def entry(db: Database, number: int) -> Published | None:
    row = db.execute(f"{_ENTRY} WHERE number = ?", [number]).fetchone()
    return None if row is None else _published(row)


def entries(db: Database) -> tuple[Published, ...]:
    """All of them, the newest first."""
    return tuple(_published(row) for row in db.execute(f"{_ENTRY} ORDER BY number DESC"))


def _published(row: Row) -> Published:
    return Published(
        number=row["number"],
        title=json.loads(row["title"]),
        sha256=row["sha256"],
        published_at=moment(row["published_at"]),
        valid_from=moment(row["valid_from"]),
        by=row["by"],
        note=row["note"],
    )

"""By which book and tools a draft's author last looked at it, as far as he has said so. Rows are only added."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.store.texts import moment, moment_text


@dataclass(frozen=True, slots=True)
class Seen:
    """The numbers of a book and of the log of tools, and when they were looked at."""

    book: int
    tool_state: int
    at: datetime


def last(db: Database, revision: int) -> Seen | None:
    sql = "SELECT book, tool_state, at FROM drafts_seen WHERE revision = ? ORDER BY id DESC LIMIT 1"
    row = db.execute(sql, [revision]).fetchone()
    return None if row is None else Seen(row["book"], row["tool_state"], moment(row["at"]))


def add(db: Database, revision: int, seen: Seen, by: str) -> None:
    row = [revision, seen.book, seen.tool_state, moment_text(seen.at), by]
    db.execute("INSERT INTO drafts_seen (revision, book, tool_state, at, by) VALUES (?, ?, ?, ?, ?)", row)


def tool_number_at(db: Database, at: datetime) -> int:
    """How many entries the log of tools had at that moment."""
    (number,) = db.execute(
        "SELECT coalesce(max(number), 0) FROM tool_states WHERE at <= ?", [moment_text(at)]
    ).fetchone()
    return int(number)

"""Rule books being drafted. Every text that a draft has had is kept; the last is what it says."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from hashlib import sha256
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.books.book_draft import Act, BookDraft, Step
from app.domain.books.rehearsal import Rehearsal
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text

_DRAFTS = """
SELECT book_drafts.*, texts.version, texts.text, texts.sha256, texts.act, texts.about, texts.at, texts.by
FROM book_drafts JOIN book_draft_texts AS texts ON texts.draft = book_drafts.id
  AND texts.version = (SELECT max(version) FROM book_draft_texts WHERE draft = book_drafts.id)
"""


def add(db: Database, base: int, text: str, by: str, now: datetime) -> int:
    """The id of the new draft, its first version being `text`."""
    made: Any = db.table("book_drafts").insert({"base": base, "begun_at": moment_text(now), "begun_by": by}).last_pk
    write(db, int(made), 1, text, Act.BEGUN, "", by, now)
    return int(made)


def write(db: Database, draft: int, version: int, text: str, act: Act, about: str, by: str, now: datetime) -> None:
    """A new version of its text."""
    sha = sha256(text.encode()).hexdigest()
    row = [draft, version, text, sha, act.value, about, moment_text(now), by]
    sql = "INSERT INTO book_draft_texts (draft, version, text, sha256, act, about, at, by) VALUES (?,?,?,?,?,?,?,?)"
    db.execute(sql, row)


def get(db: Database, draft: int) -> BookDraft | None:
    row = db.execute(f"{_DRAFTS} WHERE book_drafts.id = ?", [draft]).fetchone()
    return None if row is None else _draft(row)


def page(db: Database, limit: int) -> tuple[BookDraft, ...]:
    """Open ones first, then the last closed."""
    order = "ORDER BY closed_at IS NOT NULL, closed_at DESC, book_drafts.id DESC LIMIT ?"
    return tuple(_draft(row) for row in db.execute(f"{_DRAFTS} {order}", [limit]))


def steps(db: Database, draft: int, limit: int) -> tuple[Step, ...]:
    """What was done to it, the last first."""
    sql = "SELECT version, act, about, at, by FROM book_draft_texts WHERE draft = ? ORDER BY version DESC LIMIT ?"
    return tuple(_step(row) for row in db.execute(sql, [draft, limit]))


def text(db: Database, draft: int, version: int) -> str | None:
    """The text it had as that version."""
    sql = "SELECT text FROM book_draft_texts WHERE draft = ? AND version = ?"
    row = db.execute(sql, [draft, version]).fetchone()
    return None if row is None else str(row[0])


def close(db: Database, draft: int, by: str, now: datetime, book: int | None = None) -> None:
    """Published as that book or, without one, thrown away."""
    sql = "UPDATE book_drafts SET closed_at = ?, closed_by = ?, book = ? WHERE id = ?"
    db.execute(sql, [moment_text(now), by, book, draft])


def add_rehearsal(db: Database, draft: int, sha256: str, found: Rehearsal, by: str, now: datetime) -> None:
    """What was found of the text with that hash."""
    row = {"draft": draft, "sha256": sha256, "against": found.against, "tool_state": found.tool_state}
    db.table("rehearsals").insert({**row, "found": frozen_text(found), "at": moment_text(now), "by": by})


def rehearsal(db: Database, draft: int, sha256: str, against: int, tool_state: int) -> Rehearsal | None:
    """The last of that very text, against that book in force and by those tools."""
    sql = "SELECT * FROM rehearsals WHERE draft = ? AND sha256 = ? AND against = ? AND tool_state = ?"
    row = db.execute(f"{sql} ORDER BY id DESC LIMIT 1", [draft, sha256, against, tool_state]).fetchone()
    return None if row is None else replace(thawed(Rehearsal, row["found"]), at=moment(row["at"]), by=row["by"])


def _draft(row: Row) -> BookDraft:
    return BookDraft(
        id=row["id"],
        base=row["base"],
        text=row["text"],
        sha256=row["sha256"],
        step=_step(row),
        begun_at=moment(row["begun_at"]),
        begun_by=row["begun_by"],
        closed_at=None if row["closed_at"] is None else moment(row["closed_at"]),
        closed_by=row["closed_by"],
        book=row["book"],
    )


def _step(row: Row) -> Step:
    return Step(row["version"], Act(row["act"]), row["about"], moment(row["at"]), row["by"])

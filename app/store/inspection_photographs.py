"""Photographs against a subject of a shell's inspection. They stay with the shell."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256

from sqlite_utils import Database

from app.store.texts import moment, moment_text


@dataclass(frozen=True, slots=True)
class SubjectPhotograph:
    """`subject`: id of what it shows, as in `gap:df-top-left`."""

    id: int
    subject: str
    note: str
    width: int
    height: int
    at: datetime
    by: str


def add(db: Database, shell: int, one: SubjectPhotograph, jpeg: bytes, small: bytes) -> int:
    """The id that it gets; the one it has is not looked at."""
    row = [shell, one.subject, one.note, one.width, one.height, moment_text(one.at), one.by]
    columns = "shell, subject, note, width, height, at, by, sha256, jpeg, small"
    values = ", ".join("?" * 10)
    sql = f"INSERT INTO inspection_photographs ({columns}) VALUES ({values}) RETURNING id"  # noqa: S608
    return int(db.execute(sql, [*row, sha256(jpeg).hexdigest(), jpeg, small]).fetchone()[0])


def of(db: Database, shell: int) -> tuple[SubjectPhotograph, ...]:
    """In the order in which they were added."""
    columns = "id, subject, note, width, height, at, by"
    sql = f"SELECT {columns} FROM inspection_photographs WHERE shell = ? ORDER BY id"  # noqa: S608
    rows = db.execute(sql, [shell]).fetchall()
    return tuple(
        SubjectPhotograph(
            row["id"], row["subject"], row["note"], row["width"], row["height"], moment(row["at"]), row["by"]
        )
        for row in rows
    )


def content(db: Database, shell: int, photograph: int, *, small: bool) -> bytes | None:
    """A JPEG; None where the shell has no such photograph."""
    sql = "SELECT jpeg, small FROM inspection_photographs WHERE shell = ? AND id = ?"
    row = db.execute(sql, [shell, photograph]).fetchone()
    return None if row is None else bytes(row["small" if small else "jpeg"])

"""Photographs of an enquiry and their bytes. Whose they are is told by the enquiry."""

from __future__ import annotations

from hashlib import sha256
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.quotations.photograph import Photograph, Shows
from app.store.texts import moment, moment_text

#: Which of the two sizes.
WHOLE, SMALL = "jpeg", "small"


def add(db: Database, one: Photograph, jpeg: bytes, small: bytes) -> int:
    """The id that it gets; the one it has is not looked at."""
    row = [
        one.enquiry,
        one.shows.value,
        one.part,
        one.note,
        one.width,
        one.height,
        one.size,
        moment_text(one.at),
        one.by,
    ]
    made = db.execute(
        "INSERT INTO photographs (enquiry, shows, part, note, width, height, size, at, by) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id",
        row,
    ).fetchone()[0]
    db.execute("INSERT INTO photograph_files VALUES (?, ?, ?, ?)", [made, sha256(jpeg).hexdigest(), jpeg, small])
    return int(made)


def of(db: Database, enquiry: int) -> tuple[Photograph, ...]:
    """In the order in which they were added."""
    rows = db.execute("SELECT * FROM photographs WHERE enquiry = ? ORDER BY id", [enquiry]).fetchall()
    return tuple(_photograph(row) for row in rows)


def get(db: Database, enquiry: int, photograph: int) -> Photograph | None:
    return next((one for one in of(db, enquiry) if one.id == photograph), None)


def content(db: Database, photograph: int, size: str = WHOLE) -> bytes:
    """A JPEG; `size` WHOLE or SMALL."""
    found = db.execute("SELECT jpeg, small FROM photograph_files WHERE photograph = ?", [photograph]).fetchone()
    return bytes(found[size])


def pointed_at(db: Database, photograph: int) -> bool:
    """Whether somebody who says so of the donor car points to it."""
    return db.execute("SELECT 1 FROM donor_pictures WHERE photograph = ?", [photograph]).fetchone() is not None


def remove(db: Database, photograph: int) -> None:
    db.execute("DELETE FROM photograph_files WHERE photograph = ?", [photograph])
    db.execute("DELETE FROM photographs WHERE id = ?", [photograph])


def _photograph(row: Row) -> Photograph:
    told = {name: row[name] for name in ("id", "enquiry", "part", "note", "width", "height", "size", "by")}
    return Photograph(**told, shows=Shows(row["shows"]), at=moment(row["at"]))

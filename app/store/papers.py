"""Papers as they went out, byte for byte. Each is kept at issue or when it is first asked for, and never changes."""

from __future__ import annotations

from hashlib import sha256

from sqlite_utils import Database

from app.domain.quotation import PaperKept


def add(db: Database, revision: int, language: str, size: str, pdf: bytes) -> None:
    row = [revision, language, size, sha256(pdf).hexdigest(), pdf]
    db.execute("INSERT INTO papers (revision, language, size, sha256, pdf) VALUES (?, ?, ?, ?, ?)", row)


def get(db: Database, revision: int, language: str, size: str) -> bytes | None:
    sql = "SELECT pdf FROM papers WHERE revision = ? AND language = ? AND size = ?"
    row = db.execute(sql, [revision, language, size]).fetchone()
    return None if row is None else bytes(row[0])


def kept(db: Database, revision: int) -> tuple[PaperKept, ...]:
    rows = db.execute("SELECT language, size, sha256 FROM papers WHERE revision = ? ORDER BY id", [revision])
    return tuple(PaperKept(*row) for row in rows)

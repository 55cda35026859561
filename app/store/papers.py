"""Papers as they went out, byte for byte. Each is kept at issue or when it is first asked for, and never changes."""

from __future__ import annotations

from hashlib import sha256

from sqlite_utils import Database

from app.domain.quotations.quotation import PaperKept

#: Where the bytes of a revision's papers are kept, by what paper it is.
QUOTATION, DIFFERENCE_SHEET = "papers", "difference_sheets"
CUT_SHEET, ACCEPTANCE_FORM = "cut_sheets", "acceptance_forms"


def add(db: Database, revision: int, language: str, size: str, pdf: bytes, paper: str = QUOTATION) -> None:
    row = {"revision": revision, "language": language, "size": size, "sha256": sha256(pdf).hexdigest(), "pdf": pdf}
    db.table(paper).insert(row)


def get(db: Database, revision: int, language: str, size: str, paper: str = QUOTATION) -> bytes | None:
    wanted = "revision = ? AND language = ? AND size = ?"
    row = next(iter(db.table(paper).rows_where(wanted, [revision, language, size], select="pdf")), None)
    return None if row is None else bytes(row["pdf"])


def kept(db: Database, revision: int) -> tuple[PaperKept, ...]:
    rows = db.execute("SELECT language, size, sha256 FROM papers WHERE revision = ? ORDER BY id", [revision])
    return tuple(PaperKept(*row) for row in rows)

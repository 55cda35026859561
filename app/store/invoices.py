"""Documents about orders' money, their UBL and their papers: each kept byte for byte, none ever changed."""

from __future__ import annotations

from datetime import date, datetime
from hashlib import sha256
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.money.invoice import Content, Document, Kind
from app.domain.quotations.quotation import PaperKept
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text

_ADD = """
INSERT INTO documents (number, order_id, kind, payment, credits, worksheet, dated, at, by, content, xml)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id
"""

_OWN = """
SELECT documents.* FROM documents JOIN orders ON orders.id = documents.order_id
JOIN quotations ON quotations.id = orders.quotation
WHERE (? IS NULL OR quotations.dealer = ?) AND documents.number = ?
"""


def add(
    db: Database,
    order: int,
    content: Content,
    xml: bytes | None,
    by: str,
    now: datetime,
    *,
    payment: int | None = None,
    credits: int | None = None,
    worksheet: int | None = None,
) -> int:
    head = [content.number, order, content.kind.value, payment, credits, worksheet, content.dated.isoformat()]
    (key,) = db.execute(_ADD, [*head, moment_text(now), by, frozen_text(content), xml]).fetchone()
    return int(key)


def of(db: Database, order: int) -> tuple[Document, ...]:
    """Of one order, in the order in which they were written."""
    rows = db.execute("SELECT * FROM documents WHERE order_id = ? ORDER BY id", [order]).fetchall()
    return tuple(_document(row) for row in rows)


def billed(db: Database, order: int) -> tuple[Document, ...]:
    """Of one order what bills the whole and what is credited on it: nothing of what was billed in advance."""
    sql = "SELECT * FROM documents WHERE order_id = ? AND kind IN ('balance', 'credit-note') ORDER BY id"
    return tuple(_document(row) for row in db.execute(sql, [order]).fetchall())


def get(db: Database, number: str, dealer: str | None) -> Document | None:
    """A dealer is shown no worksheet: it says what the firm thought."""
    row = db.execute(_OWN, [dealer, dealer, number]).fetchone()
    hidden = row is None or (dealer is not None and row["kind"] == Kind.WORKSHEET.value)
    return None if hidden else _document(row)


def between(db: Database, first: date, last: date) -> tuple[Document, ...]:
    """Those dated on these days, by day and number."""
    sql = "SELECT * FROM documents WHERE dated BETWEEN ? AND ? ORDER BY dated, number"
    rows = db.execute(sql, [first.isoformat(), last.isoformat()]).fetchall()
    return tuple(_document(row) for row in rows)


def xml(db: Database, document: int) -> bytes | None:
    """As it was written; a worksheet has none."""
    row = db.execute("SELECT xml FROM documents WHERE id = ?", [document]).fetchone()
    return None if row[0] is None else bytes(row[0])


def add_paper(db: Database, document: int, language: str, size: str, pdf: bytes) -> None:
    row = [document, language, size, sha256(pdf).hexdigest(), pdf]
    db.execute("INSERT INTO document_papers (document, language, size, sha256, pdf) VALUES (?, ?, ?, ?, ?)", row)


def paper(db: Database, document: int, language: str, size: str) -> bytes | None:
    sql = "SELECT pdf FROM document_papers WHERE document = ? AND language = ? AND size = ?"
    row = db.execute(sql, [document, language, size]).fetchone()
    return None if row is None else bytes(row[0])


def papers(db: Database, document: int) -> tuple[PaperKept, ...]:
    rows = db.execute("SELECT language, size, sha256 FROM document_papers WHERE document = ? ORDER BY id", [document])
    return tuple(PaperKept(*row) for row in rows)


def _document(row: Row) -> Document:
    return Document(
        id=row["id"],
        content=thawed(Content, row["content"]),
        at=moment(row["at"]),
        by=row["by"],
        payment=row["payment"],
        credits=row["credits"],
        worksheet=row["worksheet"],
    )

"""Confirmations of orders and their papers, byte for byte; each is of the revision that the order followed then."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from hashlib import sha256
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.orders.confirming import Confirmation, Fixed
from app.domain.quotations.quotation import PaperKept
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text

_ALL = """
SELECT confirmations.*, revisions.letter FROM confirmations
JOIN order_bases ON order_bases.id = confirmations.basis JOIN revisions ON revisions.id = order_bases.revision
WHERE order_bases.order_id = ? ORDER BY confirmations.id
"""

#: Of what orders follow now; a donor car is its series and number.
_OF_DONOR = """
SELECT orders.number FROM confirmations
JOIN order_bases ON order_bases.id = confirmations.basis
JOIN orders ON orders.id = order_bases.order_id JOIN revisions ON revisions.id = order_bases.revision
WHERE order_bases.id = (SELECT max(id) FROM order_bases WHERE order_id = orders.id) AND orders.id <> ?
  AND json_extract(frozen, '$.donor.series') = ? AND json_extract(frozen, '$.donor.number') = ? ORDER BY orders.id
"""


#: Of the revision that the order follows now.
_OF_QUOTATIONS = """
SELECT quotations.number FROM confirmations
JOIN order_bases ON order_bases.id = confirmations.basis JOIN orders ON orders.id = order_bases.order_id
JOIN quotations ON quotations.id = orders.quotation
WHERE order_bases.id = (SELECT max(id) FROM order_bases WHERE order_id = orders.id) AND quotations.number IN
"""


def add(db: Database, basis: int, fixed: Fixed, why: str, by: str, now: datetime) -> None:
    row = [basis, frozen_text(fixed), why, moment_text(now), by]
    db.execute("INSERT INTO confirmations (basis, content, why, at, by) VALUES (?, ?, ?, ?, ?)", row)


def of_order(db: Database, order: int) -> tuple[Confirmation, ...]:
    """All there ever were, the first first."""
    return tuple(_confirmation(row) for row in db.execute(_ALL, [order]).fetchall())


def confirmed(db: Database, quotations: Sequence[str]) -> frozenset[str]:
    """Those of the quotations, by number, whose order is confirmed as it stands."""
    marks = ", ".join("?" * len(quotations))
    return frozenset(row["number"] for row in db.execute(f"{_OF_QUOTATIONS} ({marks})", [*quotations]).fetchall())


def of_donor(db: Database, series: str, number: int, besides: int) -> tuple[str, ...]:
    """Numbers of the confirmed orders for that donor car, but the order `besides`."""
    return tuple(row["number"] for row in db.execute(_OF_DONOR, [besides, series, number]).fetchall())


def paper(db: Database, confirmation: int, language: str, size: str) -> bytes | None:
    sql = "SELECT pdf FROM confirmation_papers WHERE confirmation = ? AND language = ? AND size = ?"
    row = db.execute(sql, [confirmation, language, size]).fetchone()
    return None if row is None else bytes(row["pdf"])


def add_paper(db: Database, confirmation: int, language: str, size: str, pdf: bytes) -> None:
    sql = "INSERT INTO confirmation_papers (confirmation, language, size, sha256, pdf) VALUES (?, ?, ?, ?, ?)"
    db.execute(sql, [confirmation, language, size, sha256(pdf).hexdigest(), pdf])


def papers(db: Database, confirmation: int) -> tuple[PaperKept, ...]:
    sql = "SELECT language, size, sha256 FROM confirmation_papers WHERE confirmation = ? ORDER BY id"
    return tuple(PaperKept(*row) for row in db.execute(sql, [confirmation]))


def _confirmation(row: Row) -> Confirmation:
    fixed = thawed(Fixed, row["content"])
    return Confirmation(row["id"], row["letter"], moment(row["at"]), row["by"], row["why"], fixed)

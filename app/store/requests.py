"""What dealers ask the office for. `dealer` narrows a question to one dealer's own; None: everybody's."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.paging import Page, page
from app.domain.quotations.request import AskedLine, End, Request, Stage
from app.store.specifications import specification
from app.store.texts import moment, moment_text

_REQUESTS = """
SELECT requests.*, quotations.number, quotations.dealer, revisions.letter, customers.name AS customer,
  donors.number_text AS donor_number, how, why, request_ends.at AS ended_at, request_ends.by AS ended_by
FROM requests JOIN revisions ON revisions.id = requests.revision JOIN quotations ON quotations.id = revisions.quotation
JOIN enquiries ON enquiries.id = quotations.enquiry JOIN customers ON customers.id = enquiries.customer
JOIN donors ON donors.id = enquiries.donor LEFT JOIN request_ends ON request_ends.request = requests.id
WHERE (? IS NULL OR quotations.dealer = ?)
"""

_OWN = """
(? IS NULL OR ? = (
    SELECT dealer FROM revisions JOIN quotations ON quotations.id = quotation WHERE revisions.id = revision))
"""

#: Which are on a page, before anything else of them is read: of what waits the oldest at the top, of the rest the last
#: asked for first.
_WAITING = f"""
SELECT id FROM requests WHERE id > ? AND id NOT IN (SELECT request FROM request_ends) AND {_OWN} ORDER BY id LIMIT ?
"""  # noqa: S608 - texts of this file
_ENDED = f"""
SELECT id FROM request_ends JOIN requests ON id = request WHERE request < ? AND {_OWN} ORDER BY request DESC LIMIT ?
"""  # noqa: S608 - texts of this file
_LAST = 2**63 - 1


def add(db: Database, revision: int, note: str, by: str, now: datetime) -> int:
    """The id of the new request."""
    row = {"revision": revision, "note": note, "at": moment_text(now), "by": by}
    made: Any = db.table("requests").insert(row).last_pk
    return int(made)


def end(db: Database, request: int, how: End) -> None:
    """Once."""
    row = [request, how.stage.value, how.why, moment_text(how.at), how.by]
    db.execute("INSERT INTO request_ends (request, how, why, at, by) VALUES (?, ?, ?, ?, ?)", row)


def get(db: Database, request: int, dealer: str | None) -> Request | None:
    row = db.execute(f"{_REQUESTS} AND requests.id = ?", [dealer, dealer, request]).fetchone()
    return None if row is None else _request(db, row)


def of_quotation(db: Database, number: str) -> tuple[Request, ...]:
    """All that was asked for of it, the oldest first."""
    sql = f"{_REQUESTS} AND quotations.number = ? ORDER BY requests.id"
    return _requests(db, db.execute(sql, [None, None, number]).fetchall())


def listed(
    db: Database, dealer: str | None, size: int, after: tuple[bool, int] | None, *, waiting: bool
) -> Page[Request]:
    """What waits first, the oldest at the top; then, but for `waiting`, what has ended, the last asked for first.

    `after`: whether the last one of the page before had ended, and its id.
    """
    ended, last = after or (False, 0)
    ids = [] if ended else _ids(db, _WAITING, last, dealer, size + 1)
    if not waiting and len(ids) <= size:
        ids += _ids(db, _ENDED, last if ended else _LAST, dealer, size + 1 - len(ids))
    found = tuple(one for one in (get(db, key, None) for key in ids) if one is not None)
    return page(found, size, lambda one: (int(one.end is not None), one.id))


def _ids(db: Database, sql: str, last: int, dealer: str | None, limit: int) -> list[int]:
    return [row[0] for row in db.execute(sql, [last, dealer, dealer, limit]).fetchall()]


def _requests(db: Database, rows: Sequence[Row]) -> tuple[Request, ...]:
    return tuple(_request(db, row) for row in rows)


def _request(db: Database, row: Row) -> Request:
    ended = None
    if row["how"] is not None:
        ended = End(Stage(row["how"]), row["why"], moment(row["ended_at"]), row["ended_by"])
    plain = ("id", "number", "letter", "dealer", "customer", "donor_number", "note", "by")
    return Request(
        lines=_lines(db, row["revision"]), at=moment(row["at"]), end=ended, **{name: row[name] for name in plain}
    )


def _lines(db: Database, revision: int) -> tuple[AskedLine, ...]:
    sql = "SELECT quantity, specification FROM revision_lines WHERE revision = ? ORDER BY position"
    return tuple(
        AskedLine(row["quantity"], specification(row["specification"]))
        for row in db.execute(sql, [revision]).fetchall()
    )

"""Orders, what they follow, and their shells. `dealer` narrows a question to one dealer's own; None: everybody's."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.finding import sought_words
from app.domain.floor.shell import ShellState
from app.domain.orders.order import Basis, Deal, Order, OrderLine, OrderRow, Shell, TaxDecision
from app.domain.paging import Page, page
from app.domain.part import failed_parts
from app.domain.quotations.quotation import QuotationLine
from app.store import change_notes, history, parts, quotations, shells
from app.store.frozen import thawed
from app.store.sought import Where, narrow
from app.store.texts import moment, moment_text
from rules.money.totals import Totals

_ORDER = """
SELECT orders.*, quotations.number AS quotation_number, quotations.dealer AS dealer FROM orders
JOIN quotations ON quotations.id = orders.quotation WHERE (? IS NULL OR quotations.dealer = ?)
"""

_ROWS = """
SELECT orders.*, quotations.number AS quotation_number, quotations.dealer AS dealer, revisions.letter,
  json_extract(revisions.frozen, '$.customer.name') AS customer,
  (SELECT count(*) FROM shells JOIN order_lines ON order_lines.id = order_line
    WHERE basis = order_bases.id AND turn = 1) AS shells
FROM {source} CROSS JOIN order_bases ON order_bases.id = (SELECT max(id) FROM order_bases WHERE order_id = orders.id)
CROSS JOIN revisions ON revisions.id = order_bases.revision
"""

#: The list walked in its order; what was found, or is one dealer's own, walked in the same; those of one customer.
_WALKED = "orders CROSS JOIN quotations ON quotations.id = orders.quotation"
_FOUND = f"orders_sought CROSS JOIN {_WALKED.replace(' CROSS', ' ON orders.id = orders_sought.rowid CROSS', 1)}"
_OF_CUSTOMER = """
enquiries CROSS JOIN quotations ON quotations.enquiry = enquiries.id
CROSS JOIN orders ON orders.quotation = quotations.id
"""

#: What of the deal says how an order stands with its money.
_DEALS = """
SELECT orders.number, json_extract(revisions.frozen, '$.currency') AS currency,
  coalesce((SELECT json_extract(change_note_acts.content, '$.totals')
    FROM order_lines JOIN shells ON shells.order_line = order_lines.id
    JOIN change_notes ON change_notes.shell = shells.id
    JOIN change_note_acts ON note = change_notes.id AND act = 'signed'
    WHERE order_lines.basis = order_bases.id ORDER BY change_note_acts.id DESC LIMIT 1),
    json_extract(revisions.frozen, '$.totals')) AS totals,
  (SELECT tax_case FROM tax_decisions WHERE basis = order_bases.id ORDER BY id DESC LIMIT 1) AS tax_case
FROM orders JOIN order_bases ON order_bases.id = (SELECT max(id) FROM order_bases WHERE order_id = orders.id)
JOIN revisions ON revisions.id = order_bases.revision WHERE orders.number IN
"""

#: Lines of those of which a shell was cancelled.
_MAYBE_CANCELLED = """
SELECT orders.number, order_lines.id AS line FROM orders
JOIN order_lines ON basis = (SELECT max(id) FROM order_bases WHERE order_id = orders.id)
WHERE EXISTS (SELECT 1 FROM order_lines AS own WHERE own.basis = order_lines.basis AND (
  EXISTS (SELECT 1 FROM shells CROSS JOIN shell_deeds ON shell = shells.id
    WHERE order_line = own.id AND deed = 'cancelled')
  OR EXISTS (SELECT 1 FROM stock_allocations
    CROSS JOIN stock_shells ON stock_shells.id = stock CROSS JOIN shell_deeds ON shell_deeds.shell = stock_shells.shell
    WHERE stock_allocations.order_line = own.id AND (ended_why IS NULL OR ended_why = 'cancelled')
    AND deed = 'cancelled'))) AND orders.number IN
"""


def add(db: Database, number: str, quotation: str, by: str, now: datetime) -> int:
    """The key of the new order; what it follows is added next."""
    (of,) = db.execute("SELECT id FROM quotations WHERE number = ?", [quotation]).fetchone()
    return _insert(db, "orders (number, quotation, made_at, made_by)", [number, of, moment_text(now), by])


def follow(db: Database, order: int, revision: int, lines: Sequence[QuotationLine], by: str, now: datetime) -> None:
    """From now on the order is this revision's: its lines, and a planned shell for each piece."""
    basis = _insert(db, "order_bases (order_id, revision, at, by)", [order, revision, moment_text(now), by])
    for position, line in enumerate(lines):
        key = _insert(db, "order_lines (basis, position, revision_line)", [basis, position, line.id])
        for place in range(1, line.quantity + 1):
            _insert(db, "shells (order_line, place)", [key, place])


def decide(db: Database, basis: int, case: str, why: str, by: str, now: datetime) -> None:
    """Which tax case holds; the last word counts."""
    _insert(db, "tax_decisions (basis, tax_case, why, at, by)", [basis, case, why, moment_text(now), by])


def of_quotation(db: Database, quotation: str, dealer: str | None) -> tuple[int, str] | None:
    """Key and number of the order that was made of this quotation."""
    row = db.execute(f"{_ORDER} AND quotations.number = ?", [dealer, dealer, quotation]).fetchone()
    return None if row is None else (row["id"], row["number"])


def get(db: Database, number: str, dealer: str | None, now: datetime) -> Order | None:
    row = db.execute(f"{_ORDER} AND orders.number = ?", [dealer, dealer, number]).fetchone()
    return None if row is None else _order(db, row, now)


def rows(db: Database, dealer: str | None, text: str, size: int, after: int | None) -> Page[OrderRow]:
    """The last made first; every word of `text` is in a number, or where its enquiry is sought."""
    where, words = Where(), sought_words(text)
    found = bool(words) or dealer is not None
    place = "orders_sought.rowid" if found else "orders.id"
    narrow(where, "orders_sought", words, dealer=dealer)
    if dealer is not None:
        where.add("quotations.dealer = ?", dealer)
    if after is not None:
        where.add(f"{place} < ?", after)
    sql = f"{_ROWS.format(source=_FOUND if found else _WALKED)} WHERE {where.sql()} ORDER BY {place} DESC LIMIT ?"
    read = db.execute(sql, [*where.facts, size + 1]).fetchall()
    return page(_rows(db, read), size, lambda row: (row.id,))


def deals(db: Database, numbers: Sequence[str]) -> dict[str, Deal]:
    """Number of the order → what it was agreed to cost."""
    rows = db.execute(f"{_DEALS} ({', '.join('?' * len(numbers))})", [*numbers]).fetchall()
    return {row["number"]: Deal(row["currency"], thawed(Totals, row["totals"]), row["tax_case"]) for row in rows}


def _cancelled(db: Database, numbers: Sequence[str]) -> dict[str, bool]:
    """Those of the orders that have cancelled shells → whether all are; only shells of one that may be are read."""
    if not numbers:
        return {}
    rows = db.execute(f"{_MAYBE_CANCELLED} ({', '.join('?' * len(numbers))})", [*numbers]).fetchall()
    states: dict[str, list[ShellState]] = {}
    for row in rows:
        states.setdefault(row["number"], []).extend(shell.state for shell in shells.of_line(db, row["line"]))
    gone = ShellState.CANCELLED
    return {number: all(one is gone for one in own) for number, own in states.items() if gone in own}


def of_customer(db: Database, customer: int) -> tuple[OrderRow, ...]:
    """Those of all his enquiries, the last made first."""
    sql = f"{_ROWS.format(source=_OF_CUSTOMER)} WHERE enquiries.customer = ? ORDER BY orders.id DESC"
    return _rows(db, db.execute(sql, [customer]).fetchall())


def _order(db: Database, row: Row, now: datetime) -> Order:
    bases = _bases(db, row["id"])
    quotation = quotations.get(db, row["quotation_number"], None, now)
    revision = None if quotation is None else quotation.revision(bases[-1].letter)
    if revision is None:
        raise LookupError(row["number"])
    amended, moved_to = change_notes.of_basis(db, bases[-1].id)
    came = parts.of_order(db, row["id"])
    lines = _lines(db, bases[-1].id, {line.id: line for line in revision.lines})
    return Order(
        id=row["id"],
        number=row["number"],
        quotation=row["quotation_number"],
        dealer=row["dealer"],
        made_at=moment(row["made_at"]),
        made_by=row["made_by"],
        revision=revision,
        lines=tuple(_with_failed(lines, failed_parts(came))),
        bases=bases,
        decision=_decision(db, bases[-1].id),
        history=history.of(db, "order", row["number"]),
        amended=amended,
        moved_to=moved_to,
        parts=came,
    )


def _with_failed(lines: Sequence[OrderLine], failed: Mapping[int, tuple[str, ...]]) -> Iterator[OrderLine]:
    """Each shell with what failed of the parts that it still depends on. Places count on through all lines."""
    place = 0
    for line in lines:
        own: list[Shell] = []
        for shell in line.shells:
            place += 1
            needed = line.frozen_of(shell).depends.parts
            own.append(replace(shell, failed=tuple(rule for rule in failed.get(place, ()) if rule in needed)))
        yield replace(line, shells=tuple(own))


def _bases(db: Database, order: int) -> tuple[Basis, ...]:
    sql = "SELECT order_bases.*, letter FROM order_bases JOIN revisions ON revisions.id = revision WHERE order_id = ?"
    rows = db.execute(f"{sql} ORDER BY order_bases.id", [order]).fetchall()
    return tuple(Basis(row["id"], row["letter"], moment(row["at"]), row["by"]) for row in rows)


def _lines(db: Database, basis: int, of: dict[int, QuotationLine]) -> tuple[OrderLine, ...]:
    rows = db.execute("SELECT * FROM order_lines WHERE basis = ? ORDER BY position", [basis]).fetchall()
    return tuple(OrderLine(r["id"], r["position"], of[r["revision_line"]], shells.of_line(db, r["id"])) for r in rows)


def _decision(db: Database, basis: int) -> TaxDecision | None:
    row = db.execute("SELECT * FROM tax_decisions WHERE basis = ? ORDER BY id DESC LIMIT 1", [basis]).fetchone()
    return None if row is None else TaxDecision(row["tax_case"], row["why"], moment(row["at"]), row["by"])


def _rows(db: Database, read: Sequence[Row]) -> tuple[OrderRow, ...]:
    gone = _cancelled(db, [row["number"] for row in read])
    return tuple(_row(row, gone.get(row["number"])) for row in read)


def _row(row: Row, gone: bool | None) -> OrderRow:
    return OrderRow(
        id=row["id"],
        number=row["number"],
        quotation=row["quotation_number"],
        letter=row["letter"],
        customer=row["customer"],
        dealer=row["dealer"],
        made_at=moment(row["made_at"]),
        shells=row["shells"],
        cancelled=gone,
    )


def _insert(db: Database, into: str, values: list[object]) -> int:
    marks = ", ".join("?" * len(values))
    (key,) = db.execute(f"INSERT INTO {into} VALUES ({marks}) RETURNING id", values).fetchone()  # noqa: S608 - names of ours
    return int(key)


def currencies(db: Database, numbers: Sequence[str]) -> dict[str, str]:
    """Number of the order → the currency of what it follows."""
    marks = ", ".join("?" * len(numbers))
    rows = db.execute(f"{_CURRENCIES} AND orders.number IN ({marks})", [*numbers]).fetchall()
    return {row["number"]: row["currency"] for row in rows}


_CURRENCIES = """
SELECT orders.number, json_extract(revisions.frozen, '$.currency') AS currency
FROM orders JOIN order_bases ON order_bases.id = (SELECT max(id) FROM order_bases WHERE order_id = orders.id)
JOIN revisions ON revisions.id = order_bases.revision WHERE 1
"""

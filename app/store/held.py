"""All that is held on one customer, table by table and paper by paper. Reads only.

Of the tables the rows are told as they stand, so that nothing is left out by mistake; what only says how they hang
together, and the papers' bytes, are told apart.
"""

# ruff: noqa: S608 - what is put together here are texts of this file alone

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

_PERSON = "SELECT id FROM customers WHERE id = :customer OR merged_into = :customer"
_ENQUIRIES = "SELECT id FROM enquiries WHERE customer = :customer"
_QUOTATIONS = f"SELECT id FROM quotations WHERE enquiry IN ({_ENQUIRIES})"
_REVISIONS = f"SELECT id FROM revisions WHERE quotation IN ({_QUOTATIONS})"
_ORDERS = f"SELECT id FROM orders WHERE quotation IN ({_QUOTATIONS})"

#: Table, and which of its rows are his.
TABLES = (
    ("customers", "id = :customer OR merged_into = :customer"),
    ("erasures", "customer = :customer"),
    ("bank_proposals", f"customer IN ({_PERSON})"),
    ("bank_answers", f"proposal IN (SELECT id FROM bank_proposals WHERE customer IN ({_PERSON}))"),
    ("enquiries", "customer = :customer"),
    ("donors", "id IN (SELECT donor FROM enquiries WHERE customer = :customer)"),
    ("donor_pictures", "donor IN (SELECT donor FROM enquiries WHERE customer = :customer)"),
    ("photographs", f"enquiry IN ({_ENQUIRIES})"),
    ("quotations", f"id IN ({_QUOTATIONS})"),
    ("revisions", f"id IN ({_REVISIONS})"),
    ("revision_lines", f"revision IN ({_REVISIONS})"),
    ("revision_extras", f"revision IN ({_REVISIONS})"),
    ("revision_acts", f"revision IN ({_REVISIONS})"),
    ("approvals", f"quotation IN ({_QUOTATIONS})"),
    ("sendings", f"revision IN ({_REVISIONS})"),
    ("requests", f"revision IN ({_REVISIONS})"),
    ("request_ends", f"request IN (SELECT id FROM requests WHERE revision IN ({_REVISIONS}))"),
    ("orders", f"id IN ({_ORDERS})"),
    ("payments", f"order_id IN ({_ORDERS})"),
    ("payment_agreements", f"payment IN (SELECT id FROM payments WHERE order_id IN ({_ORDERS}))"),
    ("tax_decisions", f"basis IN (SELECT id FROM order_bases WHERE order_id IN ({_ORDERS}))"),
    ("documents", f"order_id IN ({_ORDERS})"),
    ("confirmations", f"basis IN (SELECT id FROM order_bases WHERE order_id IN ({_ORDERS}))"),
    (
        "history",
        "(thing = 'customer' AND name = CAST(:customer AS TEXT)) "
        "OR (thing = 'enquiry' AND name IN (SELECT reference FROM enquiries WHERE customer = :customer)) "
        f"OR (thing = 'quotation' AND name IN (SELECT number FROM quotations WHERE id IN ({_QUOTATIONS}))) "
        f"OR (thing = 'order' AND name IN (SELECT number FROM orders WHERE id IN ({_ORDERS})))",
    ),
)

#: Columns that only help to find the row.
_INNER = frozenset(("sought",))

_PAPERS = f"""
SELECT 'quotation' AS sort, number, revisions.letter, language, size, {{bytes}} FROM papers
  JOIN revisions ON revisions.id = revision JOIN quotations ON quotations.id = quotation
  WHERE revision IN ({_REVISIONS})
UNION ALL SELECT 'difference-sheet', number, revisions.letter, language, size, {{bytes}} FROM difference_sheets
  JOIN revisions ON revisions.id = revision JOIN quotations ON quotations.id = quotation
  WHERE revision IN ({_REVISIONS})
UNION ALL SELECT 'where-to-cut', number, revisions.letter, language, size, {{bytes}} FROM cut_sheets
  JOIN revisions ON revisions.id = revision JOIN quotations ON quotations.id = quotation
  WHERE revision IN ({_REVISIONS})
UNION ALL SELECT 'acceptance-form', number, revisions.letter, language, size, {{bytes}} FROM acceptance_forms
  JOIN revisions ON revisions.id = revision JOIN quotations ON quotations.id = quotation
  WHERE revision IN ({_REVISIONS})
UNION ALL SELECT kind, number, '', language, size, {{bytes}} FROM document_papers
  JOIN documents ON documents.id = document WHERE order_id IN ({_ORDERS})
UNION ALL SELECT 'order-confirmation', orders.number, revisions.letter, language, size, {{bytes}}
  FROM confirmation_papers
  JOIN confirmations ON confirmations.id = confirmation JOIN order_bases ON order_bases.id = basis
  JOIN orders ON orders.id = order_id JOIN revisions ON revisions.id = revision WHERE order_id IN ({_ORDERS})
"""


@dataclass(frozen=True, slots=True)
class HeldPaper:
    """`sort`: a paper of a revision, order-confirmation, acceptance-form, or a document's kind; `letter` or empty."""

    sort: str
    number: str
    letter: str
    language: str
    size: str


def rows(db: Database, customer: int) -> dict[str, list[dict[str, Any]]]:
    """Table → its rows that are his, as they stand; tables with none are left out."""
    told = {table: [*_rows(db, table, where, customer)] for table, where in TABLES}
    return {table: found for table, found in told.items() if found}


def papers(db: Database, customer: int) -> tuple[HeldPaper, ...]:
    """Which papers are kept of him."""
    sql = _PAPERS.format(bytes="NULL")
    return tuple(HeldPaper(*row[:5]) for row in db.execute(sql, {"customer": customer}).fetchall())


def paper_bytes(db: Database, customer: int) -> Iterator[tuple[HeldPaper, bytes]]:
    """Each paper with its bytes, as it went out."""
    for *named, pdf in db.execute(_PAPERS.format(bytes="pdf"), {"customer": customer}).fetchall():
        yield HeldPaper(*named), bytes(pdf)


def photograph_bytes(db: Database, customer: int) -> Iterator[tuple[int, bytes]]:
    """Number and JPEG of every photograph."""
    own = f"SELECT id FROM photographs WHERE enquiry IN ({_ENQUIRIES})"
    sql = f"SELECT photograph, jpeg FROM photograph_files WHERE photograph IN ({own})"
    for number, jpeg in db.execute(sql, {"customer": customer}).fetchall():
        yield number, bytes(jpeg)


def _rows(db: Database, table: str, where: str, customer: int) -> Iterator[dict[str, Any]]:
    found = db.execute(f"SELECT * FROM {table} WHERE {where}", {"customer": customer})
    for row in found.fetchall():
        yield {name: _told(row[name]) for name in row.keys() if name not in _INNER}  # noqa: SIM118 - a Row is no mapping


def _told(value: Any) -> Any:
    """Bytes as the text that they are; JSON opened, so that it can be read."""
    if isinstance(value, bytes):
        return value.decode("utf-8", "replace")
    if isinstance(value, str) and value[:1] in ("{", "["):
        return _opened(value)
    return value


def _opened(text: str) -> Mapping[str, Any] | list[Any] | str:
    try:
        opened: Mapping[str, Any] | list[Any] = json.loads(text)
    except ValueError:
        return text
    return opened

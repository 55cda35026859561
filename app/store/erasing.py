"""Erasing what says who a customer was, and telling beforehand what of it goes and what stays.

What an order follows stays whole: the quotation that was agreed, its papers, what was paid and the documents about it.
The triggers know of the same line (see the migration that brought erasures): nothing past it can be erased from here.
"""

# ruff: noqa: S608 - what is put together here are texts of this file alone

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.store import customers
from app.store.db import Store
from app.store.sought import INDEXES
from app.store.texts import moment_text

_ENQUIRIES = "SELECT id FROM enquiries WHERE customer = :customer"
_LOOSE = f"SELECT id FROM quotations WHERE enquiry IN ({_ENQUIRIES}) AND id NOT IN (SELECT quotation FROM orders)"
_ORDERED = f"SELECT id FROM quotations WHERE enquiry IN ({_ENQUIRIES}) AND id IN (SELECT quotation FROM orders)"
_OF_LOOSE = f"SELECT id FROM revisions WHERE quotation IN ({_LOOSE})"

#: Of a car for which something is on order the photographs stay, as what was agreed rests on them.
_LOOSE_PHOTOGRAPHS = (
    f"SELECT id FROM photographs WHERE enquiry IN ({_ENQUIRIES}) AND enquiry NOT IN "
    "(SELECT quotations.enquiry FROM quotations JOIN orders ON orders.quotation = quotations.id)"
)
_KEPT_PHOTOGRAPHS = f"SELECT id FROM photographs WHERE enquiry IN ({_ENQUIRIES}) AND id NOT IN ({_LOOSE_PHOTOGRAPHS})"
_PERSON = "SELECT id FROM customers WHERE id = :customer OR merged_into = :customer"

#: Pages of an index that are merged at once.
AT_ONCE = 500

#: In place of a name stands the customer's number, in every language the same.
_PEOPLE = """
UPDATE customers SET name = '№ ' || :customer, telephone = '', email = '', address = '', tax_number = '', sought = '',
  version = version + 1 WHERE id = :customer OR merged_into = :customer
"""

_FORGET_FROZEN = f"""
UPDATE revisions SET note = '', frozen = CASE WHEN frozen IS NULL THEN NULL ELSE json_set(json_replace(frozen,
    '$.donor.built.note', '', '$.donor.stands.note', '', '$.donor.ordered.note', ''),
  '$.customer.name', '№ ' || :customer, '$.customer.telephone', '', '$.customer.email', '', '$.customer.address', '',
  '$.customer.tax_number', '') END
WHERE id IN ({_OF_LOOSE})
"""

_STEPS = (
    _PEOPLE,
    f"DELETE FROM customer_keys WHERE customer IN ({_PERSON})",
    "UPDATE enquiries SET note = '', version = version + 1 WHERE customer = :customer",
    "UPDATE donor_pictures SET note = '' WHERE donor IN (SELECT donor FROM enquiries WHERE customer = :customer)",
    f"UPDATE donor_pictures SET photograph = NULL WHERE photograph IN ({_LOOSE_PHOTOGRAPHS})",
    f"DELETE FROM photograph_files WHERE photograph IN ({_LOOSE_PHOTOGRAPHS})",
    f"UPDATE photographs SET note = '' WHERE enquiry IN ({_ENQUIRIES})",
    f"DELETE FROM photographs WHERE id IN ({_LOOSE_PHOTOGRAPHS})",
    _FORGET_FROZEN,
    f"DELETE FROM papers WHERE revision IN ({_OF_LOOSE})",
    f"DELETE FROM difference_sheets WHERE revision IN ({_OF_LOOSE})",
    f"DELETE FROM cut_sheets WHERE revision IN ({_OF_LOOSE})",
    f"DELETE FROM acceptance_forms WHERE revision IN ({_OF_LOOSE})",
    f"DELETE FROM bank_answers WHERE proposal IN (SELECT id FROM bank_proposals WHERE customer IN ({_PERSON}))",
    f"DELETE FROM bank_proposals WHERE customer IN ({_PERSON})",
    f"UPDATE revision_acts SET said_by = '', why = '' WHERE revision IN ({_OF_LOOSE})",
    f"UPDATE sendings SET addressee = '', text = '' WHERE revision IN ({_OF_LOOSE})",
    f"UPDATE requests SET note = '' WHERE revision IN ({_OF_LOOSE})",
    f"UPDATE request_ends SET why = '' WHERE request IN (SELECT id FROM requests WHERE revision IN ({_OF_LOOSE}))",
    "UPDATE history SET facts = json_replace(facts, '$.to', '–', '$.said_by', '–') WHERE thing = 'quotation' "
    f"AND name IN (SELECT number FROM quotations WHERE id IN ({_LOOSE}))",
)

#: Of what goes: sort, and how its names or its count are read.
_GOES = (
    ("enquiries", "SELECT reference FROM enquiries WHERE customer = :customer ORDER BY id"),
    ("quotations", f"SELECT number FROM quotations WHERE id IN ({_LOOSE}) ORDER BY id"),
    (
        "papers",
        "SELECT number || ' ' || revisions.letter || ' ' || language FROM (SELECT revision, language, size FROM papers "
        "UNION ALL SELECT revision, language, size FROM difference_sheets "
        "UNION ALL SELECT revision, language, size FROM cut_sheets "
        "UNION ALL SELECT revision, language, size FROM acceptance_forms) "
        "JOIN revisions ON revisions.id = revision JOIN quotations ON quotations.id = quotation "
        f"WHERE revision IN ({_OF_LOOSE}) ORDER BY 1",
    ),
    ("photographs", f"SELECT CAST(id AS TEXT) FROM photographs WHERE id IN ({_LOOSE_PHOTOGRAPHS}) ORDER BY id"),
    ("bank", f"SELECT holder FROM bank_proposals WHERE customer IN ({_PERSON}) ORDER BY id"),
    ("letters", f"SELECT kind || ' ' || sent_on FROM sendings WHERE revision IN ({_OF_LOOSE}) ORDER BY id"),
)

_STAYS = (
    ("quotations", f"SELECT number FROM quotations WHERE id IN ({_ORDERED}) ORDER BY id"),
    ("photographs", f"SELECT CAST(id AS TEXT) FROM photographs WHERE id IN ({_KEPT_PHOTOGRAPHS}) ORDER BY id"),
    ("orders", f"SELECT number FROM orders WHERE quotation IN ({_ORDERED}) ORDER BY id"),
    (
        "documents",
        f"SELECT number FROM documents WHERE order_id IN (SELECT id FROM orders WHERE quotation IN ({_ORDERED})) "
        "ORDER BY id",
    ),
)


@dataclass(frozen=True, slots=True)
class Reach:
    """Sort → which.

    Go: enquiries, quotations, papers, photographs, bank, letters; stay: quotations, photographs, orders, documents.
    """

    goes: dict[str, tuple[str, ...]]
    stays: dict[str, tuple[str, ...]]


def reach(db: Database, customer: int) -> Reach:
    """What erasing would reach as things stand."""
    return Reach(_named(db, customer, _GOES), _named(db, customer, _STAYS))


def erase(db: Database, customer: int, why: str, by: str, now: datetime) -> None:
    """Blanks all that says who he was, and records that it was done: when, by whom and why."""
    row = [customer, why, moment_text(now), by]
    db.execute("INSERT INTO erasures (customer, why, at, by) VALUES (?, ?, ?, ?)", row)
    for step in _STEPS:
        db.execute(step, {"customer": customer})
    customers.seek_anew(db, customer)


def forget(store: Store) -> None:
    """What was taken out of an index of texts stands in its pieces until these are merged, and in the log of writes.

    They are merged step by step, each in a transaction of its own: others write in between.
    """
    for index in INDEXES:
        step = -AT_ONCE
        while _merged(store, index, step):
            step = AT_ONCE
    store.forget()


def _merged(store: Store, index: str, pages: int) -> bool:
    """Whether anything was left to merge. A negative number of pages begins with all pieces, however few."""
    with store.writing() as db:
        before = db.conn.total_changes
        db.execute(f"INSERT INTO {index} ({index}, rank) VALUES ('merge', ?)", [pages])
        return db.conn.total_changes - before >= 2


def _named(db: Database, customer: int, sorts: tuple[tuple[str, str], ...]) -> dict[str, tuple[str, ...]]:
    return {sort: tuple(row[0] for row in db.execute(sql, {"customer": customer}).fetchall()) for sort, sql in sorts}

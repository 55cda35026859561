"""Quotations, their revisions and lines. `dealer` narrows every question to one dealer's own; None: everybody's.

Draft rows are replaced as they are edited; once `issued_at` is set the triggers let nothing of a revision change.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.paging import Page, page
from app.domain.quotations.quotation import (
    DeliveryPlace,
    Draft,
    ExtraSold,
    Frozen,
    FrozenLine,
    Outcome,
    Quotation,
    QuotationLine,
    QuotationRow,
    Reason,
    Reply,
    Revision,
    Standing,
    replaced,
    standing_of,
)
from app.store import history, papers
from app.store.frozen import frozen_text, thawed
from app.store.sought import Where, look_through, narrow
from app.store.specifications import specification, specification_text
from app.store.texts import maybe_moment, moment, moment_text

_QUOTATION = "SELECT * FROM quotations WHERE (? IS NULL OR dealer = ?) AND number = ?"

_REVISIONS = """
SELECT revisions.*, act, at, by, why, said_at, said_by, reason FROM revisions
LEFT JOIN revision_acts ON revision_acts.revision = revisions.id
WHERE quotation = ? ORDER BY revisions.id
"""

_END = """
INSERT INTO revision_acts (revision, act, at, by, why, said_at, said_by, reason) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
"""

#: `out`: the letter of the last revision that left the house.
_ROWS = """
SELECT quotations.*, customers.name AS customer_name,
  (SELECT revisions.letter FROM last_out JOIN revisions ON revisions.id = last_out.revision
    WHERE last_out.quotation = quotations.id) AS out
FROM {source}
CROSS JOIN enquiries ON enquiries.id = quotations.enquiry
CROSS JOIN customers ON customers.id = enquiries.customer
"""

#: The list walked in its order, and what was found walked in the same.
_WALKED = "quotations"
_FOUND = "quotations_sought CROSS JOIN quotations ON quotations.turn = quotations_sought.rowid"

#: What is in date is always few: it is picked out first, then put in order.
_IN_DATE = "quotations INDEXED BY {index}"
_OF_CUSTOMER = "enquiries AS asking CROSS JOIN quotations ON quotations.enquiry = asking.id"
_IN_DATE_FOUND = f"{_IN_DATE} CROSS JOIN quotations_sought ON quotations_sought.rowid = quotations.turn"


@dataclass(frozen=True, slots=True)
class Issuing:
    """What issuing writes on a revision, beside its lines and papers."""

    book: int
    tool_state: int
    code: str
    valid_until: datetime
    frozen: Frozen


def add(db: Database, number: str, enquiry: int, dealer: str | None, draft: Draft, by: str, now: datetime) -> None:
    """A new quotation with revision A, a draft."""
    row = {
        "number": number,
        "enquiry": enquiry,
        "dealer": dealer,
        "letter": "A",
        "standing": Standing.DRAFT.value,
        "created_at": moment_text(now),
        "created_by": by,
        "updated_at": moment_text(now),
    }
    quotation: Any = db.table("quotations").insert(row).last_pk
    _add_revision(db, quotation, "A", draft, by, now)


def add_revision(db: Database, number: str, letter: str, draft: Draft, by: str, now: datetime) -> None:
    """A further draft; what is out keeps standing until the draft is issued."""
    quotation = _key(db, number)
    _add_revision(db, quotation, letter, draft, by, now)
    db.table("quotations").update(quotation, {"letter": letter, "updated_at": moment_text(now)})


def change(db: Database, number: str, revision: Revision, draft: Draft, now: datetime) -> None:
    """Replaces what was typed in a draft; its version goes up by one."""
    db.table("revisions").update(revision.id, {**_typed(draft), "version": revision.version + 1})
    db.execute("DELETE FROM revision_lines WHERE revision = ?", [revision.id])
    db.execute("DELETE FROM revision_extras WHERE revision = ?", [revision.id])
    _add_parts(db, revision.id, draft)
    db.execute("UPDATE quotations SET updated_at = ? WHERE number = ?", [moment_text(now), number])


def freeze_line(db: Database, line: int, frozen: FrozenLine) -> None:
    db.table("revision_lines").update(line, {"frozen": frozen_text(frozen)})


def issue(db: Database, number: str, revision: Revision, issuing: Issuing, by: str, now: datetime) -> None:
    """The last write on a revision: from here on nothing of it changes."""
    row = {
        "version": revision.version + 1,
        "book": issuing.book,
        "tool_state": issuing.tool_state,
        "issued_at": moment_text(now),
        "issued_by": by,
        "valid_until": moment_text(issuing.valid_until),
        "code": issuing.code,
        "frozen": frozen_text(issuing.frozen),
    }
    db.table("revisions").update(revision.id, row)
    summary = {"standing": Standing.ISSUED.value, "valid_until": row["valid_until"], "updated_at": row["issued_at"]}
    db.table("quotations").update(_key(db, number), summary)


def end(db: Database, revision: int, outcome: Outcome) -> None:
    """Accepted, declined or superseded: said once of a revision, beside it."""
    row = [revision, outcome.standing.value, moment_text(outcome.at), outcome.by, *_said(outcome.reply)]
    db.execute(_END, row)


def settle(db: Database, number: str, revision: int, outcome: Outcome) -> None:
    """The customer's yes or no: the revision's end, and with it how the quotation stands."""
    end(db, revision, outcome)
    summary = {"standing": outcome.standing.value, "updated_at": moment_text(outcome.at)}
    db.table("quotations").update(_key(db, number), summary)


def get(db: Database, number: str, dealer: str | None, now: datetime) -> Quotation | None:
    row = db.execute(_QUOTATION, [dealer, dealer, number]).fetchone()
    return None if row is None else _quotation(db, row, now)


def rows(
    db: Database,
    dealer: str | None,
    now: datetime,
    standing: Standing | None,
    words: Sequence[str],
    size: int,
    after: int | None,
) -> Page[QuotationRow]:
    """The last changed first; every one of `words` is in the number, or where its enquiry is sought."""
    where = Where()
    if standing is Standing.ISSUED:
        source = _in_date(where, dealer, words)
    elif words:
        source, stored = _FOUND, "issued" if standing is Standing.LAPSED else standing and standing.value
        narrow(where, "quotations_sought", words, dealer=dealer, standing=stored or "")
    else:
        source = _WALKED
    if dealer is not None:
        where.add("quotations.dealer = ?", dealer)
    _stands(where, standing, now)
    if after is not None:
        where.add("quotations_sought.rowid < ?" if source == _FOUND else "quotations.turn < ?", after)
    order = "quotations_sought.rowid" if source == _FOUND else "quotations.turn"
    sql = f"{_ROWS.format(source=source)} WHERE {where.sql()} ORDER BY {order} DESC LIMIT ?"
    found = db.execute(sql, [*where.facts, size + 1]).fetchall()
    return page(found, size, lambda row: (row["turn"],)).of(lambda row: _row(row, now))


def of_customer(db: Database, customer: int, now: datetime) -> tuple[QuotationRow, ...]:
    """Those of all his enquiries, the last changed first."""
    sql = f"{_ROWS.format(source=_OF_CUSTOMER)} WHERE asking.customer = ? ORDER BY quotations.turn DESC"
    return tuple(_row(row, now) for row in db.execute(sql, [customer]))


def by_code(db: Database, code: str) -> tuple[str, str] | None:
    sql = "SELECT number, revisions.letter FROM revisions JOIN quotations ON quotations.id = quotation WHERE code = ?"
    row = db.execute(sql, [code]).fetchone()
    return None if row is None else (row[0], row[1])


def _in_date(where: Where, dealer: str | None, words: Sequence[str]) -> str:
    index = "quotations_by_standing" if dealer is None else "quotations_of_dealer_by_lapse"
    look_through(where, "quotations_sought", words)
    return (_IN_DATE_FOUND if words else _IN_DATE).format(index=index)


def _stands(where: Where, standing: Standing | None, now: datetime) -> None:
    """Lapsed is read off the clock: stored as issued, with its last moment past."""
    match standing:
        case None:
            pass
        case Standing.LAPSED:
            where.add("quotations.standing = 'issued' AND +quotations.valid_until <= ?", moment_text(now))
        case Standing.ISSUED:
            where.add("quotations.standing = 'issued' AND quotations.valid_until > ?", moment_text(now))
        case _:
            where.add("quotations.standing = ?", standing.value)


def _key(db: Database, number: str) -> int:
    (key,) = db.execute("SELECT id FROM quotations WHERE number = ?", [number]).fetchone()
    return int(key)


def _add_revision(db: Database, quotation: int, letter: str, draft: Draft, by: str, now: datetime) -> None:
    row = {
        "quotation": quotation,
        "letter": letter,
        "version": 1,
        "created_at": moment_text(now),
        "created_by": by,
        **_typed(draft),
    }
    revision: Any = db.table("revisions").insert(row).last_pk
    _add_parts(db, revision, draft)


def _typed(draft: Draft) -> dict[str, Any]:
    return {
        "price_list": draft.price_list,
        "delivery_country": draft.delivery_place.country,
        "delivery_region": draft.delivery_place.region,
        "delivery_term": draft.delivery_place.term,
        "note": draft.note,
    }


def _add_parts(db: Database, revision: int, draft: Draft) -> None:
    for position, line in enumerate(draft.lines):
        row = [revision, position, line.quantity, specification_text(line.specification)]
        db.execute("INSERT INTO revision_lines (revision, position, quantity, specification) VALUES (?, ?, ?, ?)", row)
    for position, sold in enumerate(draft.extras):
        db.execute("INSERT INTO revision_extras VALUES (?, ?, ?, ?)", [revision, position, sold.extra, sold.quantity])


def _quotation(db: Database, row: Row, now: datetime) -> Quotation:
    revisions = db.execute(_REVISIONS, [row["id"]]).fetchall()
    return Quotation(
        number=row["number"],
        enquiry=row["enquiry"],
        dealer=row["dealer"],
        standing=_standing(row, now),
        revisions=replaced([_revision(db, revision, now) for revision in revisions]),
        history=history.of(db, "quotation", row["number"]),
    )


def _revision(db: Database, row: Row, now: datetime) -> Revision:
    valid_until = maybe_moment(row["valid_until"])
    return Revision(
        id=row["id"],
        letter=row["letter"],
        standing=standing_of(row["issued_at"] is not None, row["act"], valid_until, now),
        version=row["version"] + (row["act"] is not None),
        price_list=row["price_list"],
        delivery_place=DeliveryPlace(row["delivery_country"], row["delivery_region"], row["delivery_term"]),
        note=row["note"],
        lines=_lines(db, row["id"]),
        extras=_extras(db, row["id"]),
        created_at=moment(row["created_at"]),
        created_by=row["created_by"],
        book=row["book"],
        tool_state=row["tool_state"],
        issued_at=maybe_moment(row["issued_at"]),
        issued_by=row["issued_by"],
        valid_until=valid_until,
        code=row["code"],
        frozen=None if row["frozen"] is None else thawed(Frozen, row["frozen"]),
        papers=papers.kept(db, row["id"]),
        outcome=_outcome(row),
    )


def _said(reply: Reply | None) -> tuple[str | None, ...]:
    if reply is None:
        return ("", None, "", None)
    return (reply.note, moment_text(reply.at), reply.by, None if reply.reason is None else reply.reason.value)


def _outcome(row: Row) -> Outcome | None:
    if row["act"] is None:
        return None
    said_at = maybe_moment(row["said_at"])
    reason = None if row["reason"] is None else Reason(row["reason"])
    reply = None if said_at is None else Reply(said_at, row["said_by"], reason, row["why"])
    return Outcome(Standing(row["act"]), moment(row["at"]), row["by"], reply)


def _lines(db: Database, revision: int) -> tuple[QuotationLine, ...]:
    rows = db.execute("SELECT * FROM revision_lines WHERE revision = ? ORDER BY position", [revision])
    return tuple(_line(row) for row in rows)


def _line(row: Row) -> QuotationLine:
    frozen = None if row["frozen"] is None else thawed(FrozenLine, row["frozen"])
    return QuotationLine(row["id"], row["quantity"], specification(row["specification"]), frozen)


def _extras(db: Database, revision: int) -> tuple[ExtraSold, ...]:
    rows = db.execute("SELECT extra, quantity FROM revision_extras WHERE revision = ? ORDER BY position", [revision])
    return tuple(ExtraSold(extra, quantity) for extra, quantity in rows)


def _standing(row: Row, now: datetime) -> Standing:
    act = row["standing"] if row["standing"] in (Standing.ACCEPTED.value, Standing.DECLINED.value) else None
    return standing_of(row["standing"] != Standing.DRAFT.value, act, maybe_moment(row["valid_until"]), now)


def _row(row: Row, now: datetime) -> QuotationRow:
    return QuotationRow(
        number=row["number"],
        letter=row["out"] or row["letter"],
        draft=row["letter"] if row["out"] and row["out"] != row["letter"] else None,
        standing=_standing(row, now),
        enquiry=row["enquiry"],
        customer=row["customer_name"],
        dealer=row["dealer"],
        valid_until=maybe_moment(row["valid_until"]),
        updated_at=moment(row["updated_at"]),
    )

"""What the firm has said it would build, and what it is still writing, as little of each as a count of them needs.

For looking through all of them at once: no price line and no paper is read. Writes nothing.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.enquiry import DonorCar
from app.domain.quotation import Standing
from app.store.specifications import specification
from app.store.texts import maybe_moment, moment_text
from rules.specification import Donor

_PROMISES = """
SELECT quotations.number, revisions.id, revisions.letter, revisions.book, revisions.valid_until, revision_acts.act,
  json_extract(revisions.frozen, '$.customer.name') AS customer, json_extract(revisions.frozen, '$.donor') AS donor,
  json_extract(revisions.frozen, '$.currency') AS currency,
  json_extract(revisions.frozen, '$.totals.lines_net') AS net,
  (SELECT json_group_array(json_array(lines.quantity, json_extract(lines.frozen, '$.settled'),
      json_extract(lines.frozen, '$.depends.approvals')))
    FROM revision_lines AS lines WHERE lines.revision = revisions.id) AS lines
FROM quotations CROSS JOIN last_out ON last_out.quotation = quotations.id
CROSS JOIN revisions ON revisions.id = last_out.revision
LEFT JOIN revision_acts ON revision_acts.revision = revisions.id
WHERE {which} ORDER BY revisions.valid_until, revisions.id
"""

_OUT = "quotations.standing = 'accepted' OR (quotations.standing = 'issued' AND quotations.valid_until > ?)"
_LAPSING = "quotations.standing = 'issued' AND quotations.valid_until > ? AND quotations.valid_until <= ?"

_DRAFTS = """
SELECT quotations.number, revisions.id, revisions.letter, customers.name AS customer,
  donors.number_text, donors.series, donors.number AS car, donors.established, donors.gearbox
FROM revisions JOIN quotations ON quotations.id = revisions.quotation
JOIN enquiries ON enquiries.id = quotations.enquiry
JOIN customers ON customers.id = enquiries.customer
JOIN donors ON donors.id = enquiries.donor
WHERE revisions.issued_at IS NULL ORDER BY quotations.updated_at DESC, revisions.id DESC
"""

_DRAFT_LINES = "SELECT quantity, specification FROM revision_lines WHERE revision = ? ORDER BY position"


_STORED = """
SELECT json_extract(lines.frozen, '$.settled') AS settled, json_extract(revisions.frozen, '$.donor') AS donor
FROM revision_lines AS lines JOIN revisions ON revisions.id = lines.revision
WHERE revisions.issued_at IS NOT NULL ORDER BY lines.id DESC LIMIT ?
"""


@dataclass(frozen=True, slots=True)
class Stored:
    """`made`: option → choice, every option of the book it was quoted by."""

    donor: Donor
    made: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class PromisedLine:
    """`made`: option → choice: of what is out every option, of a draft what is answered."""

    quantity: int
    made: Mapping[str, str]
    approvals: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Promise:
    """A revision: ACCEPTED, ISSUED and in date, or a DRAFT.

    `book`, `valid_until`, `net` (of all its lines, before tax, in `currency`) are None of a draft.
    """

    number: str
    letter: str
    standing: Standing
    customer: str
    donor_text: str
    donor: Donor
    lines: tuple[PromisedLine, ...]
    book: int | None = None
    valid_until: datetime | None = None
    currency: str | None = None
    net: int | None = None


def out(db: Database, now: datetime) -> tuple[Promise, ...]:
    """Accepted, or issued and in date: what lapses first comes first."""
    return tuple(map(_out, db.execute(_PROMISES.format(which=_OUT), [moment_text(now)]).fetchall()))


def lapsing(db: Database, now: datetime, end: datetime) -> tuple[Promise, ...]:
    """Issued, in date and unanswered, of which the last moment comes by `end`: what lapses first comes first."""
    facts = [moment_text(now), moment_text(end)]
    return tuple(map(_out, db.execute(_PROMISES.format(which=_LAPSING), facts).fetchall()))


def drafts(db: Database) -> tuple[Promise, ...]:
    """Every draft, the last changed first."""
    return tuple(_draft(db, row) for row in db.execute(_DRAFTS).fetchall())


def stored(db: Database, limit: int) -> tuple[Stored, ...]:
    """The specifications of all lines that ever left the house, the last first."""
    return tuple(_stored(row) for row in db.execute(_STORED, [limit]).fetchall())


def _stored(row: Row) -> Stored:
    return Stored(_car(row["donor"]).facts(), json.loads(row["settled"]))


def _out(row: Row) -> Promise:
    car = _car(row["donor"])
    return Promise(
        number=row["number"],
        letter=row["letter"],
        standing=Standing.ISSUED if row["act"] is None else Standing(row["act"]),
        customer=row["customer"],
        donor_text=car.number_text,
        donor=car.facts(),
        lines=tuple(PromisedLine(count, made, tuple(waits)) for count, made, waits in json.loads(row["lines"])),
        book=row["book"],
        valid_until=maybe_moment(row["valid_until"]),
        currency=row["currency"],
        net=row["net"],
    )


def _car(text: str) -> DonorCar:
    return DonorCar(**{name: json.loads(text)[name] for name in _CAR})


_CAR = ("number_text", "series", "number", "established", "gearbox")


def _draft(db: Database, row: Row) -> Promise:
    car = DonorCar(row["number_text"], row["series"], row["car"], bool(row["established"]), row["gearbox"])
    rows = db.execute(_DRAFT_LINES, [row["id"]]).fetchall()
    return Promise(
        number=row["number"],
        letter=row["letter"],
        standing=Standing.DRAFT,
        customer=row["customer"],
        donor_text=car.number_text,
        donor=car.facts(),
        lines=tuple(PromisedLine(line["quantity"], specification(line["specification"]).choices()) for line in rows),
    )

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

from app.domain.quotations.enquiry import DonorCar
from app.domain.quotations.quotation import Standing
from app.store.specifications import specification
from app.store.texts import maybe_moment, moment_text, place
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

#: What was accepted is a promise for as long as anything of it has still to be built.
_TO_BUILD = """
SELECT orders.quotation FROM shells_under_way CROSS JOIN shells ON shells.id = shells_under_way.shell
CROSS JOIN order_lines ON order_lines.id = shells.order_line
CROSS JOIN order_bases ON order_bases.id = order_lines.basis
CROSS JOIN orders ON orders.id = order_bases.order_id WHERE shells_under_way.built = 0
"""

_ACCEPTED = f"quotations.id IN ({_TO_BUILD}) AND quotations.standing = 'accepted'"
_ISSUED = "quotations.standing = 'issued' AND quotations.valid_until > ?"
_LAPSING = "quotations.standing = 'issued' AND quotations.valid_until > ? AND quotations.valid_until <= ?"

_DRAFTS = """
SELECT quotations.number, revisions.id, revisions.letter, customers.name AS customer,
  donors.number_text, donors.series, donors.number AS car, donors.established, donors.gearbox
FROM quotations CROSS JOIN revisions ON revisions.quotation = quotations.id
JOIN enquiries ON enquiries.id = quotations.enquiry
JOIN customers ON customers.id = enquiries.customer
JOIN donors ON donors.id = enquiries.donor
WHERE revisions.issued_at IS NULL AND quotations.turn >= ? ORDER BY quotations.turn DESC, revisions.id DESC
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
    """Accepted and not all built, or issued and in date: what lapses first comes first."""
    which = f"({_ACCEPTED}) OR ({_ISSUED})"
    return tuple(map(_out, db.execute(_PROMISES.format(which=which), [moment_text(now)]).fetchall()))


def lapsing(db: Database, now: datetime, end: datetime) -> tuple[Promise, ...]:
    """Issued, in date and unanswered, of which the last moment comes by `end`: what lapses first comes first."""
    facts = [moment_text(now), moment_text(end)]
    return tuple(map(_out, db.execute(_PROMISES.format(which=_LAPSING), facts).fetchall()))


def drafts(db: Database, since: datetime | None = None) -> tuple[Promise, ...]:
    """Every draft, or those of quotations that somebody changed since: the last changed first."""
    first = 0 if since is None else place(since)
    return tuple(_draft(db, row) for row in db.execute(_DRAFTS, [first]).fetchall())


def count_drafts(db: Database) -> int:
    """All of them."""
    (count,) = db.execute("SELECT count(*) FROM revisions WHERE issued_at IS NULL").fetchone()
    return int(count)


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

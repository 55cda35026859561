"""What is out and unanswered, and what was written to whom about it. Sendings are only added."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.paging import Page, Position, page
from app.domain.quotations.chasing import Kind, Sending, Sent, Way
from app.store.frozen import thawed
from app.store.sought import Where
from app.store.texts import moment, moment_text
from rules.answer import Depends
from rules.money.totals import Totals

_UNANSWERED = """
SELECT quotations.id AS key, quotations.valid_until AS lapses, quotations.number,
  quotations.dealer, revisions.id, revisions.letter, revisions.book, revisions.issued_at,
  revisions.valid_until, customers.name, customers.telephone, customers.email,
  json_extract(revisions.frozen, '$.currency') AS currency, json_extract(revisions.frozen, '$.totals') AS totals,
  (SELECT json_group_array(json_array(json_extract(lines.frozen, '$.settled'), json_extract(lines.frozen, '$.depends')))
    FROM revision_lines AS lines WHERE lines.revision = revisions.id) AS lines
FROM quotations INDEXED BY {index}
CROSS JOIN last_out ON last_out.quotation = quotations.id
CROSS JOIN revisions ON revisions.id = last_out.revision
CROSS JOIN enquiries ON enquiries.id = quotations.enquiry
CROSS JOIN customers ON customers.id = enquiries.customer
"""

_IN_DATE = "ORDER BY quotations.valid_until, quotations.id LIMIT ?"
_LAPSED = "ORDER BY quotations.valid_until DESC, quotations.id DESC LIMIT ?"

_SENDINGS = """
SELECT sendings.* FROM sendings JOIN revisions ON revisions.id = sendings.revision
JOIN quotations ON quotations.id = revisions.quotation WHERE quotations.number = ? ORDER BY sendings.id
"""

_ADD = """
INSERT INTO sendings (revision, kind, way, addressee, sent_on, at, by, text) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
"""

_LAST = """
SELECT * FROM sendings WHERE id = (SELECT max(sendings.id) FROM sendings
  WHERE sendings.revision IN (SELECT id FROM revisions WHERE quotation =
    (SELECT id FROM quotations WHERE number = ?)))
"""


@dataclass(frozen=True, slots=True)
class Unanswered:
    """The last revision that left the house, of a quotation that nobody has answered.

    `lines`: of each its settled choices and what it depends on.
    """

    number: str
    letter: str
    dealer: str | None
    book: int
    issued_at: datetime
    valid_until: datetime
    customer: str
    telephone: str
    email: str
    currency: str
    totals: Totals
    lines: tuple[tuple[Mapping[str, str], Depends], ...]


def add(db: Database, revision: int, sending: Sending, by: str, now: datetime) -> None:
    day = (sending.sent_on or now.date()).isoformat()
    said = [sending.kind.value, sending.way.value, sending.addressee, day]
    row = [revision, *said, moment_text(now), by, sending.text]
    db.execute(_ADD, row)


def sent(db: Database, number: str) -> tuple[Sent, ...]:
    """Everything that was sent about any revision of the quotation, in the order in which it was recorded."""
    return tuple(_sent(row) for row in db.execute(_SENDINGS, [number]))


def last_sent(db: Database, number: str) -> Sent | None:
    row = db.execute(_LAST, [number]).fetchone()
    return None if row is None else _sent(row)


def unanswered(
    db: Database, dealer: str | None, now: datetime, *, lapsed: bool, size: int, after: Position | None
) -> Page[Unanswered]:
    """In date: what lapses first comes first. Lapsed: what lapsed last comes first.

    `after`: last moment and key of what the page before ended with.
    """
    where = Where()
    where.add("quotations.standing = 'issued'")
    if dealer is not None:
        where.add("quotations.dealer = ?", dealer)
    where.add(f"quotations.valid_until {'<=' if lapsed else '>'} ?", moment_text(now))
    if after is not None:
        where.add(f"(quotations.valid_until, quotations.id) {'<' if lapsed else '>'} (?, ?)", *after)
    index = "quotations_by_standing" if dealer is None else "quotations_of_dealer_by_lapse"
    sql = f"{_UNANSWERED.format(index=index)} WHERE {where.sql()} {_LAPSED if lapsed else _IN_DATE}"
    found = db.execute(sql, [*where.facts, size + 1]).fetchall()
    return page(found, size, lambda row: (row["lapses"], row["key"])).of(_unanswered)


def _unanswered(row: Row) -> Unanswered:
    plain = ("number", "letter", "dealer", "book", "telephone", "email", "currency")
    return Unanswered(
        customer=row["name"],
        issued_at=moment(row["issued_at"]),
        valid_until=moment(row["valid_until"]),
        totals=thawed(Totals, row["totals"]),
        lines=tuple((settled, thawed(Depends, json.dumps(depends))) for settled, depends in json.loads(row["lines"])),
        **{name: row[name] for name in plain},
    )


def _sent(row: Row) -> Sent:
    day = date.fromisoformat(row["sent_on"])
    sending = Sending(Kind(row["kind"]), Way(row["way"]), row["addressee"], day, row["text"])
    return Sent(sending, row["by"], moment(row["at"]))

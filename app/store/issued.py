"""What has left the house, read many at a time: for lists, which must not open every quotation. Writes nothing."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.paging import Page, page
from app.domain.quotations.quotation import EarlierYes, Frozen, FrozenLine, Standing
from app.store.frozen import thawed
from app.store.sought import Where, narrow
from app.store.texts import maybe_day, maybe_moment, moment, moment_text
from rules.answer import Depends
from rules.money.totals import Totals

_OUT = """
SELECT quotations.number, revisions.*, last_out.turn, revision_acts.act, enquiries.wanted_by FROM {source}
CROSS JOIN quotations ON quotations.id = last_out.quotation
CROSS JOIN enquiries ON enquiries.id = quotations.enquiry
CROSS JOIN revisions ON revisions.id = last_out.revision
LEFT JOIN revision_acts ON revision_acts.revision = revisions.id
"""

#: What is out in the order in which it left, and what was found of it in the same; that of one quotation.
_WALKED = "last_out"
_FOUND = "out_sought CROSS JOIN last_out ON last_out.turn = out_sought.rowid"
_OF_QUOTATION = "quotations AS named CROSS JOIN last_out ON last_out.quotation = named.id"

#: Parts of what was frozen, taken out by the database: a list needs no more of it.
_SUMMARIES = """
SELECT quotations.number, revisions.id, json_extract(revisions.frozen, '$.currency') AS currency,
  json_extract(revisions.frozen, '$.totals') AS totals,
  (SELECT json_group_array(json_extract(lines.frozen, '$.depends')) FROM revision_lines AS lines
    WHERE lines.revision = revisions.id) AS depends
FROM revisions JOIN quotations ON quotations.id = revisions.quotation WHERE revisions.issued_at IS NOT NULL
"""

#: A quotation has at most one live promise: the last revision that left the house.
_LAST_OUT = """
 NOT EXISTS (SELECT 1 FROM revisions AS later
  WHERE later.quotation = revisions.quotation AND later.issued_at IS NOT NULL AND later.id > revisions.id)
"""

#: What the workshop may still have to build: the last out, accepted, or neither answered nor lapsed.
_TO_COME = "(revision_acts.act = 'accepted' OR (revision_acts.act IS NULL AND revisions.valid_until > ?))"

#: What was accepted, and has had its place taken since.
_REPLACED_YESES = """
SELECT quotations.number, revisions.letter, COALESCE(said_at, at) AS said_at, said_by FROM revisions
JOIN quotations ON quotations.id = revisions.quotation
JOIN revision_acts ON revision_acts.revision = revisions.id
WHERE act = 'accepted'
"""


@dataclass(frozen=True, slots=True)
class IssuedLine:
    quantity: int
    frozen: FrozenLine


@dataclass(frozen=True, slots=True)
class IssuedRevision:
    """A revision as it went out. `standing`: ISSUED or what was said of it since; lapsing is not looked at here."""

    number: str
    letter: str
    standing: Standing
    book: int
    issued_at: datetime
    valid_until: datetime | None
    wanted_by: date | None
    frozen: Frozen
    lines: tuple[IssuedLine, ...]
    earlier_yes: EarlierYes | None = None


@dataclass(frozen=True, slots=True)
class IssuedSummary:
    """What a list says of a revision that went out."""

    currency: str
    totals: Totals
    depends: tuple[Depends, ...]


def last_of(db: Database, numbers: Sequence[str]) -> Mapping[str, IssuedSummary]:
    """Of the last revision that left the house, by quotation number; numbers with none are left out."""
    marks = ", ".join("?" * len(numbers))
    found = db.execute(f"{_SUMMARIES} AND quotations.number IN ({marks}) ORDER BY revisions.id", [*numbers]).fetchall()
    last = {row["number"]: row for row in found}
    return {number: _summary(row) for number, row in last.items()}


def replaced_yeses(db: Database, numbers: Sequence[str]) -> Mapping[str, EarlierYes]:
    """The last yes that a later revision took the place of, by quotation number; numbers with none are left out."""
    one_of = f" AND NOT {_LAST_OUT} AND quotations.number IN ({', '.join('?' * len(numbers))}) ORDER BY revisions.id"
    found = db.execute(f"{_REPLACED_YESES}{one_of}", [*numbers]).fetchall()
    return {row["number"]: EarlierYes(row["letter"], moment(row["said_at"]), row["said_by"]) for row in found}


def to_come(db: Database, now: datetime, words: Sequence[str], size: int, after: int | None) -> Page[IssuedRevision]:
    """Accepted or in date, the last issued first; every one of `words` is in the number or where it is sought."""
    where, turn = Where(), "out_sought.rowid" if words else "last_out.turn"
    narrow(where, "out_sought", words)
    if after is not None:
        where.add(f"{turn} < ?", after)
    where.add(_TO_COME, moment_text(now))
    sql = f"{_OUT.format(source=_FOUND if words else _WALKED)} WHERE {where.sql()} ORDER BY {turn} DESC LIMIT ?"
    found = page(db.execute(sql, [*where.facts, size + 1]).fetchall(), size, lambda row: (row["turn"],))
    yeses = replaced_yeses(db, [row["number"] for row in found.rows])
    return found.of(lambda row: _revision(db, row, yeses.get(row["number"])))


def one_to_come(db: Database, number: str, now: datetime) -> IssuedRevision | None:
    """That quotation's revision that may still be built."""
    sql = f"{_OUT.format(source=_OF_QUOTATION)} WHERE named.number = ? AND {_TO_COME}"
    row = db.execute(sql, [number, moment_text(now)]).fetchone()
    return None if row is None else _revision(db, row, replaced_yeses(db, [number]).get(number))


def _summary(row: Row) -> IssuedSummary:
    depends = tuple(thawed(Depends, json.dumps(one)) for one in json.loads(row["depends"]))
    return IssuedSummary(row["currency"], thawed(Totals, row["totals"]), depends)


def _revision(db: Database, row: Row, yes: EarlierYes | None) -> IssuedRevision:
    return IssuedRevision(
        number=row["number"],
        letter=row["letter"],
        standing=Standing.ISSUED if row["act"] is None else Standing(row["act"]),
        book=row["book"],
        issued_at=moment(row["issued_at"]),
        valid_until=maybe_moment(row["valid_until"]),
        wanted_by=maybe_day(row["wanted_by"]),
        frozen=thawed(Frozen, row["frozen"]),
        lines=_lines(db, row["id"]),
        earlier_yes=yes,
    )


def _lines(db: Database, revision: int) -> tuple[IssuedLine, ...]:
    rows = db.execute("SELECT quantity, frozen FROM revision_lines WHERE revision = ? ORDER BY position", [revision])
    return tuple(IssuedLine(row["quantity"], thawed(FrozenLine, row["frozen"])) for row in rows.fetchall())

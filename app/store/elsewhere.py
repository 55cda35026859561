"""Which quotations a donor car is on, of whomever: by its enquiry as it stands, and by what went out. Reads only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.quotations.quotation import Standing, standing_of
from app.store.texts import maybe_moment

#: A car that was written in wrongly at first is still on what went out by that number, so both are looked at.
_QUOTATIONS = """
SELECT quotations.id, quotations.number, quotations.letter, quotations.enquiry, quotations.standing,
  quotations.valid_until, customers.name AS customer, enquiries.dealer, last_out.letter AS out, last_out.issued_at
FROM quotations
JOIN enquiries ON enquiries.id = quotations.enquiry
JOIN customers ON customers.id = enquiries.customer
LEFT JOIN revisions AS last_out ON last_out.id = (
  SELECT id FROM revisions WHERE revisions.quotation = quotations.id AND issued_at IS NOT NULL ORDER BY id DESC LIMIT 1)
WHERE quotations.enquiry IS NOT ? AND quotations.id IN (
  SELECT quotations.id FROM donors JOIN enquiries ON enquiries.donor = donors.id
    JOIN quotations ON quotations.enquiry = enquiries.id WHERE donors.series = ? AND donors.number = ?
  UNION SELECT quotations.id FROM enquiries JOIN quotations ON quotations.enquiry = enquiries.id
    WHERE enquiries.car = ? AND enquiries.car <> ''
  UNION SELECT quotation FROM revisions WHERE frozen IS NOT NULL
    AND json_extract(frozen, '$.donor.series') = ? AND json_extract(frozen, '$.donor.number') = ?)
ORDER BY last_out.issued_at DESC, quotations.id DESC LIMIT ?
"""


@dataclass(frozen=True, slots=True)
class CarQuoted:
    """`letter`: of the last revision that left the house, of the draft where none did: then `issued_at` is None."""

    number: str
    letter: str
    standing: Standing
    issued_at: datetime | None
    customer: str
    dealer: str | None


def quotations_of(
    db: Database, series: str, number: int, car: str, besides: int | None, now: datetime, limit: int
) -> tuple[CarQuoted, ...]:
    """The last issued first, drafts at the end; none of the enquiry `besides`. `car`: the number as it reads."""
    facts = [besides, series, number, car, series, number, limit]
    return tuple(_quoted(row, now) for row in db.execute(_QUOTATIONS, facts).fetchall())


def _quoted(row: Row, now: datetime) -> CarQuoted:
    return CarQuoted(
        number=row["number"],
        letter=row["out"] or row["letter"],
        standing=_standing(row, now),
        issued_at=maybe_moment(row["issued_at"]),
        customer=row["customer"],
        dealer=row["dealer"],
    )


def _standing(row: Row, now: datetime) -> Standing:
    act = row["standing"] if row["standing"] in (Standing.ACCEPTED.value, Standing.DECLINED.value) else None
    return standing_of(row["out"] is not None, act, maybe_moment(row["valid_until"]), now)

"""What the manager watches: what was declined and why, discounts given, parts in place of tools, what was amiss."""

from __future__ import annotations

from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.inspection.subject import subject
from app.domain.quotations.quotation import Reason
from app.domain.watched import Amends, Amiss, Declined, Discounted
from app.store.texts import moment, moment_text, place

_DECLINED = """
SELECT quotations.number, revisions.letter, revision_acts.reason, revision_acts.why, revision_acts.at,
  json_extract(revisions.frozen, '$.currency') AS currency,
  json_extract(revisions.frozen, '$.totals.lines_net') AS net
FROM revision_acts JOIN revisions ON revisions.id = revision_acts.revision
JOIN quotations ON quotations.id = revisions.quotation
WHERE revision_acts.act = 'declined' AND revision_acts.at >= ? AND revision_acts.at < ?
ORDER BY revision_acts.at DESC, revisions.id DESC
"""

_DISCOUNTS = """
SELECT quotations.number, revisions.letter, quotations.dealer, revisions.issued_at AS at,
  json_extract(revisions.frozen, '$.currency') AS currency,
  sum(json_extract(price.value, '$.adjusted') * lines.quantity) AS listed,
  sum((json_extract(price.value, '$.discount') + json_extract(price.value, '$.several')) * lines.quantity) AS off
FROM last_out CROSS JOIN revisions ON revisions.id = last_out.revision
CROSS JOIN quotations ON quotations.id = revisions.quotation
CROSS JOIN revision_lines AS lines ON lines.revision = revisions.id
CROSS JOIN json_each(lines.frozen, '$.price.shell.lines') AS price
WHERE last_out.turn >= ? AND last_out.turn < ?
GROUP BY revisions.id HAVING off <> 0 ORDER BY revisions.issued_at DESC, revisions.id DESC
"""

_PARTS = """
SELECT part.value AS rule, sum(lines.quantity) AS shells
FROM last_out CROSS JOIN revision_lines AS lines ON lines.revision = last_out.revision
CROSS JOIN json_each(lines.frozen, '$.depends.parts') AS part
WHERE last_out.turn >= ? AND last_out.turn < ?
GROUP BY part.value
"""


_AMISS = """
SELECT 'rework' AS amends, subject, rework.shell, rework.at, what AS why, minutes,
  CASE WHEN ended.rework IS NULL THEN 'open' WHEN ended.withdrawn THEN 'withdrawn' ELSE 'mended' END AS standing,
  shells.serial, orders.number AS order_number
FROM rework JOIN shells ON shells.id = rework.shell {its_order}
LEFT JOIN rework_ends AS ended ON ended.rework = rework.id WHERE rework.at >= ? AND rework.at < ?
UNION ALL
SELECT 'concession', subject, concessions.shell, concessions.at, concessions.why, NULL,
  CASE said.granted WHEN 1 THEN 'granted' WHEN 0 THEN 'refused' ELSE 'asked' END, shells.serial, orders.number
FROM concessions JOIN shells ON shells.id = concessions.shell {its_order}
LEFT JOIN concession_answers AS said ON said.concession = concessions.id
WHERE concessions.at >= ? AND concessions.at < ?
ORDER BY 4 DESC
""".format(
    its_order="LEFT JOIN order_lines ON order_lines.id = shells.order_line "
    "LEFT JOIN order_bases ON order_bases.id = order_lines.basis LEFT JOIN orders ON orders.id = order_bases.order_id"
)


def amiss(db: Database, first: datetime, end: datetime) -> tuple[Amiss, ...]:
    """What was sent back for rework, and what was asked to stay as it is, the last first."""
    return tuple(map(_amiss, db.execute(_AMISS, [*_span(first, end), *_span(first, end)]).fetchall()))


def declined(db: Database, first: datetime, end: datetime) -> tuple[Declined, ...]:
    """What a customer said no to, the last first."""
    return tuple(map(_declined, db.execute(_DECLINED, _span(first, end)).fetchall()))


def discounted(db: Database, first: datetime, end: datetime) -> tuple[Discounted, ...]:
    """What was issued with something taken off, of each quotation its last revision that left the house."""
    return tuple(map(_discounted, db.execute(_DISCOUNTS, [place(first), place(end)]).fetchall()))


def waiting_for_parts(db: Database, first: datetime, end: datetime) -> dict[str, int]:
    """Part rule → shells issued that wait for it."""
    return {row["rule"]: row["shells"] for row in db.execute(_PARTS, [place(first), place(end)]).fetchall()}


def _span(first: datetime, end: datetime) -> list[str]:
    return [moment_text(first), moment_text(end)]


def _declined(row: Row) -> Declined:
    reason = Reason(row["reason"] or Reason.OTHER.value)
    return Declined(row["number"], row["letter"], reason, row["why"], moment(row["at"]), row["currency"], row["net"])


def _discounted(row: Row) -> Discounted:
    plain = ("number", "letter", "dealer", "currency", "listed", "off")
    return Discounted(at=moment(row["at"]), **{name: row[name] for name in plain})


def _amiss(row: Row) -> Amiss:
    about = subject(row["subject"])
    assert about is not None
    return Amiss(
        amends=Amends(row["amends"]),
        subject=about,
        shell=row["shell"],
        serial=row["serial"] or "",
        order=row["order_number"],
        at=moment(row["at"]),
        why=row["why"],
        standing=row["standing"],
        minutes=row["minutes"],
    )

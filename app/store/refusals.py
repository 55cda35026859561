"""What was asked for and could not be built, once for each enquiry and set of causes; what remaking a tool takes."""

from __future__ import annotations

import json
from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.quotations.refused import Refused, Remaking
from app.store.texts import json_text, moment, moment_text

_ADD = """
INSERT OR IGNORE INTO refusals (enquiry, quotation, causes, book, quantity, currency, net, at)
VALUES (?, ?, ?, ?, ?, ?, ?, ?)
"""


def known(db: Database, enquiry: int, causes: tuple[tuple[str, ...], ...]) -> bool:
    """Whether it was counted for that enquiry before."""
    sql = "SELECT 1 FROM refusals WHERE enquiry = ? AND causes = ?"
    return db.execute(sql, [enquiry, json_text(causes)]).fetchone() is not None


def add(db: Database, one: Refused) -> None:
    """Nothing where it was counted for that enquiry before."""
    what = [one.enquiry, one.quotation, json_text(one.causes), one.book]
    db.execute(_ADD, [*what, one.quantity, one.currency, one.net, moment_text(one.at)])


def between(db: Database, first: datetime, end: datetime) -> tuple[Refused, ...]:
    """From `first` on and before `end`, the last first."""
    sql = "SELECT * FROM refusals WHERE at >= ? AND at < ? ORDER BY at DESC, id DESC"
    return tuple(map(_refused, db.execute(sql, [moment_text(first), moment_text(end)]).fetchall()))


def say_remaking(db: Database, one: Remaking) -> None:
    row = [one.tool, one.cost, one.margin, one.currency, moment_text(one.at), one.by]
    db.execute("INSERT INTO remakings (tool, cost, margin, currency, at, by) VALUES (?, ?, ?, ?, ?, ?)", row)


def remakings(db: Database) -> dict[str, Remaking]:
    """Tool → what was said of it last."""
    rows = db.execute("SELECT * FROM remakings ORDER BY id").fetchall()
    return {row["tool"]: _remaking(row) for row in rows}


def _refused(row: Row) -> Refused:
    plain = ("enquiry", "quotation", "book", "quantity", "currency", "net")
    causes = tuple(tuple(cause) for cause in json.loads(row["causes"]))
    return Refused(causes=causes, at=moment(row["at"]), **{name: row[name] for name in plain})


def _remaking(row: Row) -> Remaking:
    return Remaking(row["tool"], row["cost"], row["margin"], row["currency"], moment(row["at"]), row["by"])

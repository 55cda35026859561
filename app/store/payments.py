"""What was paid for orders, what was agreed of it, what was a mistake; how short a deposit may be. It only grows."""

from __future__ import annotations

from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.money.payment import Agreement, Direction, Entry, Means, Mistake, Payment
from app.store.texts import moment, moment_text

_PAYMENTS = """
SELECT payments.*, documents.number AS document, payment_mistakes.why AS mistake_why,
  payment_mistakes.at AS mistake_at, payment_mistakes.by AS mistake_by,
  agreed.amount AS agreed_amount, agreed.rate, agreed.rate_day, agreed.agreed_by,
  agreed.at AS agreed_at, agreed.by AS agreed_recorder
FROM payments
LEFT JOIN documents ON documents.payment = payments.id
LEFT JOIN payment_mistakes ON payment_mistakes.payment = payments.id
LEFT JOIN payment_agreements AS agreed
  ON agreed.id = (SELECT max(id) FROM payment_agreements WHERE payment_agreements.payment = payments.id)
"""

_ADD = """
INSERT INTO payments (order_id, direction, amount, currency, day, means, note, at, by)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id
"""

_AGREE = """
INSERT INTO payment_agreements (payment, amount, rate, rate_day, agreed_by, at, by) VALUES (?, ?, ?, ?, ?, ?, ?)
"""


def add(db: Database, order: int, entry: Entry, by: str, now: datetime) -> int:
    kinds = (entry.direction.value, entry.amount, entry.currency, entry.day.isoformat(), entry.means.value)
    (key,) = db.execute(_ADD, [order, *kinds, entry.note, moment_text(now), by]).fetchone()
    return int(key)


def agree(db: Database, payment: int, agreed: Agreement) -> None:
    """The last word counts."""
    row = [payment, agreed.amount, agreed.rate, agreed.rate_day.isoformat(), agreed.agreed_by]
    db.execute(_AGREE, [*row, moment_text(agreed.at), agreed.by])


def mistaken(db: Database, payment: int, mistake: Mistake) -> None:
    row = [payment, mistake.why, moment_text(mistake.at), mistake.by]
    db.execute("INSERT INTO payment_mistakes (payment, why, at, by) VALUES (?, ?, ?, ?)", row)


def of(db: Database, order: int) -> tuple[Payment, ...]:
    """Of one order, as they were recorded."""
    rows = db.execute(f"{_PAYMENTS} WHERE payments.order_id = ? ORDER BY payments.id", [order]).fetchall()
    return tuple(_payment(row) for row in rows)


def between(db: Database, first: date, last: date) -> tuple[tuple[str, Payment], ...]:
    """(number of the order, payment) of those days, mistakes too."""
    sql = f"{_NUMBERED} WHERE payments.day BETWEEN ? AND ? ORDER BY payments.day, payments.id"
    rows = db.execute(sql, [first.isoformat(), last.isoformat()]).fetchall()
    return tuple((row["order_number"], _payment(row)) for row in rows)


_NUMBERED = _PAYMENTS.replace("SELECT payments.*", "SELECT orders.number AS order_number, payments.*").replace(
    "FROM payments\n", "FROM payments JOIN orders ON orders.id = payments.order_id\n"
)


def tolerance(db: Database, currency: str) -> int:
    """How much a deposit may be short by in this currency; 0 until the manager says otherwise."""
    sql = "SELECT amount FROM tolerances WHERE currency = ? ORDER BY id DESC LIMIT 1"
    row = db.execute(sql, [currency]).fetchone()
    return 0 if row is None else int(row[0])


def tolerate(db: Database, currency: str, amount: int, by: str, now: datetime) -> None:
    row = [currency, amount, moment_text(now), by]
    db.execute("INSERT INTO tolerances (currency, amount, at, by) VALUES (?, ?, ?, ?)", row)


def _payment(row: Row) -> Payment:
    return Payment(
        id=row["id"],
        entry=_entry(row),
        at=moment(row["at"]),
        by=row["by"],
        agreement=_agreement(row),
        mistake=None if row["mistake_at"] is None else _mistake(row),
        document=row["document"],
    )


def _entry(row: Row) -> Entry:
    day = date.fromisoformat(row["day"])
    kinds = (Direction(row["direction"]), row["amount"], row["currency"], day, Means(row["means"]))
    return Entry(*kinds, row["note"])


def _agreement(row: Row) -> Agreement | None:
    if row["agreed_at"] is None:
        return None
    when, at = date.fromisoformat(row["rate_day"]), moment(row["agreed_at"])
    return Agreement(row["agreed_amount"], row["rate"], when, row["agreed_by"], at, row["agreed_recorder"])


def _mistake(row: Row) -> Mistake:
    return Mistake(row["mistake_why"], moment(row["mistake_at"]), row["mistake_by"])

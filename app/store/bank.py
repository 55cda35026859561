"""Bank details as they were proposed, and what a second person said of each. It only grows."""

from __future__ import annotations

from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.money.bank import Account, Answer, Confirmation, How, Proposal, in_force
from app.store.texts import moment, moment_text

_PROPOSALS = """
SELECT bank_proposals.*, bank_answers.agreed, bank_answers.why, bank_answers.at AS answered_at,
  bank_answers.by AS answered_by
FROM bank_proposals LEFT JOIN bank_answers ON bank_answers.proposal = bank_proposals.id
"""

_ADD = """
INSERT INTO bank_proposals
  (customer, holder, bank, account, routing, how, spoken_to, known_number, confirmed_on, at, by)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id
"""


def add(db: Database, customer: int | None, account: Account, confirmed: Confirmation, by: str, now: datetime) -> int:
    details = [account.holder, account.bank, account.account, account.routing]
    said = [confirmed.how.value, confirmed.spoken_to, confirmed.known_number, confirmed.day.isoformat()]
    (key,) = db.execute(_ADD, [customer, *details, *said, moment_text(now), by]).fetchone()
    return int(key)


def answer(db: Database, proposal: int, answered: Answer) -> None:
    row = [proposal, int(answered.agreed), answered.why, moment_text(answered.at), answered.by]
    db.execute("INSERT INTO bank_answers (proposal, agreed, why, at, by) VALUES (?, ?, ?, ?, ?)", row)


def of(db: Database, customer: int | None) -> tuple[Proposal, ...]:
    """The customer's, or the firm's own, in the order in which they were made."""
    rows = db.execute(f"{_PROPOSALS} WHERE customer IS ? ORDER BY id", [customer]).fetchall()
    return tuple(_proposal(row) for row in rows)


def get(db: Database, proposal: int) -> Proposal | None:
    row = db.execute(f"{_PROPOSALS} WHERE bank_proposals.id = ?", [proposal]).fetchone()
    return None if row is None else _proposal(row)


def waiting(db: Database) -> tuple[Proposal, ...]:
    """All that nobody has answered, the first asked first."""
    rows = db.execute(f"{_PROPOSALS} WHERE bank_answers.proposal IS NULL ORDER BY id").fetchall()
    return tuple(_proposal(row) for row in rows)


def account(db: Database, customer: int | None) -> Account | None:
    """What holds; None until two people have agreed on something."""
    held = in_force(of(db, customer))
    return None if held is None else held.account


def _proposal(row: Row) -> Proposal:
    day = date.fromisoformat(row["confirmed_on"])
    confirmed = Confirmation(How(row["how"]), row["spoken_to"], day, row["known_number"])
    account_ = Account(row["holder"], row["account"], row["routing"], row["bank"])
    return Proposal(row["id"], row["customer"], account_, confirmed, moment(row["at"]), row["by"], _answer(row))


def _answer(row: Row) -> Answer | None:
    if row["answered_at"] is None:
        return None
    return Answer(bool(row["agreed"]), row["why"], moment(row["answered_at"]), row["answered_by"])

"""What was said of the evidence that a shell left the country. It only grows; decides nothing."""

from __future__ import annotations

from datetime import date
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.money.export import Evidence
from app.store.texts import moment, moment_text


def of(db: Database, despatch: str) -> tuple[Evidence, ...]:
    """All that was said of that despatch, by its number, in its order."""
    sql = """
    SELECT what, day, export_evidence.at, export_evidence.by FROM export_evidence
    JOIN despatches ON despatches.id = despatch WHERE number = ? ORDER BY export_evidence.id
    """
    return tuple(map(_evidence, db.execute(sql, [despatch]).fetchall()))


def say(db: Database, despatch: str, told: Evidence) -> None:
    """The last word counts."""
    row = [told.what, told.day and told.day.isoformat(), moment_text(told.at), told.by, despatch]
    sql = """
    INSERT INTO export_evidence (despatch, what, day, at, by) SELECT id, ?, ?, ?, ? FROM despatches WHERE number = ?
    """
    db.execute(sql, row)


def _evidence(row: Row) -> Evidence:
    day = None if row["day"] is None else date.fromisoformat(row["day"])
    return Evidence(row["what"], day, moment(row["at"]), row["by"])

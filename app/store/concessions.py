"""Concessions and their answers. Rows are only added."""

from __future__ import annotations

from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.inspection.concession import Concession, ConcessionAnswer
from app.domain.inspection.subject import Subject, subject
from app.store.texts import moment, moment_text

_ALL = """
SELECT concessions.*, granted, said.why AS said, said.day, said.at AS said_at, said.by AS said_by, reading
FROM concessions LEFT JOIN concession_answers AS said ON said.concession = concessions.id
JOIN concession_basis AS basis ON basis.concession = concessions.id
"""

#: What a yes will be to: all that has come of its shell by now.
_BASIS = """
INSERT INTO concession_basis (concession, reading)
SELECT ?, COALESCE(MAX(id), 0) FROM readings WHERE shell = ?
"""


def add(db: Database, shell: int, about: Subject, why: str, measured: str, limit: str, by: str, now: datetime) -> int:
    """The id of what is asked for."""
    row = [shell, str(about), why, measured, limit, moment_text(now), by]
    columns = "shell, subject, why, measured, target, at, by"
    sql = f"INSERT INTO concessions ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?) RETURNING id"  # noqa: S608 - names of ours
    (key,) = db.execute(sql, row).fetchone()
    db.execute(_BASIS, [key, shell])
    return int(key)


def answer(db: Database, concession: int, said: ConcessionAnswer) -> None:
    row = [concession, int(said.granted), said.why, said.day.isoformat(), moment_text(said.at), said.by]
    db.execute("INSERT INTO concession_answers (concession, granted, why, day, at, by) VALUES (?, ?, ?, ?, ?, ?)", row)


def of_shell(db: Database, shell: int) -> tuple[Concession, ...]:
    """All that was asked for, the first first."""
    return tuple(map(_concession, db.execute(f"{_ALL} WHERE shell = ? ORDER BY id", [shell]).fetchall()))


def waiting(db: Database) -> tuple[Concession, ...]:
    """What nobody has answered, the longest waiting first."""
    return tuple(map(_concession, db.execute(f"{_ALL} WHERE granted IS NULL ORDER BY id").fetchall()))


def _concession(row: Row) -> Concession:
    about = subject(row["subject"])
    assert about is not None
    return Concession(
        id=row["id"],
        shell=row["shell"],
        subject=about,
        why=row["why"],
        measured=row["measured"],
        limit=row["target"],
        asked_by=row["by"],
        asked_at=moment(row["at"]),
        answer=None if row["granted"] is None else _answer(row),
        seen=row["reading"],
    )


def _answer(row: Row) -> ConcessionAnswer:
    day = date.fromisoformat(row["day"])
    return ConcessionAnswer(bool(row["granted"]), row["said"], day, row["said_by"], moment(row["said_at"]))

"""Rework of shells and how it ended. Rows are only added."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.floor.rework import Rework, ReworkEnd
from app.domain.floor.shell import Deed, Done
from app.domain.inspection.subject import Subject, subject
from app.store.texts import moment, moment_text

_ALL = """
SELECT rework.*, withdrawn, minutes, note, day, ended.after AS ended_after, ended.at AS ended_at, ended.by AS ended_by,
  signed FROM rework LEFT JOIN rework_ends AS ended ON ended.rework = rework.id WHERE shell = ? ORDER BY rework.id
"""

_ADD = """
INSERT INTO rework (shell, subject, what, stage, at, by, after)
VALUES (?, ?, ?, ?, ?, ?, (SELECT max(id) FROM shell_deeds WHERE shell = ?)) RETURNING id
"""

_END = """
INSERT INTO rework_ends (rework, withdrawn, minutes, note, day, at, by, signed, after)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, (SELECT max(id) FROM shell_deeds WHERE shell = ?))
"""


def add(db: Database, shell: int, about: Subject, what: str, stage: str, by: str, now: datetime) -> int:
    """The id of what is to be mended, of a shell that was released."""
    (key,) = db.execute(_ADD, [shell, str(about), what, stage, moment_text(now), by, shell]).fetchone()
    return int(key)


def end(db: Database, found: Rework, said: ReworkEnd, by: str) -> None:
    """`by`: who was signed in; whoever mended it signed."""
    signed = None if said.withdrawn else said.by
    row = [
        found.id,
        int(said.withdrawn),
        said.minutes,
        said.note,
        said.day.isoformat(),
        moment_text(said.at),
        by,
        signed,
    ]
    db.execute(_END, [*row, found.shell])


def of_shell(db: Database, shell: int) -> tuple[Rework, ...]:
    """The first found first."""
    return tuple(map(_rework, db.execute(_ALL, [shell]).fetchall()))


def deeds_of(db: Database, shell: int) -> tuple[tuple[int, Done], ...]:
    """Sent back, mended, withdrawn: each with the deed of the shell that it came after, in order."""
    told = (deed for row in db.execute(_ALL, [shell]).fetchall() for deed in _deeds(row))
    return tuple(sorted(told, key=lambda one: (one[0], one[1].at)))


def _deeds(row: Row) -> Iterator[tuple[int, Done]]:
    stage = row["stage"]
    yield row["after"], Done(Deed.SENT_BACK, moment(row["at"]), row["by"], stage, row["what"])
    if row["withdrawn"] is not None:
        deed = Deed.WITHDRAWN if row["withdrawn"] else Deed.MENDED
        at = moment(row["ended_at"])
        yield row["ended_after"], Done(deed, at, row["ended_by"], stage, row["note"], row["signed"])


def _rework(row: Row) -> Rework:
    about = subject(row["subject"])
    assert about is not None
    ended = None if row["withdrawn"] is None else _end(row)
    return Rework(row["id"], row["shell"], about, row["what"], row["stage"], row["by"], moment(row["at"]), ended)


def _end(row: Row) -> ReworkEnd:
    by, day = row["signed"] or row["ended_by"], date.fromisoformat(row["day"])
    return ReworkEnd(bool(row["withdrawn"]), by, day, moment(row["ended_at"]), row["minutes"], row["note"])

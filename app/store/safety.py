"""Safety faults, their lifting, and the letters that went out because of them. They only grow. Decides nothing."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.floor.safety import AtFault, Lifted, SafetyFault, Subject, Written
from app.store.texts import json_text, maybe_day, moment, moment_text

_FAULTS = """
SELECT safety_faults.*, safety_liftings.at AS lifted_at, safety_liftings.by AS lifted_by,
  safety_liftings.why AS lifted_why
FROM safety_faults LEFT JOIN safety_liftings ON safety_liftings.fault = safety_faults.id
"""


def add(db: Database, at_fault: AtFault, why: Mapping[str, str], by: str, now: datetime) -> int:
    """Its key."""
    since = at_fault.since and at_fault.since.isoformat()
    row = [at_fault.subject.value, at_fault.of, since, json_text(dict(why)), moment_text(now), by]
    sql = "INSERT INTO safety_faults (subject, of, since, why, at, by) VALUES (?, ?, ?, ?, ?, ?) RETURNING id"
    (key,) = db.execute(sql, row).fetchone()
    return int(key)


def lift(db: Database, fault: int, why: str, by: str, now: datetime) -> None:
    row = [fault, why, moment_text(now), by]
    db.execute("INSERT INTO safety_liftings (fault, why, at, by) VALUES (?, ?, ?, ?)", row)


def write(db: Database, fault: int, shell: int, text: str, by: str, now: datetime) -> None:
    """The first letter about a shell is the one that counts: another is not put on record."""
    row = [fault, shell, text, moment_text(now), by]
    db.execute("INSERT OR IGNORE INTO safety_letters (fault, shell, text, at, by) VALUES (?, ?, ?, ?, ?)", row)


def every(db: Database) -> tuple[SafetyFault, ...]:
    """The last said first."""
    return tuple(map(_fault, db.execute(f"{_FAULTS} ORDER BY safety_faults.id DESC").fetchall()))


def standing(db: Database) -> tuple[SafetyFault, ...]:
    """Those that nobody has lifted, in the order in which they were said."""
    rows = db.execute(f"{_FAULTS} WHERE safety_liftings.id IS NULL ORDER BY safety_faults.id").fetchall()
    return tuple(map(_fault, rows))


def get(db: Database, fault: int) -> SafetyFault | None:
    row = db.execute(f"{_FAULTS} WHERE safety_faults.id = ?", [fault]).fetchone()
    return None if row is None else _fault(row)


def written(db: Database, fault: int) -> dict[int, Written]:
    """Key of the shell → that its owner was written to."""
    rows = db.execute("SELECT shell, at, by FROM safety_letters WHERE fault = ?", [fault]).fetchall()
    return {row["shell"]: Written(moment(row["at"]), row["by"]) for row in rows}


def _fault(row: Row) -> SafetyFault:
    lifted = row["lifted_at"] and Lifted(moment(row["lifted_at"]), row["lifted_by"], row["lifted_why"])
    at_fault = AtFault(Subject(row["subject"]), row["of"], maybe_day(row["since"]))
    return SafetyFault(row["id"], at_fault, json.loads(row["why"]), moment(row["at"]), row["by"], lifted or None)

"""Who did what, when. It only grows."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.quotations.quotation import Happening
from app.store.texts import json_text, moment, moment_text


def add(db: Database, thing: str, name: str, what: str, by: str, now: datetime, **facts: str) -> None:
    """`thing` and `name` say of what (quotation, Q-2026-00042); `what` is the id of a sentence that `facts` fill."""
    row = [thing, name, moment_text(now), by, what, json_text(facts)]
    db.execute("INSERT INTO history (thing, name, at, by, what, facts) VALUES (?, ?, ?, ?, ?, ?)", row)


@dataclass(frozen=True, slots=True)
class Entry:
    """What happened, and to what: `thing` and `name` as in quotation, Q-2026-00042."""

    thing: str
    name: str
    happening: Happening


def by(db: Database, person: str, *, limit: int, offset: int) -> tuple[Entry, ...]:
    """What he did, the last first."""
    rows = db.execute(
        "SELECT * FROM history WHERE by = ? ORDER BY at DESC, id DESC LIMIT ? OFFSET ?", [person, limit, offset]
    )
    return tuple(Entry(row["thing"], row["name"], _happening(row)) for row in rows)


def of(db: Database, thing: str, name: str) -> tuple[Happening, ...]:
    """In the order in which it happened."""
    rows = db.execute("SELECT * FROM history WHERE thing = ? AND name = ? ORDER BY id", [thing, name])
    return tuple(map(_happening, rows))


def _happening(row: Row) -> Happening:
    return Happening(moment(row["at"]), row["by"], row["what"], json.loads(row["facts"]))

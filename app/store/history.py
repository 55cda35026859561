"""Who did what, when. It only grows."""

from __future__ import annotations

import json
from datetime import datetime

from sqlite_utils import Database

from app.domain.quotation import Happening
from app.store.texts import json_text, moment, moment_text


def add(db: Database, thing: str, name: str, what: str, by: str, now: datetime, **facts: str) -> None:
    """`thing` and `name` say of what (quotation, Q-2026-00042); `what` is the id of a sentence that `facts` fill."""
    row = [thing, name, moment_text(now), by, what, json_text(facts)]
    db.execute("INSERT INTO history (thing, name, at, by, what, facts) VALUES (?, ?, ?, ?, ?, ?)", row)


def of(db: Database, thing: str, name: str) -> tuple[Happening, ...]:
    """In the order in which it happened."""
    rows = db.execute("SELECT * FROM history WHERE thing = ? AND name = ? ORDER BY id", [thing, name])
    return tuple(Happening(moment(row["at"]), row["by"], row["what"], json.loads(row["facts"])) for row in rows)

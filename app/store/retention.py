"""After how many months the data of those who never ordered are proposed for erasing, and whose these are."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.store.texts import moment, moment_text

#: Whoever never said yes, has nothing out that is in date, and of whom nothing has moved since: triggers keep who.
_DUE = """
SELECT customers.id, customers.name, customers.country, customers.dealer, moved
FROM customers_still CROSS JOIN customers ON customers.id = customers_still.customer
WHERE moved <= ? ORDER BY moved, customers_still.customer LIMIT ?
"""


@dataclass(frozen=True, slots=True)
class Due:
    """A customer of whom nothing has moved since `moved`."""

    id: int
    name: str
    country: str
    dealer: str | None
    moved: datetime


def months(db: Database) -> int | None:
    """None: nobody has said so yet, or it was taken back."""
    row = db.execute("SELECT months FROM retentions ORDER BY id DESC LIMIT 1").fetchone()
    return None if row is None else row[0]


def keep_for(db: Database, months: int | None, by: str, now: datetime) -> None:
    """From now on; what was said before stays recorded."""
    db.execute("INSERT INTO retentions (months, at, by) VALUES (?, ?, ?)", [months, moment_text(now), by])


def due(db: Database, before: datetime, limit: int) -> tuple[Due, ...]:
    """Those of whom nothing has moved since `before`, the longest still first."""
    rows = db.execute(_DUE, [moment_text(before), limit]).fetchall()
    return tuple(Due(row["id"], row["name"], row["country"], row["dealer"], moment(row["moved"])) for row in rows)

"""After how many months the data of those who never ordered are proposed for erasing, and whose these are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.paging import Page, Position, page
from app.store.texts import moment, moment_text

#: Whoever never said yes, has nothing out that is in date, and of whom nothing has moved since: triggers keep who.
_DUE = """
SELECT customers.id, customers.name, customers.country, customers.dealer, moved
FROM customers_still CROSS JOIN customers ON customers.id = customers_still.customer
WHERE moved <= ?{after} ORDER BY moved, customers_still.customer LIMIT ?
"""

_AFTER = " AND (moved, customers_still.customer) > (?, ?)"

_STILL = "SELECT customer FROM customers_still WHERE moved <= ? AND customer IN (%s)"


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


def due(db: Database, before: datetime, size: int, after: Position | None) -> Page[Due]:
    """Those of whom nothing has moved since `before`, the longest still first. `after`: moment and customer."""
    sql = _DUE.format(after="" if after is None else _AFTER)
    rows = db.execute(sql, [moment_text(before), *(after or ()), size + 1]).fetchall()
    found = [Due(row["id"], row["name"], row["country"], row["dealer"], moment(row["moved"])) for row in rows]
    return page(found, size, lambda one: (moment_text(one.moved), one.id))


def still(db: Database, before: datetime, customers: Sequence[int]) -> frozenset[int]:
    """Of these customers those of whom nothing has moved since `before`."""
    sql = _STILL % ", ".join("?" * len(customers))
    return frozenset(number for (number,) in db.execute(sql, [moment_text(before), *customers]))

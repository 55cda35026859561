"""Shells built for stock and what they take of the stages. Decides nothing."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from datetime import date, datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.stock import Source, StockAct, StockShell
from app.store.frozen import frozen_text, thawed
from app.store.texts import json_text, moment, moment_text
from app.store.visits import leave_only as shorten
from app.store.visits import visit_of, visit_rows
from rules.schedule.capacity import Visit
from rules.schedule.promise import Promise

_SHELLS = """
SELECT stock_shells.*, act, plan, because, stock_acts.at AS acted_at FROM stock_shells
JOIN stock_acts ON stock_acts.id = (SELECT max(id) FROM stock_acts WHERE shell = stock_shells.id)
"""

_UNALLOCATED = "NOT EXISTS (SELECT 1 FROM stock_allocations WHERE stock = stock_shells.id AND ended_at IS NULL)"


def add(
    db: Database,
    book: int,
    settled: Mapping[str, str],
    by: str,
    now: datetime,
    *,
    shell: int,
    source: Source = Source.BUILT,
    came_from: str = "",
    why: str = "",
) -> int:
    """`shell`: its key on the floor."""
    row = {"book": book, "settled": json_text(dict(settled)), "at": moment_text(now), "by": by, "shell": shell}
    (last,) = db.execute("SELECT coalesce(max(id), 0) FROM shell_deeds WHERE shell = ?", [shell]).fetchone()
    came = {"source": source.value, "came_from": came_from, "why": why, "last_deed": last}
    made: Any = db.table("stock_shells").insert({**row, **came}).last_pk
    return int(made)


def act(db: Database, shell: int, done: StockAct, plan: Promise, because: str, by: str, now: datetime) -> None:
    row = [shell, done.value, frozen_text(plan), because, moment_text(now), by]
    db.execute("INSERT INTO stock_acts (shell, act, plan, because, at, by) VALUES (?, ?, ?, ?, ?, ?)", row)


def give_up(db: Database, shell: int) -> None:
    """Its place in the plan."""
    db.execute("DELETE FROM stock_visits WHERE shell = ?", [shell])


def place(db: Database, shell: int, visits: Iterable[Visit], slot: date) -> None:
    """Into the plan, in which it has no place. IntegrityError where other stock has the slot."""
    rows = [(shell, *row) for row in visit_rows(visits, slot)]
    sql = "INSERT INTO stock_visits (shell, stage, first_day, end_day, kind, is_slot) VALUES (?, ?, ?, ?, ?, ?)"
    db.conn.executemany(sql, rows)


def every(db: Database) -> tuple[StockShell, ...]:
    """All that nobody's order has, but what was withdrawn, by their slots."""
    return _by_slot(db.execute(f"{_SHELLS} WHERE act <> 'withdrawn' AND {_UNALLOCATED}").fetchall())


def had(db: Database) -> tuple[StockShell, ...]:
    """Those that orders have, too."""
    return _by_slot(db.execute(f"{_SHELLS} WHERE act <> 'withdrawn'").fetchall())


def holding(db: Database, shell: int) -> StockShell | None:
    """As what the shell of the floor is in stock, if it is and no order has it."""
    sql = f"{_SHELLS} WHERE act <> 'withdrawn' AND {_UNALLOCATED} AND stock_shells.shell = ?"
    row = db.execute(f"{sql} ORDER BY stock_shells.id DESC LIMIT 1", [shell]).fetchone()
    return None if row is None else _shell(row)


def _by_slot(rows: Iterable[Row]) -> tuple[StockShell, ...]:
    return tuple(sorted(map(_shell, rows), key=lambda one: (one.plan.slot, one.id)))


def get(db: Database, shell: int) -> StockShell | None:
    row = db.execute(f"{_SHELLS} WHERE stock_shells.id = ?", [shell]).fetchone()
    return None if row is None else _shell(row)


def planned(db: Database, since: date, begun_by: date | None = None) -> list[Visit]:
    """Visits that end on `since` or later; `begun_by`: none of shells whose slot comes after that day."""
    sql = "SELECT * FROM stock_visits WHERE end_day >= ?"
    facts = [since.isoformat()]
    if begun_by is not None:
        sql += " AND shell NOT IN (SELECT shell FROM stock_visits WHERE is_slot = 1 AND first_day > ?)"
        facts.append(begun_by.isoformat())
    return [visit_of(row) for row in db.execute(sql, facts).fetchall()]


def waiting(db: Database, today: date) -> list[Visit]:
    """Visits of the shells whose slot is still to come."""
    sql = "SELECT * FROM stock_visits WHERE shell IN (SELECT shell FROM stock_visits "
    sql += "WHERE is_slot = 1 AND first_day > ?)"
    return [visit_of(row) for row in db.execute(sql, [today.isoformat()]).fetchall()]


def visits(db: Database, shell: int) -> tuple[Visit, ...]:
    rows = db.execute("SELECT * FROM stock_visits WHERE shell = ? ORDER BY first_day", [shell]).fetchall()
    return tuple(map(visit_of, rows))


def leave_only(db: Database, shell: int, left: Iterable[Visit]) -> None:
    """It takes no more of the stages than this, which is part of what it took."""
    shorten(db, "stock_visits WHERE shell = ?", [shell], visits(db, shell), left)


def cap(db: Database) -> int:
    """0 until the manager says otherwise."""
    row = db.execute("SELECT cap FROM stock_caps ORDER BY id DESC LIMIT 1").fetchone()
    return 0 if row is None else int(row[0])


def set_cap(db: Database, most: int, by: str, now: datetime) -> None:
    db.execute("INSERT INTO stock_caps (cap, at, by) VALUES (?, ?, ?)", [most, moment_text(now), by])


def _shell(row: Row) -> StockShell:
    return StockShell(
        id=row["id"],
        book=row["book"],
        settled=json.loads(row["settled"]),
        made_at=moment(row["at"]),
        made_by=row["by"],
        plan=thawed(Promise, row["plan"]),
        act=StockAct(row["act"]),
        at=moment(row["acted_at"]),
        because=row["because"],
        shell=row["shell"],
        source=Source(row["source"]),
        came_from=row["came_from"],
        why=row["why"],
        last_deed=row["last_deed"],
    )

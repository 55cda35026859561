"""Gates' days, promises made, and the plan of the stages as it stands. It decides nothing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.floor.gates import Key, Said
from app.domain.planning.slots import Act, Kept, Seat
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text
from app.store.visits import leave_only as shorten
from app.store.visits import visit_of, visit_rows
from rules.schedule.capacity import Visit
from rules.schedule.promise import Promise

_VISITING = """
SELECT visits.*, orders.number FROM visits JOIN orders ON orders.id = order_id
WHERE (order_id, seat) IN (SELECT order_id, seat FROM visits WHERE first_day <= ? AND end_day > ?)
ORDER BY first_day, order_id, seat
"""

_LAST_PROMISE = """
SELECT promises.*, orders.number, told.promise AS told FROM promises JOIN orders ON orders.id = promises.order_id
LEFT JOIN promises_untold AS untold ON untold.promise = promises.id LEFT JOIN promises AS told ON told.id = untold.told
WHERE promises.id = (SELECT max(id) FROM promises WHERE order_id = ? AND seat = ?) AND promises.act <> 'released'
"""


def say_gate(db: Database, order: int, seat: int, key: Key, day: date | None, by: str, now: datetime) -> None:
    """The last word counts. `seat` 0: the whole order; `day` None: what was said before counts no more."""
    row = [order, seat, *key, day and day.isoformat(), moment_text(now), by]
    db.execute("INSERT INTO gate_days (order_id, seat, gate, of, day, at, by) VALUES (?, ?, ?, ?, ?, ?, ?)", row)


def gates_said(db: Database, order: int) -> Mapping[tuple[int, Key], Said]:
    """(seat, gate) → what was last said of it."""
    rows = db.execute("SELECT * FROM gate_days WHERE order_id = ? ORDER BY id", [order]).fetchall()
    last = {(row["seat"], (row["gate"], row["of"])): row for row in rows}
    return {
        key: Said(date.fromisoformat(row["day"]), row["by"], moment(row["at"]))
        for key, row in last.items()
        if row["day"] is not None
    }


def planned(db: Database, since: date, without: Iterable[Seat] = ()) -> list[Visit]:
    """All visits that end on that day or later, but those of some shells."""
    left = {(seat.order, seat.place) for seat in without}
    rows = db.execute("SELECT * FROM visits WHERE end_day >= ?", [since.isoformat()]).fetchall()
    return [visit_of(row) for row in rows if (row["order_id"], row["seat"]) not in left]


def visiting(db: Database, first: date, last: date) -> Mapping[Seat, tuple[Visit, ...]]:
    """The shells that are at some stage between these days, both included, with all their visits."""
    rows = db.execute(_VISITING, [last.isoformat(), first.isoformat()]).fetchall()
    found: dict[Seat, list[Visit]] = {}
    for row in rows:
        found.setdefault(Seat(row["order_id"], row["number"], row["seat"]), []).append(visit_of(row))
    return {seat: tuple(own) for seat, own in found.items()}


def visits(db: Database, seat: Seat) -> list[Visit]:
    """What that shell takes of the stages."""
    rows = db.execute("SELECT * FROM visits WHERE order_id = ? AND seat = ?", [seat.order, seat.place]).fetchall()
    return [visit_of(row) for row in rows]


def promised(db: Database, seat: Seat) -> Kept | None:
    """The promise of the shell as it stands; None while it has no slot."""
    row = db.execute(_LAST_PROMISE, [seat.order, seat.place]).fetchone()
    if row is None:
        return None
    told = None if row["told"] is None else thawed(Promise, row["told"])
    return Kept(seat, thawed(Promise, row["promise"]), row["route"], moment(row["at"]), row["by"], told)


def held(db: Database, order: int) -> tuple[Kept, ...]:
    """The promises of an order's shells that have a slot, by their places."""
    rows = db.execute("SELECT DISTINCT seat FROM promises WHERE order_id = ? ORDER BY seat", [order]).fetchall()
    (number,) = db.execute("SELECT number FROM orders WHERE id = ?", [order]).fetchone()
    found = (promised(db, Seat(order, number, row["seat"])) for row in rows)
    return tuple(one for one in found if one is not None)


def holder(db: Database, slot: date) -> Seat | None:
    """The shell that has that day's slot."""
    sql = "SELECT visits.*, orders.number FROM visits JOIN orders ON orders.id = order_id"
    row = db.execute(f"{sql} WHERE is_slot = 1 AND first_day = ?", [slot.isoformat()]).fetchone()
    return None if row is None else Seat(row["order_id"], row["number"], row["seat"])


def give_up(db: Database, seat: Seat) -> None:
    """Its place in the plan; what was promised stays written."""
    db.execute("DELETE FROM visits WHERE order_id = ? AND seat = ?", [seat.order, seat.place])


def leave_only(db: Database, seat: Seat, left: Iterable[Visit]) -> None:
    """It takes no more of the stages than this, which is part of what it took."""
    shorten(db, "visits WHERE order_id = ? AND seat = ?", [seat.order, seat.place], visits(db, seat), left)


def plan(db: Database, seat: Seat, visits: Iterable[Visit], slot: date) -> None:
    """IntegrityError where another has the slot."""
    rows = [(seat.order, seat.place, *row) for row in visit_rows(visits, slot)]
    sql = "INSERT INTO visits (order_id, seat, stage, first_day, end_day, kind, is_slot) VALUES (?, ?, ?, ?, ?, ?, ?)"
    db.conn.executemany(sql, rows)


def promise(db: Database, seat: Seat, act: Act, made: Promise | None, route: str, by: str, now: datetime) -> None:
    """What the customer is told from now on; None with RELEASED."""
    text = None if made is None else frozen_text(made)
    row = [seat.order, seat.place, act.value, text, route, moment_text(now), by]
    db.execute("INSERT INTO promises (order_id, seat, act, promise, route, at, by) VALUES (?, ?, ?, ?, ?, ?, ?)", row)


def promise_untold(db: Database, had: Kept, made: Promise, route: str, by: str, now: datetime) -> None:
    """The shell has another slot, and the customer is told what he was told until somebody moves it."""
    last = "SELECT max(id) FROM promises WHERE order_id = ? AND seat = ?"
    (before,) = db.execute(last, [had.seat.order, had.seat.place]).fetchone()
    promise(db, had.seat, Act.MOVED, made, route, by, now)
    (key,) = db.execute(last, [had.seat.order, had.seat.place]).fetchone()
    told = "COALESCE((SELECT told FROM promises_untold WHERE promise = ?), ?)"
    db.execute(f"INSERT INTO promises_untold (promise, told) VALUES (?, {told})", [key, before, before])  # noqa: S608

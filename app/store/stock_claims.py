"""Who holds a shell of stock for a quotation, and which order has it; how long is held. Decides nothing.

That nobody has what another has is held by unique indexes: whoever comes second gets an IntegrityError.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.stock import Allocation, Reservation
from app.store.texts import json_text, moment, moment_text

#: Hours that a reservation holds until the manager says otherwise.
HOURS = 48

_ALLOCATIONS = """
SELECT had.*, yes IS NOT NULL AS confirmed, coalesce(yes < had.at, 0) AND NOT EXISTS (
  SELECT 1 FROM shell_deeds JOIN stock_shells ON stock_shells.shell = shell_deeds.shell
  WHERE stock_shells.id = had.stock AND shell_deeds.id > had.last_deed) AS loose
FROM (SELECT stock_allocations.*, orders.number, (SELECT max(confirmations.at) FROM confirmations
    WHERE basis = (SELECT max(id) FROM order_bases WHERE order_id = orders.id)) AS yes
  FROM stock_allocations JOIN orders ON orders.id = order_id WHERE ended_at IS NULL) AS had WHERE true
"""


def reserved(db: Database, stock: int) -> Reservation | None:
    """What was not ended by anybody; it may have run out."""
    row = db.execute("SELECT * FROM stock_reservations WHERE stock = ? AND ended_at IS NULL", [stock]).fetchone()
    return None if row is None else _reservation(row)


def reserve(
    db: Database,
    stock: int,
    quotation: str,
    settled: Mapping[str, str],
    by: str,
    now: datetime,
    until: datetime,
    *,
    extended: bool = False,
) -> None:
    """IntegrityError where another reservation was not ended."""
    row = [stock, quotation, json_text(dict(settled)), moment_text(now), by, moment_text(until), extended]
    db.execute(
        "INSERT INTO stock_reservations (stock, quotation, settled, at, by, until, extended) "
        "VALUES (?, ?, ?, ?, ?, ?, ?)",
        row,
    )


def extend(db: Database, reservation: int, until: datetime) -> None:
    sql = "UPDATE stock_reservations SET until = ?, extended = 1 WHERE id = ?"
    db.execute(sql, [moment_text(until), reservation])


def end_reservation(db: Database, stock: int, now: datetime) -> None:
    sql = "UPDATE stock_reservations SET ended_at = ? WHERE stock = ? AND ended_at IS NULL"
    db.execute(sql, [moment_text(now), stock])


def reserved_for(db: Database, quotation: str) -> tuple[tuple[int, Reservation], ...]:
    """Shell of stock and reservation, of all that nobody ended."""
    sql = "SELECT * FROM stock_reservations WHERE quotation = ? AND ended_at IS NULL ORDER BY id"
    return tuple((row["stock"], _reservation(row)) for row in db.execute(sql, [quotation]).fetchall())


def allocated(db: Database, stock: int) -> tuple[Allocation, bool] | None:
    """Which order has it, and whether that is confirmed as it stands."""
    row = db.execute(f"{_ALLOCATIONS} AND stock = ?", [stock]).fetchone()
    return None if row is None else (_allocation(row), bool(row["confirmed"]))


def allocate(db: Database, stock: int, order: int, seat: int, line: int, place: int, by: str, now: datetime) -> None:
    """IntegrityError where another order has it, or that place of the order is filled from stock."""
    row = [order, seat, line, place, moment_text(now), by, stock]
    db.execute(
        "INSERT INTO stock_allocations (stock, last_deed, order_id, seat, order_line, place, at, by) "
        "SELECT id, (SELECT coalesce(max(id), 0) FROM shell_deeds WHERE shell = stock_shells.shell), ?, ?, ?, ?, ?, ? "
        "FROM stock_shells WHERE id = ?",
        row,
    )


def was_allocated(db: Database, order: int, seat: int) -> bool:
    """Whether that shell of the order ever came from stock."""
    sql = "SELECT 1 FROM stock_allocations WHERE order_id = ? AND seat = ?"
    return db.execute(sql, [order, seat]).fetchone() is not None


def end_allocation(db: Database, stock: int, why: str, now: datetime) -> None:
    """`why`: given-up, or cancelled, by which the shell stays written in its place of the order."""
    sql = "UPDATE stock_allocations SET ended_at = ?, ended_why = ? WHERE stock = ? AND ended_at IS NULL"
    db.execute(sql, [moment_text(now), why, stock])


def allocated_shell(db: Database, shell: int) -> int | None:
    """The number in stock of the shell of the floor, where an order has it from there."""
    sql = "SELECT stock FROM stock_allocations JOIN stock_shells ON stock_shells.id = stock WHERE ended_at IS NULL "
    row = db.execute(f"{sql} AND stock_shells.shell = ?", [shell]).fetchone()
    return None if row is None else int(row["stock"])


def planned_before(db: Database, stock: int) -> int:
    """The key of the planned shell in whose place of an order it stood last."""
    sql = (
        "SELECT shells.id FROM shells JOIN stock_allocations ON stock_allocations.order_line = shells.order_line "
        "AND stock_allocations.place = shells.place WHERE stock = ? "
        "ORDER BY stock_allocations.id DESC, turn DESC LIMIT 1"
    )
    (key,) = db.execute(sql, [stock]).fetchone()
    return int(key)


def hours(db: Database) -> int:
    row = db.execute("SELECT hours FROM stock_terms ORDER BY id DESC LIMIT 1").fetchone()
    return HOURS if row is None else int(row["hours"])


def set_hours(db: Database, hours: int, by: str, now: datetime) -> None:
    db.execute("INSERT INTO stock_terms (hours, at, by) VALUES (?, ?, ?)", [hours, moment_text(now), by])


def _reservation(row: Row) -> Reservation:
    return Reservation(
        id=row["id"],
        quotation=row["quotation"],
        settled=json.loads(row["settled"]),
        at=moment(row["at"]),
        by=row["by"],
        until=moment(row["until"]),
        extended=bool(row["extended"]),
    )


def _allocation(row: Row) -> Allocation:
    return Allocation(
        row["order_id"], row["number"], row["seat"], moment(row["at"]), row["by"], row["last_deed"], bool(row["loose"])
    )

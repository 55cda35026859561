"""What is done to shells: it only grows, and a shell is read together with it. Decides nothing."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from datetime import datetime
from enum import Enum
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.floor.shell import Deed, Done, Stop
from app.domain.orders.order import Shell
from app.domain.stock import own_deeds, stock_number
from app.store import change_notes, kits, rework, sheet_revisions
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text

_ON_THE_FLOOR = """
SELECT orders.number FROM confirmations
JOIN order_bases ON order_bases.id = confirmations.basis JOIN orders ON orders.id = order_bases.order_id
WHERE order_bases.id = (SELECT max(id) FROM order_bases WHERE order_id = orders.id) AND {} ORDER BY orders.id
"""

_LEFT = """
order_bases.id IN (SELECT basis FROM shells_under_way CROSS JOIN shells ON shells.id = shell
  CROSS JOIN order_lines ON order_lines.id = shells.order_line WHERE {})
"""

_WITH_SERIAL = """
SELECT number FROM orders WHERE id IN (
  SELECT order_id FROM shells JOIN order_lines ON order_lines.id = shells.order_line
  JOIN order_bases ON order_bases.id = order_lines.basis WHERE serial IS NOT NULL
  UNION SELECT order_id FROM stock_allocations WHERE ended_at IS NULL) ORDER BY id
"""


class Left(Enum):
    """Which orders, by what is left to do: EVERY; UNDER_WAY: a shell has not left; TO_BUILD: one is not all built."""

    EVERY = "true"
    UNDER_WAY = _LEFT.format("true")
    TO_BUILD = _LEFT.format("built = 0")


_OF = """
SELECT orders.number FROM order_lines
JOIN order_bases ON order_bases.id = order_lines.basis JOIN orders ON orders.id = order_bases.order_id
WHERE order_lines.id = ?
"""

#: The line of the order that has the shell: the one that it went to from stock, or the one that it was begun for.
_LINE = """
SELECT coalesce(
  (SELECT stock_allocations.order_line FROM stock_allocations
    JOIN stock_shells ON stock_shells.id = stock_allocations.stock WHERE stock_shells.shell = :shell
    AND ended_why IS NOT 'given-up' ORDER BY stock_allocations.id DESC LIMIT 1),
  (SELECT order_line FROM shells WHERE id = :shell))
"""

#: What an order has from stock, and since when: it speaks for its place even after it was cancelled there.
_FROM_STOCK = """
SELECT shells.*, stock_allocations.place AS had_at, stock_allocations.last_deed AS last,
  stock_allocations.at AS since, ended_why, stock_shells.id AS stock
FROM stock_allocations JOIN stock_shells ON stock_shells.id = stock_allocations.stock
JOIN shells ON shells.id = stock_shells.shell
WHERE stock_allocations.order_line = ? AND ended_why IS NOT 'given-up' ORDER BY stock_allocations.id
"""


def of_line(db: Database, line: int) -> tuple[Shell, ...]:
    """One for each place: the last that was begun there, with those that it replaced, or what came from stock."""
    rows = db.execute("SELECT * FROM shells WHERE order_line = ? ORDER BY place, turn", [line]).fetchall()
    places: dict[int, Shell] = {}
    for row in rows:
        before = places.get(row["place"])
        replaced = () if before is None else (*before.replaced, before)
        places[row["place"]] = _shell(db, row, replaced)
    for row in db.execute(_FROM_STOCK, [line]).fetchall():
        at, had = row["had_at"], _from_stock(db, row)
        begun = places[at]
        if row["ended_why"] == "replaced":
            places[at] = dataclasses.replace(begun, replaced=(*begun.replaced, had))
        else:
            places[at] = dataclasses.replace(had, replaced=begun.replaced)
    return tuple(places.values())


def _from_stock(db: Database, row: Row) -> Shell:
    had = _shell(db, row, last=row["last"], since=moment(row["since"]))
    return dataclasses.replace(had, place=row["had_at"], stock=stock_number(row["stock"]))


def in_stock(db: Database, shell: int, last: int) -> Shell:
    """As it is to whoever got it when the deed of that key was the last."""
    row = db.execute("SELECT * FROM shells WHERE id = ?", [shell]).fetchone()
    return _shell(db, row, last=last)


def begin_for_stock(db: Database) -> int:
    """A planned shell of no order: its key."""
    (key,) = db.execute("INSERT INTO shells (order_line, place) VALUES (NULL, 1) RETURNING id").fetchone()
    return int(key)


def line_of(db: Database, shell: int) -> int | None:
    """The key of the order's line that the shell is of; None: it was built for stock, and no order ever had it."""
    (line,) = db.execute(_LINE, {"shell": shell}).fetchone()
    return None if line is None else int(line)


def order_of(db: Database, shell: int) -> str | None:
    """The number of the order that the shell is of; None as of its line."""
    row = db.execute(_OF, [line_of(db, shell)]).fetchone()
    return None if row is None else row["number"]


def orders_released(db: Database) -> tuple[str, ...]:
    """Numbers of the orders that have a shell with a serial, as they stand."""
    return tuple(row["number"] for row in db.execute(_WITH_SERIAL).fetchall())


def of_confirmed(db: Database, left: Left = Left.EVERY) -> tuple[str, ...]:
    """Numbers of the orders that are confirmed as they stand."""
    return tuple(row["number"] for row in db.execute(_ON_THE_FLOOR.format(left.value)).fetchall())


def release(db: Database, shell: int, serial: str, route: Sequence[Stop], done: Done) -> None:
    """Its serial is given once; its route is frozen with it."""
    db.execute("UPDATE shells SET serial = ? WHERE id = ?", [serial, shell])
    _add(db, shell, done, frozen_text(tuple(route)))


def add(db: Database, shell: int, done: Done) -> None:
    _add(db, shell, done, None)


def replace(db: Database, shell: int) -> int:
    """A new one in the place of a rejected one: the key of the new."""
    sql = (
        "INSERT INTO shells (order_line, place, turn) SELECT order_line, place, turn + 1 FROM shells WHERE id = ? "
        "RETURNING id"
    )
    (key,) = db.execute(sql, [shell]).fetchone()
    return int(key)


def _add(db: Database, shell: int, done: Done, route: str | None) -> None:
    row = [shell, done.deed.value, done.stage, done.why, route, moment_text(done.at), done.by, done.signed]
    db.execute(
        "INSERT INTO shell_deeds (shell, deed, stage, why, route, at, by, signed) VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row
    )


def _shell(
    db: Database,
    row: Row,
    replaced: tuple[Shell, ...] = (),
    last: int | None = None,
    since: datetime | None = None,
) -> Shell:
    """`last`, `since`: the deed that was the last when somebody got it from stock, and when he did; None: nobody did.

    A change note that was signed before that changed the steel, but says nothing of what the shell is to him.
    """
    rows = db.execute("SELECT * FROM shell_deeds WHERE shell = ? ORDER BY id", [row["id"]]).fetchall()
    route = next((one["route"] for one in rows if one["route"] is not None), None)
    signed = change_notes.changed(db, row["id"])
    changed = signed if last is None else None if since is None else change_notes.changed(db, row["id"], since)
    frozen = None if route is None else thawed(tuple[Stop, ...], route)
    return Shell(
        id=row["id"],
        place=row["place"],
        serial=row["serial"],
        turn=row["turn"],
        deeds=_deeds(rows, rework.deeds_of(db, row["id"]), last),
        route=(signed.route if signed is not None and signed.route else None) or frozen or (),
        replaced=replaced,
        sheets=sheet_revisions.of(db, row["id"]),
        changed=changed.frozen if changed is not None else replaced[-1].changed if replaced else None,
        kit=() if rows else kits.of(db, row["id"]),
    )


def _deeds(rows: Sequence[Row], mending: Sequence[tuple[int, Done]], last: int | None) -> tuple[Done, ...]:
    """In the order in which they were done; rework comes after the deed that was the last when it was said."""
    told = [((row["id"], 0), _done(row)) for row in rows] + [((after, 1), done) for after, done in mending]
    return own_deeds([(key, done) for (key, _), done in sorted(told, key=lambda one: one[0])], last)


def _done(row: Row) -> Done:
    return Done(Deed(row["deed"]), moment(row["at"]), row["by"], row["stage"], row["why"], row["signed"])


def code_of(db: Database, person: str) -> str | None:
    """The hash of the person's code, as it was last set."""
    sql = "SELECT hash FROM personal_codes WHERE person = ? ORDER BY id DESC LIMIT 1"
    row = db.execute(sql, [person]).fetchone()
    return None if row is None else row["hash"]


def set_code(db: Database, person: str, hashed: str, by: str, now: datetime) -> None:
    """The last one counts."""
    row = [person, hashed, moment_text(now), by]
    db.execute("INSERT INTO personal_codes (person, hash, at, by) VALUES (?, ?, ?, ?)", row)


def with_code(db: Database) -> frozenset[str]:
    """Who has a code."""
    return frozenset(row["person"] for row in db.execute("SELECT DISTINCT person FROM personal_codes"))

"""Customers' parts: what came, what was found, what became of it. It only grows, but for a shell's place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from hashlib import sha256
from sqlite3 import Row
from typing import TypeVar

from sqlite_utils import Database

from app.domain.part import NO_SHELL, ActDone, Arrival, Choice, Chosen, Finding, PartAct, PartPhotograph, Verdict
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text

T = TypeVar("T")

_LYING = """
SELECT DISTINCT orders.number FROM part_arrivals JOIN orders ON orders.id = order_id
WHERE NOT EXISTS (SELECT 1 FROM part_acts WHERE arrival = part_arrivals.id AND act = 'returned')
AND (coalesce((SELECT passed FROM part_verdicts WHERE arrival = part_arrivals.id ORDER BY id DESC LIMIT 1), 0) = 0
 OR seat > ?)
ORDER BY orders.id
"""

#: Which of the two sizes.
WHOLE, SMALL = "jpeg", "small"


def arrive(db: Database, order: int, place: int, rule: str, day: date, note: str, by: str, now: datetime) -> int:
    """The key of the arrival."""
    row = [order, place, rule, day.isoformat(), note, 0, moment_text(now), by]
    sql = (
        "INSERT INTO part_arrivals (order_id, seat, rule, day, note, by_hand, at, by) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?) RETURNING id"
    )
    return int(db.execute(sql, row).fetchone()[0])


def judge(db: Database, arrival: int, verdict: Verdict) -> None:
    """The last verdict counts."""
    findings, day = frozen_text(verdict.findings), verdict.day.isoformat()
    row = [arrival, int(verdict.passed), verdict.book, findings, verdict.why, day, moment_text(verdict.at)]
    db.execute(
        "INSERT INTO part_verdicts (arrival, passed, book, findings, why, day, at, by, signed) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [*row, verdict.by, verdict.signed],
    )


def act(db: Database, arrival: int, done: ActDone) -> None:
    row = [arrival, done.act.value, done.day.isoformat(), done.note, moment_text(done.at), done.by]
    db.execute("INSERT INTO part_acts (arrival, act, day, note, at, by) VALUES (?, ?, ?, ?, ?, ?)", row)


def choose(db: Database, arrival: int, chosen: Chosen) -> None:
    """The last choice counts."""
    what = [chosen.day and chosen.day.isoformat(), chosen.option, chosen.instead, chosen.letter]
    db.execute(
        "INSERT INTO part_choices (arrival, choice, day, option, instead, letter, note, at, by) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [arrival, chosen.choice.value, *what, chosen.note, moment_text(chosen.at), chosen.by],
    )


def photograph(db: Database, arrival: int, one: PartPhotograph, jpeg: bytes, small: bytes) -> int:
    """The id that it gets; the one it has is not looked at."""
    row = [arrival, one.note, one.width, one.height, one.size, moment_text(one.at), one.by]
    sql = (
        "INSERT INTO part_photographs (arrival, note, width, height, size, at, by) "
        "VALUES (?, ?, ?, ?, ?, ?, ?) RETURNING id"
    )
    made = int(db.execute(sql, row).fetchone()[0])
    kept = [made, sha256(jpeg).hexdigest(), jpeg, small]
    db.execute("INSERT INTO part_photograph_files (photograph, sha256, jpeg, small) VALUES (?, ?, ?, ?)", kept)
    return made


def content(db: Database, photograph: int, size: str = WHOLE) -> bytes:
    """A JPEG; `size` WHOLE or SMALL."""
    found = db.execute("SELECT jpeg, small FROM part_photograph_files WHERE photograph = ?", [photograph]).fetchone()
    return bytes(found[size])


def of_order(db: Database, order: int) -> tuple[Arrival, ...]:
    """Everything that came for the order's shells, in the order in which it was recorded."""
    rows = db.execute("SELECT * FROM part_arrivals WHERE order_id = ? ORDER BY id", [order]).fetchall()
    return tuple(_arrival(db, row) for row in rows)


def lying_here(db: Database) -> tuple[str, ...]:
    """Numbers of the orders for which something came that is built into nothing and did not go back."""
    return tuple(row["number"] for row in db.execute(_LYING, [NO_SHELL]).fetchall())


def move(db: Database, order: int, keeps: Mapping[int, int]) -> None:
    """Place after → place before: what came for a shell goes with it, and for one that is gone, to no shell's place."""
    to = {was: place for place, was in keeps.items()}
    rows = db.execute("SELECT id, seat FROM part_arrivals WHERE order_id = ? ORDER BY id", [order]).fetchall()
    for row in (one for one in rows if one["seat"] < NO_SHELL):
        place = to.setdefault(row["seat"], NO_SHELL + row["id"])
        if place != row["seat"]:
            db.execute("UPDATE part_arrivals SET seat = ? WHERE id = ?", [place, row["id"]])


def _arrival(db: Database, row: Row) -> Arrival:
    def each(table: str, made: Callable[[Row], T]) -> tuple[T, ...]:
        rows = db.execute(f"SELECT * FROM {table} WHERE arrival = ? ORDER BY id", [row["id"]]).fetchall()  # noqa: S608 - names of ours
        return tuple(made(one) for one in rows)

    return Arrival(
        id=row["id"],
        place=row["seat"],
        rule=row["rule"],
        day=date.fromisoformat(row["day"]),
        note=row["note"],
        at=moment(row["at"]),
        by=row["by"],
        by_hand=bool(row["by_hand"]),
        verdicts=each("part_verdicts", _verdict),
        acts=each("part_acts", _act),
        choices=each("part_choices", _choice),
        photographs=each("part_photographs", _photograph),
    )


def _verdict(row: Row) -> Verdict:
    findings = thawed(tuple[Finding, ...], row["findings"])
    day, at = date.fromisoformat(row["day"]), moment(row["at"])
    return Verdict(bool(row["passed"]), findings, row["why"], day, at, row["by"], row["signed"], row["book"])


def _act(row: Row) -> ActDone:
    return ActDone(PartAct(row["act"]), date.fromisoformat(row["day"]), row["note"], moment(row["at"]), row["by"])


def _choice(row: Row) -> Chosen:
    day = None if row["day"] is None else date.fromisoformat(row["day"])
    told = (day, row["option"], row["instead"], row["letter"])
    return Chosen(Choice(row["choice"]), row["note"], moment(row["at"]), row["by"], *told)


def _photograph(row: Row) -> PartPhotograph:
    told = {name: row[name] for name in ("id", "note", "width", "height", "size", "by")}
    return PartPhotograph(**told, at=moment(row["at"]))

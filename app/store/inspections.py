"""Readings, gauges, verdicts and days of priming, as they were said. Rows are only added; nothing is decided here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.inspection.inspection import Decided, Gauge, GaugeSort, Priming, Reading, Verdict
from app.store.texts import moment, moment_text
from rules.inspection.subject import Phase


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading on its way in. `key`: the tablet's own id of it; `gauge`: the id of its calibration."""

    key: str
    subject: str
    value: str
    unit: str
    gauge: int | None
    at: datetime


def shell_of(db: Database, serial: str) -> int | None:
    """The shell with this serial."""
    row = db.execute("SELECT id FROM shells WHERE serial = ?", [serial]).fetchone()
    return None if row is None else int(row["id"])


def known_keys(db: Database, keys: Iterable[str]) -> Mapping[str, int]:
    """key → shell, of those that are here already."""
    found: dict[str, int] = {}
    for key in keys:
        row = db.execute("SELECT shell FROM readings WHERE key = ?", [key]).fetchone()
        if row is not None:
            found[key] = row["shell"]
    return found


def add_readings(db: Database, shell: int, taken: Iterable[Taken], by: str, now: datetime) -> None:
    for one in taken:
        row = [shell, one.subject, one.value, one.unit, one.gauge, moment_text(one.at), moment_text(now), by, one.key]
        columns = "shell, subject, value, unit, gauge, taken, at, by, key"
        db.execute(f"INSERT INTO readings ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", row)  # noqa: S608


def readings(db: Database, shell: int, gauges: Iterable[Gauge]) -> tuple[Reading, ...]:
    """As they came. `gauges`: every calibration."""
    known = {gauge.id: gauge for gauge in gauges}
    rows = db.execute("SELECT * FROM readings WHERE shell = ? ORDER BY id", [shell]).fetchall()
    return tuple(
        Reading(row["id"], row["subject"], row["value"], known.get(row["gauge"]), moment(row["taken"]),
                moment(row["at"]), row["by"], row["key"])
        for row in rows
    )  # fmt: skip


def all_gauges(db: Database) -> tuple[Gauge, ...]:
    """Every calibration of every gauge, the first first."""
    return tuple(map(_gauge, db.execute("SELECT * FROM gauges ORDER BY id").fetchall()))


def add_gauge(db: Database, mark: str, sort: GaugeSort, span: tuple[date, date], by: str, now: datetime) -> int:
    """`span`: calibrated on, good until. The id of this calibration."""
    row = [mark, sort.value, span[0].isoformat(), span[1].isoformat(), moment_text(now), by]
    sql = "INSERT INTO gauges (mark, sort, calibrated, due, at, by) VALUES (?, ?, ?, ?, ?, ?) RETURNING id"
    return int(db.execute(sql, row).fetchone()[0])


def _gauge(row: Row) -> Gauge:
    days = date.fromisoformat(row["calibrated"]), date.fromisoformat(row["due"])
    return Gauge(row["id"], row["mark"], GaugeSort(row["sort"]), *days)


def add_verdict(db: Database, shell: int, said: Decided) -> None:
    row = [
        shell,
        said.phase.value,
        said.verdict.value,
        said.why,
        moment_text(said.at),
        said.by,
        said.signed,
        said.second,
    ]
    columns = "shell, phase, verdict, why, at, by, signed, second"
    db.execute(f"INSERT INTO verdicts ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row)  # noqa: S608


def verdicts(db: Database, shell: int) -> tuple[Decided, ...]:
    """The first first."""
    rows = db.execute("SELECT * FROM verdicts WHERE shell = ? ORDER BY id", [shell]).fetchall()
    return tuple(
        Decided(Phase(row["phase"]), Verdict(row["verdict"]), row["why"], moment(row["at"]), row["by"],
                row["signed"], row["second"])
        for row in rows
    )  # fmt: skip


def add_priming(db: Database, shell: int, priming: Priming) -> None:
    row = [shell, priming.coat, priming.day.isoformat(), moment_text(priming.at), priming.by]
    db.execute("INSERT INTO primings (shell, coat, day, at, by) VALUES (?, ?, ?, ?, ?)", row)


def priming(db: Database, shell: int) -> tuple[int, Priming] | None:
    """The last, with its id."""
    row = db.execute("SELECT * FROM primings WHERE shell = ? ORDER BY id DESC LIMIT 1", [shell]).fetchone()
    if row is None:
        return None
    return row["id"], Priming(row["coat"], date.fromisoformat(row["day"]), moment(row["at"]), row["by"])


@dataclass(frozen=True, slots=True)
class Words:
    """What somebody wrote who takes a shell after its overcoat date all the same. `said_by`: in whose name."""

    said_by: str
    words: str
    day: date
    by: str


def add_words(db: Database, priming: int, said: Words, now: datetime) -> None:
    row = [priming, said.said_by, said.words, said.day.isoformat(), moment_text(now), said.by]
    db.execute("INSERT INTO overcoat_words (priming, said_by, words, day, at, by) VALUES (?, ?, ?, ?, ?, ?)", row)


def words_on(db: Database, priming: int) -> Words | None:
    """The last words on that very priming."""
    sql = "SELECT * FROM overcoat_words WHERE priming = ? ORDER BY id DESC LIMIT 1"
    row = db.execute(sql, [priming]).fetchone()
    return None if row is None else Words(row["said_by"], row["words"], date.fromisoformat(row["day"]), row["by"])

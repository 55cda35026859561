"""Change notes of shells, what was said to them, and their papers byte for byte: all of it only grows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from hashlib import sha256
from sqlite3 import Row

from sqlite_utils import Database

from app.domain.floor.shell import Stop
from app.domain.orders.change_note import ChangeNote, Content, Effect, NoteAct, Said
from app.domain.quotations.quotation import DeliveryPlace, FrozenLine, PaperKept
from app.store.frozen import frozen_text, thawed
from app.store.texts import moment, moment_text
from rules.money.totals import Totals

#: Of what signatures made of a shell the last counts.
_OF_SHELL = """
SELECT json_extract(change_note_acts.content, '$.frozen') AS frozen,
  json_extract(change_note_acts.content, '$.route') AS route
FROM change_notes JOIN change_note_acts ON note = change_notes.id AND act = 'signed'
WHERE shell = ? AND change_notes.at > ?
ORDER BY change_note_acts.id DESC LIMIT 1
"""

#: What they made of the order's money and place, the last first.
_OF_BASIS = """
SELECT json_extract(change_note_acts.content, '$.totals') AS totals,
  json_extract(change_note_acts.content, '$.place') AS place
FROM order_lines JOIN shells ON shells.order_line = order_lines.id
JOIN change_notes ON change_notes.shell = shells.id
JOIN change_note_acts ON note = change_notes.id AND act = 'signed'
WHERE basis = ? ORDER BY change_note_acts.id DESC
"""

_WAITING = """
SELECT * FROM change_notes WHERE NOT EXISTS (
  SELECT 1 FROM change_note_acts WHERE note = change_notes.id AND act <> 'approved') ORDER BY id
"""


@dataclass(frozen=True, slots=True)
class Changed:
    """What signatures made of a shell."""

    frozen: FrozenLine
    route: tuple[Stop, ...]


def add(db: Database, number: str, shell: int, content: Content, by: str, now: datetime) -> int:
    row = [number, shell, frozen_text(content), moment_text(now), by]
    sql = "INSERT INTO change_notes (number, shell, content, at, by) VALUES (?, ?, ?, ?, ?) RETURNING id"
    (key,) = db.execute(sql, row).fetchone()
    return int(key)


def act(db: Database, note: int, done: NoteAct, effect: Effect | None = None) -> None:
    content = None if effect is None else frozen_text(effect)
    row = [note, done.said.value, done.who, done.day.isoformat(), done.why, content, moment_text(done.at), done.by]
    sql = "INSERT INTO change_note_acts (note, act, who, day, why, content, at, by) VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
    db.execute(sql, row)


def get(db: Database, number: str) -> ChangeNote | None:
    row = db.execute("SELECT * FROM change_notes WHERE number = ?", [number]).fetchone()
    return None if row is None else _note(db, row)


def of_shell(db: Database, shell: int) -> tuple[ChangeNote, ...]:
    """The last first."""
    rows = db.execute("SELECT * FROM change_notes WHERE shell = ? ORDER BY id DESC", [shell]).fetchall()
    return tuple(_note(db, row) for row in rows)


def waiting(db: Database) -> tuple[ChangeNote, ...]:
    """Those of which nobody has said the last word, the first first."""
    return tuple(_note(db, row) for row in db.execute(_WAITING).fetchall())


def changed(db: Database, shell: int, since: datetime | None = None) -> Changed | None:
    """None where nothing was signed; `since`: of what was drawn up after that moment."""
    row = db.execute(_OF_SHELL, [shell, "" if since is None else moment_text(since)]).fetchone()
    return None if row is None else Changed(thawed(FrozenLine, row["frozen"]), thawed(tuple[Stop, ...], row["route"]))


def of_basis(db: Database, basis: int) -> tuple[Totals | None, DeliveryPlace | None]:
    """What the order comes to since the last signature, and where it goes since one that changed that."""
    rows: Sequence[Row] = db.execute(_OF_BASIS, [basis]).fetchall()
    place = next((row["place"] for row in rows if row["place"] is not None), None)
    totals = thawed(Totals, rows[0]["totals"]) if rows else None
    return totals, None if place is None else thawed(DeliveryPlace, place)


def paper(db: Database, note: int, language: str, size: str) -> bytes | None:
    sql = "SELECT pdf FROM change_note_papers WHERE note = ? AND language = ? AND size = ?"
    row = db.execute(sql, [note, language, size]).fetchone()
    return None if row is None else bytes(row["pdf"])


def add_paper(db: Database, note: int, language: str, size: str, pdf: bytes) -> None:
    sql = "INSERT INTO change_note_papers (note, language, size, sha256, pdf) VALUES (?, ?, ?, ?, ?)"
    db.execute(sql, [note, language, size, sha256(pdf).hexdigest(), pdf])


def papers(db: Database, note: int) -> tuple[PaperKept, ...]:
    sql = "SELECT language, size, sha256 FROM change_note_papers WHERE note = ? ORDER BY id"
    return tuple(PaperKept(*row) for row in db.execute(sql, [note]))


def _note(db: Database, row: Row) -> ChangeNote:
    acts = db.execute("SELECT * FROM change_note_acts WHERE note = ? ORDER BY id", [row["id"]]).fetchall()
    content = thawed(Content, row["content"])
    said = tuple(_act(one) for one in acts)
    return ChangeNote(row["id"], row["number"], row["shell"], content, moment(row["at"]), row["by"], said)


def _act(row: Row) -> NoteAct:
    day = date.fromisoformat(row["day"])
    return NoteAct(Said(row["act"]), row["who"], day, row["why"], moment(row["at"]), row["by"])

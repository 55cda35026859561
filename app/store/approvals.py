"""Approvals and what was said of them. Rows are only added. `dealer` narrows to one dealer's own; None: everybody's."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from sqlite3 import Row
from typing import Any

from sqlite_utils import Database

from app.domain.paging import Page, page
from app.domain.quotations.approval import Act, Approval, Stage
from app.store.sought import Where
from app.store.texts import json_text, moment, moment_text

_APPROVALS = """
SELECT approvals.*, quotations.number FROM approvals JOIN quotations ON quotations.id = approvals.quotation
"""

_OF_REVISION = """
WHERE approvals.quotation = (SELECT quotation FROM revisions WHERE id = ?) ORDER BY approvals.id
"""

_LAST_OUT = """
SELECT revisions.book, json_extract(lines.frozen, '$.settled') AS settled,
  json_extract(lines.frozen, '$.depends.approvals') AS rules
FROM revision_lines AS lines JOIN revisions ON revisions.id = lines.revision WHERE revisions.id =
  (SELECT max(revisions.id) FROM revisions JOIN quotations ON quotations.id = revisions.quotation
    WHERE quotations.number = ? AND issued_at IS NOT NULL)
ORDER BY lines.position
"""

_ACTS = "SELECT * FROM approval_acts WHERE approval IN"

_GRANTED = f"{_APPROVALS} JOIN approval_stages ON approval = approvals.id WHERE stage = 'granted'"

#: What waits comes first, the longest waiting at the top; of the rest the last said.
_LISTED = """
SELECT approvals.*, quotations.number, approval_stages.place FROM approval_stages
CROSS JOIN approvals ON approvals.id = approval_stages.approval
CROSS JOIN quotations ON quotations.id = approvals.quotation
WHERE {where} ORDER BY approval_stages.place LIMIT ?
"""


@dataclass(frozen=True, slots=True)
class Request:
    """What is asked for, before it has an id."""

    number: str
    letter: str
    line: int
    rule: str
    fingerprint: str
    structure: Mapping[str, str]
    book: int
    note: str


def add(db: Database, request: Request, by: str, now: datetime) -> int:
    """The id of the new request."""
    (quotation,) = db.execute("SELECT id FROM quotations WHERE number = ?", [request.number]).fetchone()
    row = {
        "quotation": quotation,
        "structure": json_text(dict(request.structure)),
        "asked_at": moment_text(now),
        "asked_by": by,
        **{name: getattr(request, name) for name in ("letter", "line", "rule", "fingerprint", "book", "note")},
    }
    made: Any = db.table("approvals").insert(row).last_pk
    return int(made)


def say(db: Database, approval: int, stage: Stage, day: date, reason: str, by: str, now: datetime) -> None:
    """Granted, refused or withdrawn: beside what was said before."""
    row = [approval, stage.value, moment_text(now), by, day.isoformat(), reason]
    db.execute("INSERT INTO approval_acts (approval, act, at, by, day, reason) VALUES (?, ?, ?, ?, ?, ?)", row)


def get(db: Database, approval: int, dealer: str | None) -> Approval | None:
    sql = f"{_APPROVALS} WHERE approvals.id = ? AND (? IS NULL OR quotations.dealer = ?)"
    row = db.execute(sql, [approval, dealer, dealer]).fetchone()
    return None if row is None else _approvals(db, [row])[0]


def of_revision(db: Database, revision: int) -> tuple[Approval, ...]:
    """Everything asked for on the quotation that the revision belongs to, the oldest first."""
    return _approvals(db, db.execute(f"{_APPROVALS}{_OF_REVISION}", [revision]).fetchall())


def of_quotation(db: Database, number: str) -> tuple[Approval, ...]:
    """Everything asked for on it, the oldest first."""
    sql = f"{_APPROVALS} WHERE quotations.number = ? ORDER BY approvals.id"
    return _approvals(db, db.execute(sql, [number]).fetchall())


def listed(db: Database, dealer: str | None, stage: Stage | None, size: int, after: int | None) -> Page[Approval]:
    """Waiting ones first, the oldest at the top; then the others, the last said first."""
    where = Where()
    if dealer is not None:
        where.add("approval_stages.dealer = ?", dealer)
    if stage is not None:
        where.add("approval_stages.stage = ?", stage.value)
    if after is not None:
        where.add("approval_stages.place > ?", after)
    rows = db.execute(_LISTED.format(where=where.sql()), [*where.facts, size + 1]).fetchall()
    found = page(rows, size, lambda row: (row["place"],))
    return Page(_approvals(db, found.rows), found.next)


def waiting(db: Database) -> int:
    """How many wait for an answer."""
    sql = "SELECT count(*) FROM approval_stages WHERE stage = 'waiting'"
    (count,) = db.execute(sql).fetchone()
    return int(count)


def granted(db: Database, numbers: Sequence[str]) -> Mapping[str, frozenset[tuple[str, str]]]:
    """quotation number → (rule, fingerprint) of each yes that stands."""
    if not numbers:
        return {}
    marks = ", ".join("?" * len(numbers))
    rows = db.execute(f"{_GRANTED} AND quotations.number IN ({marks})", [*numbers]).fetchall()
    return {
        number: frozenset((r["rule"], r["fingerprint"]) for r in rows if r["number"] == number) for number in numbers
    }


def last_out(db: Database, number: str) -> tuple[int, tuple[tuple[Mapping[str, str], tuple[str, ...]], ...]] | None:
    """The book of its last revision that left the house, and of each line what is settled and which rules it needs."""
    rows = db.execute(_LAST_OUT, [number]).fetchall()
    if not rows:
        return None
    return rows[0]["book"], tuple((json.loads(r["settled"]), tuple(json.loads(r["rules"]))) for r in rows)


def _approvals(db: Database, rows: Sequence[Row]) -> tuple[Approval, ...]:
    if not rows:
        return ()
    marks = ", ".join("?" * len(rows))
    said = db.execute(f"{_ACTS} ({marks}) ORDER BY id", [row["id"] for row in rows]).fetchall()
    return tuple(_approval(row, [act for act in said if act["approval"] == row["id"]]) for row in rows)


def _approval(row: Row, said: Sequence[Row]) -> Approval:
    plain = ("id", "number", "letter", "line", "rule", "fingerprint", "book", "asked_by", "note")
    return Approval(
        structure=json.loads(row["structure"]),
        asked_at=moment(row["asked_at"]),
        acts=tuple(_act(act) for act in said),
        **{name: row[name] for name in plain},
    )


def _act(row: Row) -> Act:
    day = date.fromisoformat(row["day"])
    return Act(Stage(row["act"]), moment(row["at"]), row["by"], day, row["reason"])

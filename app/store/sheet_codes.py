"""Codes of build sheets, one for each shell and what its sheet says; and what a sheet of a shell would say now."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.store import shells, stock
from app.store.texts import moment_text

_SHELL = """
SELECT serial, (SELECT max(revision) FROM sheet_revisions WHERE sheet_revisions.shell = shells.id) AS sheet
FROM shells WHERE id = ?
"""

_ORDERED = """
SELECT revisions.letter,
  order_bases.id = (SELECT max(id) FROM order_bases AS every WHERE every.order_id = order_bases.order_id) AS last
FROM order_lines JOIN order_bases ON order_bases.id = order_lines.basis
JOIN revisions ON revisions.id = order_bases.revision WHERE order_lines.id = ?
"""


def code_of(db: Database, shell: int, fresh: str, now: datetime) -> str:
    """The code of the shell's sheet as it would be printed now: what was given before, else `fresh`."""
    says = says_now(db, shell)
    values = [fresh, shell, says, moment_text(now)]
    db.execute("INSERT INTO sheet_codes VALUES (?, ?, ?, ?) ON CONFLICT (shell, says) DO NOTHING", values)
    (code,) = db.execute("SELECT code FROM sheet_codes WHERE shell = ? AND says = ?", [shell, says]).fetchone()
    return str(code)


def says_now(db: Database, shell: int) -> str | None:
    """What was ordered, serial and revision of the sheet; None where the order follows another yes by now.

    Such an order has other shells. A shell of stock says its number there in the place of what was ordered.
    """
    row, of = db.execute(_SHELL, [shell]).fetchone(), _built_as(db, shell)
    return None if of is None else " ".join(str(one) for one in (of, row["serial"], row["sheet"]) if one)


def _built_as(db: Database, shell: int) -> str | None:
    entry = stock.holding(db, shell)
    if entry is not None:
        return entry.number
    row = db.execute(_ORDERED, [shells.line_of(db, shell)]).fetchone()
    return row["letter"] if row is not None and row["last"] else None


def revision_in(says: str) -> int | None:
    """Of the sheet that says so; None of a planned shell's."""
    words = says.split()
    return int(words[2]) if len(words) == 3 else None


def behind(db: Database, code: str) -> tuple[int, str] | None:
    """(shell, what its sheet says); None for no code of ours."""
    row = db.execute("SELECT shell, says FROM sheet_codes WHERE code = ?", [code]).fetchone()
    return None if row is None else (row["shell"], row["says"])

"""What was said of the lines of shells' kits. It only grows; the last word counts."""

from __future__ import annotations

from sqlite_utils import Database

from app.domain.floor.kit import KitCheck, KitStands
from app.store.texts import moment, moment_text


def add(db: Database, shell: int, check: KitCheck) -> None:
    row = [shell, check.line, check.stands.value, check.what, check.approved_by, moment_text(check.at), check.by]
    sql = "INSERT INTO kit_checks (shell, line, stands, what, approved_by, at, by) VALUES (?, ?, ?, ?, ?, ?, ?)"
    db.execute(sql, row)


def of(db: Database, shell: int) -> tuple[KitCheck, ...]:
    """In the order in which it was said."""
    rows = db.execute("SELECT * FROM kit_checks WHERE shell = ? ORDER BY id", [shell]).fetchall()
    return tuple(
        KitCheck(row["line"], KitStands(row["stands"]), row["what"], moment(row["at"]), row["by"], row["approved_by"])
        for row in rows
    )

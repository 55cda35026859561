"""A copy of the database as it stands at one moment, while others go on writing; and whether a copy is sound."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from app.store.migrations import modules


def copy(database: Path, to: Path) -> None:
    """All that was kept when it began, in one file that needs nothing beside it. Raises sqlite3.Error."""
    address = f"{database.absolute().as_uri()}?mode=rw"
    with closing(sqlite3.connect(address, uri=True)) as source, closing(sqlite3.connect(to)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode=DELETE")


def faults(database: Path) -> list[str]:
    """What is wrong with the file; empty where it is whole. Raises sqlite3.Error where it is no database."""
    with closing(sqlite3.connect(f"{database.absolute().as_uri()}?mode=ro", uri=True)) as db:
        told = [row[0] for row in db.execute("PRAGMA integrity_check") if row[0] != "ok"]
        loose = [f"{row[0]} names a {row[2]} that is not there" for row in db.execute("PRAGMA foreign_key_check")]
        return told + loose + _newer(db)


def _newer(db: sqlite3.Connection) -> list[str]:
    done = [row[0] for row in db.execute("SELECT name FROM migrations ORDER BY name")]
    return [f"made by a newer Bodywright ({name})" for name in done if name not in modules()]

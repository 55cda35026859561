"""The tables, as numbered modules: `m0001_….py` with `def up(db)`. Each runs once, in order, in one transaction.

A module that has been released is never edited: what comes later is a new module.
"""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

from sqlite_utils import Database


def migrate(db: Database) -> None:
    """Bring the open database up to the last module. The caller's transaction makes it all or nothing."""
    db.conn.execute("CREATE TABLE IF NOT EXISTS migrations (name TEXT PRIMARY KEY) STRICT")
    done = {row[0] for row in db.conn.execute("SELECT name FROM migrations")}
    for name in modules():
        if name not in done:
            import_module(f"{__name__}.{name}").up(db)
            db.conn.execute("INSERT INTO migrations (name) VALUES (?)", [name])


def modules() -> list[str]:
    """The names of the migration modules, in order."""
    return sorted(module.name for module in iter_modules(__path__) if module.name.startswith("m"))

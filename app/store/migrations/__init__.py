"""The tables, as numbered modules: `m0001_….py` with `def up(db)`. Each runs once, in order, in one transaction.

A module that has been released is never edited: what comes later is a new module.
"""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

from sqlite_utils import Database


class MadeByNewer(Exception):
    """The file has tables that this release has never heard of; writing into it could spoil them. `.names`: which."""

    def __init__(self, names: list[str]) -> None:
        super().__init__(", ".join(names))
        self.names = names


def migrate(db: Database) -> None:
    """Bring the open database up to the last module. The caller's transaction makes it all or nothing.

    Raises MadeByNewer.
    """
    db.conn.execute("CREATE TABLE IF NOT EXISTS migrations (name TEXT PRIMARY KEY) STRICT")
    done = {row[0] for row in db.conn.execute("SELECT name FROM migrations")}
    if newer := sorted(done - set(modules())):
        raise MadeByNewer(newer)
    for name in modules():
        if name not in done:
            import_module(f"{__name__}.{name}").up(db)
            db.conn.execute("INSERT INTO migrations (name) VALUES (?)", [name])


def modules() -> list[str]:
    """The names of the migration modules, in order."""
    return sorted(module.name for module in iter_modules(__path__) if module.name.startswith("m"))

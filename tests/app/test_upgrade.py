"""A data folder of an older release is brought up to date when it is opened; one of a newer is left alone."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from importlib import import_module
from pathlib import Path

import pytest
from sqlite_utils import Database

from app.store import migrations
from app.store.db import Store

TOOL = (1, "large-window-press", "down", "2026-12-04", "2026-11-02T10:00:00+00:00", "tomasz", "Its ram leaks.")


def of_release(file: Path, steps: int) -> Path:
    """A database as the release with only the first migrations left it, with a tool's state written into it."""
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        db = Database(connection, execute_plugins=False)
        connection.execute("CREATE TABLE migrations (name TEXT PRIMARY KEY) STRICT")
        for name in migrations.modules()[:steps]:
            import_module(f"app.store.migrations.{name}").up(db)
            connection.execute("INSERT INTO migrations (name) VALUES (?)", [name])
        connection.execute("INSERT INTO tool_states VALUES (?, ?, ?, ?, ?, ?, ?)", TOOL)
    return file


def schema(file: Path) -> list[tuple[str, ...]]:
    """Every table, index and guard, and the migrations that made them."""
    with closing(sqlite3.connect(file)) as db:
        made = db.execute("SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall()
        return sorted([*made, *db.execute("SELECT 'migration', name, '' FROM migrations")])


@pytest.mark.parametrize("steps", range(1, len(migrations.modules())))
def test_an_older_folder_ends_as_a_new_one_begins_and_keeps_what_was_in_it(tmp_path: Path, steps: int) -> None:
    older = of_release(tmp_path / "older.sqlite3", steps)
    Store(older).close()
    Store(tmp_path / "new.sqlite3").close()
    assert schema(older) == schema(tmp_path / "new.sqlite3")
    with closing(sqlite3.connect(older)) as db:
        assert db.execute("SELECT * FROM tool_states").fetchall() == [TOOL]


def test_opening_it_again_changes_nothing(tmp_path: Path) -> None:
    file = of_release(tmp_path / "desk.sqlite3", 1)
    Store(file).close()
    before = schema(file)
    Store(file).close()
    assert schema(file) == before


def test_an_upgrade_that_fails_half_way_leaves_the_folder_as_it_was(tmp_path: Path) -> None:
    """The second migration makes a table that stands there already."""
    file = of_release(tmp_path / "desk.sqlite3", 1)
    with closing(sqlite3.connect(file)) as db:
        db.execute("CREATE TABLE failed_try (x TEXT) STRICT")
    before = schema(file)
    with pytest.raises(sqlite3.OperationalError, match="failed_try already exists"):
        Store(file)
    assert schema(file) == before


def test_a_newer_folder_is_left_alone(tmp_path: Path) -> None:
    file = of_release(tmp_path / "desk.sqlite3", len(migrations.modules()))
    with closing(sqlite3.connect(file)) as db, db:
        db.execute("INSERT INTO migrations VALUES ('m9998_sooner'), ('m9999_later')")
    before = schema(file)
    with pytest.raises(migrations.MadeByNewer) as told:
        Store(file)
    assert told.value.names == ["m9998_sooner", "m9999_later"]
    assert schema(file) == before

from __future__ import annotations

import sqlite3
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event

import pytest

from app.store import counters, db
from app.store.db import Store
from app.store.migrations import modules


def test_what_was_confirmed_is_on_the_disk_before_anybody_is_told(tmp_path: Path) -> None:
    with Store(tmp_path / "desk.sqlite3").reading() as db:
        (synchronous,) = db.execute("PRAGMA synchronous").fetchone()
        (journal,) = db.execute("PRAGMA journal_mode").fetchone()
        (foreign_keys,) = db.execute("PRAGMA foreign_keys").fetchone()
    assert (synchronous, journal, foreign_keys) == (2, "wal", 1)  # 2 is FULL


def test_every_table_is_strict(tmp_path: Path) -> None:
    with Store(tmp_path / "desk.sqlite3").reading() as db:
        loose = [row["name"] for row in db.execute("PRAGMA table_list") if not row["strict"]]
    assert all(name.startswith("sqlite_") or "_sought" in name for name in loose), (
        loose
    )  # an index of texts has no types


def test_a_row_can_t_point_at_nothing(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    with pytest.raises(sqlite3.IntegrityError), store.writing() as db:
        db.execute("INSERT INTO trade_terms VALUES ('nobody', 'A', '15')")


def test_each_migration_runs_once_and_the_data_stay(tmp_path: Path) -> None:
    with Store(tmp_path / "desk.sqlite3").writing() as db:
        counters.next_number(db, "Q-2026")
    with Store(tmp_path / "desk.sqlite3").writing() as db:
        assert [row["name"] for row in db.execute("SELECT name FROM migrations ORDER BY name")] == modules()
        assert counters.next_number(db, "Q-2026") == 2


def test_of_a_write_that_fails_nothing_is_kept(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    with pytest.raises(RuntimeError), store.writing() as db:
        assert counters.next_number(db, "Q-2026") == 1
        raise RuntimeError
    with store.writing() as db:
        assert counters.next_number(db, "Q-2026") == 1


def test_a_write_inside_a_write_stands_or_falls_with_it(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    with pytest.raises(RuntimeError), store.writing():
        with store.writing() as inner:
            counters.next_number(inner, "Q-2026")
        raise RuntimeError
    with store.reading() as db:
        assert db.execute("SELECT count(*) FROM counters").fetchone()[0] == 0


def test_a_write_can_t_begin_inside_a_read(tmp_path: Path) -> None:
    """It would wait for a lock that another writer holds, on a view that is already old."""
    store = Store(tmp_path / "desk.sqlite3")
    with pytest.raises(RuntimeError, match="can't write"), store.reading(), store.writing():
        pass
    assert _count(store) == 1


def test_a_reader_sees_one_unchanging_state(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    with ThreadPoolExecutor(1) as other, store.reading() as db:
        assert db.execute("SELECT count(*) FROM counters").fetchone()[0] == 0
        other.submit(_count, store).result()
        assert db.execute("SELECT count(*) FROM counters").fetchone()[0] == 0
    with store.reading() as db:
        assert db.execute("SELECT count(*) FROM counters").fetchone()[0] == 1


def test_numbers_given_out_by_eight_threads_have_neither_gap_nor_twin(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    with ThreadPoolExecutor(8) as threads:
        numbers = list(threads.map(lambda _: _count(store), range(80)))
    assert sorted(numbers) == list(range(1, 81))


def test_writers_queue_at_the_store_s_own_lock_and_not_in_sqlite(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With no patience in SQLite itself, a writer that met another there would be told that the database is locked."""
    monkeypatch.setattr(db, "PRAGMAS", (*db.PRAGMAS, "busy_timeout=0"))
    store = Store(tmp_path / "desk.sqlite3")
    with ThreadPoolExecutor(8) as threads:
        assert sorted(threads.map(lambda _: _count(store), range(80))) == list(range(1, 81))


def test_the_connections_of_threads_that_have_ended_are_closed(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    for _ in range(5):
        with ThreadPoolExecutor(1) as thread:
            thread.submit(_count, store).result()
    assert len(store._connections) <= 2


def test_a_store_that_is_let_go_closes_its_connections(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    ((_, connection),) = store._connections
    del store
    with pytest.raises(sqlite3.ProgrammingError, match="closed"):
        connection.execute("SELECT 1")


def test_a_thread_that_closes_its_connection_gets_another_and_no_other_thread_notices(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")

    def count_and_close(_: int) -> int:
        counted = _count(store)
        store.close()
        return counted

    with ThreadPoolExecutor(8) as threads:
        assert sorted(threads.map(count_and_close, range(80))) == list(range(1, 81))


def test_a_second_writer_waits_for_the_first(tmp_path: Path) -> None:
    store, inside = Store(tmp_path / "desk.sqlite3"), Event()
    with ThreadPoolExecutor(1) as other:
        with store.writing() as db:
            second = other.submit(_count, store, inside)
            inside.wait()
            assert counters.next_number(db, "Q-2026") == 1
        assert second.result() == 2


def _count(store: Store, begun: Event | None = None) -> int:
    if begun is not None:
        begun.set()
    with store.writing() as db:
        return counters.next_number(db, "Q-2026")

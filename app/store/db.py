"""The database file: a connection per thread, one writer at a time, durable when it says so."""

from __future__ import annotations

import sqlite3
import threading
import weakref
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database

from app.store.migrations import migrate

#: Recursive triggers, or a REPLACE would take a row out past the triggers that forbid it. Secure delete, or what was
#: erased would still be read in the file's free pages.
PRAGMAS = (
    "journal_mode=WAL",
    "synchronous=FULL",
    "foreign_keys=ON",
    "recursive_triggers=ON",
    "busy_timeout=5000",
    "secure_delete=ON",
)


#: What SQLite says when nothing is wrong with what we asked, but with the disk under it.
DISK = (sqlite3.SQLITE_FULL, sqlite3.SQLITE_READONLY, sqlite3.SQLITE_IOERR, sqlite3.SQLITE_CANTOPEN)


class TakesNothing(Exception):
    """The disk is full, write-protected or failing. Nothing of the block was kept."""


class Store:
    """`reading()` and `writing()` hand out the thread's own connection inside a transaction.

    Writers of this process queue at a lock rather than in SQLite's busy handler, which sleeps and is unfair; a second
    process still meets BEGIN IMMEDIATE. A block inside a block of the same thread joins it.
    """

    def __init__(self, path: Path | str) -> None:
        self.path = Path(path)
        self._lock = threading.RLock()
        self._own = threading.local()
        self._listing = threading.Lock()
        self._connections: list[tuple[threading.Thread, sqlite3.Connection]] = []
        weakref.finalize(self, _close, self._connections).atexit = False
        try:
            with self.writing() as db:
                migrate(db)
        except BaseException:
            self.close()
            raise

    @contextmanager
    def reading(self) -> Iterator[Database]:
        """One unchanging view of everything for as long as the block lasts."""
        with self._block("BEGIN") as db:
            yield db

    @contextmanager
    def writing(self) -> Iterator[Database]:
        """All of the block or nothing; on disk when it is left."""
        with self._lock, self._block("BEGIN IMMEDIATE") as db:
            yield db

    def forget(self) -> None:
        """After erasing: empties the log of writes, in which the pages of before still stand, unless somebody reads."""
        with self._lock:
            self._database().conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")

    def close(self) -> None:
        """Close this thread's connection; the next block opens another. No thread may close one that another uses."""
        db = self._own.__dict__.pop("db", None)
        if db is not None:
            db.conn.close()

    @contextmanager
    def _block(self, begin: str) -> Iterator[Database]:
        """The outermost block begins and ends the transaction; an inner one joins it."""
        outer: str | None = getattr(self._own, "begun", None)
        if outer is None:
            with self._begun(begin), _disk_told(), _transaction(self._database(), begin) as db:
                yield db
        elif "IMMEDIATE" in outer or outer == begin:
            yield self._database()
        else:
            raise RuntimeError("A block that reads can't write: begin with writing() around both.")

    @contextmanager
    def _begun(self, begin: str) -> Iterator[None]:
        self._own.begun = begin
        try:
            yield
        finally:
            self._own.begun = None

    def _database(self) -> Database:
        if not hasattr(self._own, "db"):
            self._own.db = Database(self._connect(), execute_plugins=False)
        db: Database = self._own.db
        return db

    def _connect(self) -> sqlite3.Connection:
        """A connection for this thread; those of threads that have ended are closed on the way, or with the store."""
        connection, here = _open(self.path), threading.current_thread()
        with self._listing:
            in_use = [(t, c) for t, c in self._connections if t.is_alive() and t is not here]
            done_with = [pair for pair in self._connections if pair not in in_use]
            self._connections[:] = [*in_use, (here, connection)]
        _close(done_with)
        return connection


def _open(path: Path) -> sqlite3.Connection:
    """Another thread than its own may close it, and does nothing else with it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    connection = sqlite3.connect(path, isolation_level=None, check_same_thread=False)
    connection.row_factory = sqlite3.Row
    try:
        for pragma in PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")
    except BaseException:
        connection.close()
        raise
    return connection


def _close(connections: list[tuple[threading.Thread, sqlite3.Connection]]) -> None:
    for _, connection in connections:
        connection.close()


@contextmanager
def _disk_told() -> Iterator[None]:
    """Raises TakesNothing where the disk is at fault."""
    try:
        yield
    except sqlite3.OperationalError as error:
        if getattr(error, "sqlite_errorcode", 0) & 0xFF in DISK:
            raise TakesNothing(str(error)) from error
        raise


@contextmanager
def _transaction(db: Database, begin: str) -> Iterator[Database]:
    db.conn.execute(begin)
    try:
        yield db
    except BaseException:
        db.rollback()
        raise
    db.commit()

"""The data folder on the disk: what lies in it, and that one desk at a time serves it. Opens no database."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from app.store import sheet_folder

DATABASE = "desk.sqlite3"
LOCK = "desk.lock"

#: What SQLite lays beside the database while it is open, and the lock: none of it is anybody's data.
PASSING = (f"{DATABASE}-wal", f"{DATABASE}-shm", f"{DATABASE}-journal", LOCK)

OWNER_ALONE = 0o700


class FolderInUse(Exception):
    """Another process serves the folder; `.process` is its number, "" where it is not known."""

    def __init__(self, process: str) -> None:
        super().__init__(process)
        self.process = process


def make(folder: Path) -> None:
    """The folder, open to its owner alone where it is made here. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True, mode=OWNER_ALONE)


def open_to_others(folder: Path) -> bool:
    """Whether other people of this machine can look into it."""
    return bool(folder.stat().st_mode & 0o077)


@contextmanager
def claimed(folder: Path) -> Iterator[None]:
    """This process's own for as long as the block lasts, or until it dies. Raises FolderInUse, OSError."""
    with (folder / LOCK).open("a+") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            lock.seek(0)
            raise FolderInUse(lock.read().strip()) from None
        lock.truncate(0)
        lock.write(str(os.getpid()))
        lock.flush()
        yield


def files(folder: Path) -> list[Path]:
    """Every file that is somebody's data, but the database, relative to the folder, in order."""
    found = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file() and not path.is_symlink())
    return sorted(path for path in found if path.as_posix() not in (DATABASE, *PASSING))


def forget(folder: Path) -> None:
    """Remove the desk's own files, and nothing else. Claim the folder first."""
    for name in (DATABASE, f"{DATABASE}-wal", f"{DATABASE}-shm"):
        (folder / name).unlink(missing_ok=True)
    sheet_folder.forget(folder / sheet_folder.FOLDER)

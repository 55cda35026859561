"""Opening the data folder for a command: whatever is wrong with it is told, and nothing is half done."""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from app.commands.stop import Stop, about_database, about_folder
from app.config import Config
from app.factory import open_store
from app.store import folder
from app.store.db import Store, TakesNothing
from app.store.migrations import MadeByNewer


def opened(config: Config) -> Store:
    """The store in the data folder, brought up to date. Raises Stop where the folder can't be used."""
    made(config.data)
    try:
        return open_store(config)
    except MadeByNewer as newer:
        raise Stop(
            f"{config.data} was last used by a newer Bodywright ({newer}). Start that one; "
            "an older one would spoil what it doesn't know."
        ) from None
    except (sqlite3.Error, TakesNothing) as error:
        raise about_database(config.data / folder.DATABASE, error) from None
    except OSError as error:
        raise about_folder(config.data, error) from None


@contextmanager
def claimed(data: Path) -> Iterator[None]:
    """The folder for this command alone. Raises Stop where another serves it."""
    made(data)
    try:
        with folder.claimed(data):
            yield
    except folder.FolderInUse as other:
        who = f" (process {other.process})" if other.process else ""
        raise Stop(f"{data} is being served already{who}. Stop that, or give another folder with --data.") from None


def made(data: Path) -> None:
    """The folder is there. Raises Stop where it can't be made or looked into."""
    try:
        folder.make(data)
        if folder.open_to_others(data):
            print(
                f"Other people of this machine can look into {data}. Close it to them: chmod -R go= {data}",
                file=sys.stderr,
            )
    except OSError as error:
        raise about_folder(data, error) from None


def not_set_up(data: Path) -> str:
    """What to do with an empty desk."""
    return (
        f"Nothing is set up in {data}. Add the first manager and put a rule book in force:\n"
        f'  python -m app add-person NAME "Full Name" --data {data}\n'
        f"  python -m app publish-book FILE --by NAME --data {data}\n"
        "To look round first: python -m app demo"
    )

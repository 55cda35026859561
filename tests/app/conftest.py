from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest

from app.store.db import Store
from demo.loading import set_up
from tests.app.desk import NOW, Desk


@pytest.fixture(scope="session")
def set_up_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo firm without work in hand, loaded once."""
    store = Store(tmp_path_factory.mktemp("set-up") / "desk.sqlite3")
    set_up(store, NOW - timedelta(days=30))
    store.close()
    return store.path


@pytest.fixture
def desk(tmp_path: Path, set_up_file: Path) -> Iterator[Desk]:
    """A desk of its own for each test, on a copy of the file."""
    store = Store(shutil.copy(set_up_file, tmp_path / "desk.sqlite3"))
    yield Desk(store)
    store.close()

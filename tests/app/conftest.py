from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest

from app.store.db import Store
from demo.loading import set_up
from tests.app.desk import NOW, Desk


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    store = Store(tmp_path / "desk.sqlite3")
    set_up(store, NOW - timedelta(days=30))
    yield Desk(store)
    store.close()

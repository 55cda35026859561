from __future__ import annotations

from datetime import UTC, datetime

import pytest

from app.store.db import Store
from demo.loading import load
from demo.work import WORK

#: The day of loading.
NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Store:
    """The whole demo firm, loaded once. Nobody changes it."""
    store = Store(tmp_path_factory.mktemp("demo") / "desk.sqlite3")
    load(store, NOW, "http://127.0.0.1:9999", jobs=WORK)
    return store

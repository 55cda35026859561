"""A desk of before sheets were counted: what was released has its first, and its sheet on the wall still holds."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from app.store import migrations
from app.store.db import Store
from tests.app.test_upgrade import of_release

BEFORE = migrations.modules().index("m0027_changes")
AT = "2026-11-03T10:00:00.000000+00:00"


def test_a_released_shell_has_its_first_sheet_and_its_code_still_holds(tmp_path: Path) -> None:
    file = of_release(tmp_path / "older.sqlite3", BEFORE)
    with closing(sqlite3.connect(file)) as db, db:
        db.execute(
            "INSERT INTO shells (id, order_line, place, serial) VALUES (7, 1, 1, 'S-2026-00001'), (8, 1, 2, NULL)"
        )
        row = (7, "released", "", "[]", AT, "tomasz")
        db.execute("INSERT INTO shell_deeds (shell, deed, why, route, at, by) VALUES (?, ?, ?, ?, ?, ?)", row)
        codes = (("old", 7, "A S-2026-00001", AT), ("before", 7, "A", AT), ("planned", 8, "A", AT))
        db.executemany("INSERT INTO sheet_codes VALUES (?, ?, ?, ?)", codes)
    Store(file).close()
    with closing(sqlite3.connect(file)) as db:
        assert db.execute("SELECT shell, revision, day, by FROM sheet_revisions").fetchall() == [
            (7, 1, "2026-11-03", "tomasz")
        ]
        assert db.execute("SELECT code, says FROM sheet_codes ORDER BY code").fetchall() == [
            ("before", "A"), ("old", "A S-2026-00001 1"), ("planned", "A")]  # fmt: skip

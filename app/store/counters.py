"""Running numbers without gaps, one row for each series of them."""

from __future__ import annotations

from sqlite_utils import Database

_NEXT = """
INSERT INTO counters (series, last) VALUES (?, 1)
ON CONFLICT (series) DO UPDATE SET last = last + 1 RETURNING last
"""


def next_number(db: Database, series: str) -> int:
    """1, 2, 3 … of this series; a number given in a transaction that is rolled back is given again."""
    (last,) = db.execute(_NEXT, [series]).fetchone()
    return int(last)

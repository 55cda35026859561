"""A shell of stock that its order rejected and replaced is in stock no more."""

from __future__ import annotations

from sqlite_utils import Database

#: As it stood last, by whoever ended the allocation unnamed: the moment is that of the replacement.
_WITHDRAW = """
INSERT INTO stock_acts (shell, act, plan, because, at, by)
SELECT last.shell, 'withdrawn', last.plan, '', allocation.ended_at, allocation.by
FROM stock_allocations AS allocation
JOIN stock_acts AS last ON last.id = (SELECT max(id) FROM stock_acts WHERE shell = allocation.stock)
WHERE allocation.ended_why = 'replaced' AND last.act <> 'withdrawn'
AND allocation.id = (SELECT max(id) FROM stock_allocations WHERE stock = allocation.stock)
"""


def up(db: Database) -> None:
    """Until now it stood there as free, and could have gone to somebody as if nothing were wrong with it."""
    db.execute(_WITHDRAW)

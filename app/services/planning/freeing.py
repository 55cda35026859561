"""What a shell has behind it takes nothing of the days to come: who goes through sooner leaves his days free.

Nobody else's promise moves by it. Whoever is promised a day from then on may have what is free.
"""

from __future__ import annotations

from collections.abc import Sequence

from sqlite_utils import Database

from app.domain.floor.shell import Done, Stop, progress
from app.domain.planning.slots import Seat, still_taken
from app.services.orders.seating import WholeOrder
from app.store import slots, stock


def free_what_is_done(
    db: Database, whole: WholeOrder, seat: Seat, deeds: Sequence[Done], route: Sequence[Stop]
) -> None:
    """After a stage was signed, inside that transaction. `deeds`: with that one; who is ready has all behind him."""
    stands = progress(deeds, route)
    own = whole.stock
    had = slots.visits(db, seat) if own is None else list(stock.visits(db, own.id))
    done = stands.through if stands.stage is not None else [one.stage for one in had]
    left = still_taken(had, done, whole.today)
    if own is None:
        slots.leave_only(db, seat, left)
    else:
        stock.leave_only(db, own.id, left)

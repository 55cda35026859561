"""What a shell has behind it takes nothing of the days to come: who goes through sooner leaves his days free.

Nobody else's promise moves by it. Whoever is promised a day from then on may have what is free.
"""

from __future__ import annotations

from collections.abc import Sequence

from sqlite_utils import Database

from app.domain.shell import Done, Stop, progress
from app.domain.slots import Seat, still_taken
from app.services.orders.seating import WholeOrder, gated_shell
from app.services.planning.dating import wanted_of
from app.store import slots, stock
from rules.schedule.promise import visits_of


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


def plan_again(db: Database, whole: WholeOrder, place: int) -> None:
    """Of a shell that is built in the place of another: all its days as they are promised, where its slot is free."""
    gated = gated_shell(whole, place)
    had = slots.promised(db, gated.seat)
    if had is None or slots.holder(db, had.promise.slot) not in (None, gated.seat):
        return
    kinds = wanted_of(whole.book, gated.frozen.settled, gated.route, gated.gates).kinds
    slots.give_up(db, gated.seat)
    slots.plan(db, gated.seat, visits_of(had.promise, kinds), had.promise.slot)

"""A better order of the slots of the next weeks: proposed with every promise that moves, and done only as it was shown.

Searching writes nothing. A shell that has begun, or that can't keep its date as it is, stays where it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from enum import Enum

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import PlanMoved
from app.domain.planning.slots import Act, Kept, Move, Proposal, Seat
from app.domain.stock import StockMove
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.services.once import Once, perform
from app.services.orders.seating import DEPOSIT, GatedShell, WholeOrder, WholeOrders, gated_shell
from app.services.planning.dating import Working, shop_of, wanted_of
from app.services.planning.making_room import make_room, what_makes_room
from app.services.planning.promising import keep, proposal_of
from app.store import slots as kept
from app.store.db import Store
from rules.schedule.capacity import Shop, week_of
from rules.schedule.days import HolidaysUnknown, WorkingDays
from rules.schedule.promise import Promise, Wanted, earliest_slot, visits_of
from rules.schedule.slot_order import Better, Seated, better_order

#: Weeks that are put in order at once, at most.
MOST_WEEKS = 8


class Stays(Enum):
    """Why a shell keeps its slot whatever else changes places."""

    LATE = "late"
    OTHER_BOOK = "other-book"


@dataclass(frozen=True, slots=True)
class BetterWeeks:
    """From the day after today to `last`. `stays`: shells in between that were left where they are, and why.

    `proposal` has no moves where no better order was found. `found.best` None: there is none.
    """

    today: date
    last: date
    shells: int
    stays: tuple[tuple[Seat, Stays], ...]
    found: Better | None
    proposal: Proposal


@dataclass(frozen=True, slots=True)
class _Shell:
    had: Kept
    whole: WholeOrder
    gated: GatedShell
    wanted: Wanted


def better_weeks(store: Store, actor: Actor, weeks: int, working: Working, now: datetime) -> BetterWeeks:
    """What this week's rest and those after it would gain by another order. Writes nothing."""
    with store.reading() as db:
        return _Weeks(store, db, actor, working, now).propose(weeks)[0]


def take_better_weeks(
    store: Store, actor: Actor, weeks: int, token: str, working: Working, now: datetime, *, once: Once | None = None
) -> None:
    """Do what was proposed, if it is still that. Raises PlanMoved, KeyReused, Underway."""

    def write(db: Database) -> int:
        proposed, shells = _Weeks(store, db, actor, working, now).propose(weeks)
        if not proposed.proposal.moves or proposed.proposal.token != token:
            raise PlanMoved()
        _carry_out(db, actor, proposed.proposal, shells, now)
        make_room(store, db, actor, working, now)
        return len(proposed.proposal.moves)

    perform(store, once, now, write)


def _carry_out(db: Database, actor: Actor, proposal: Proposal, shells: Sequence[_Shell], now: datetime) -> None:
    """All places are given up first: two that change places never hold one slot at once."""
    wanted = {shell.had.seat: shell.wanted for shell in shells}
    for move in proposal.moves:
        kept.give_up(db, move.seat)
    for move in proposal.moves:
        keep(db, actor, move.seat, wanted[move.seat], Act.MOVED, move.after, now)


class _Weeks:
    """The plan at one moment, inside a transaction."""

    def __init__(self, store: Store, db: Database, actor: Actor, working: Working, now: datetime) -> None:
        self.store, self.db, self.working, self.now = store, db, working, now
        self.book = current_book(store, now)
        self.today = day_of(self.book, now)
        self._orders = WholeOrders(store, db, actor, now)

    def propose(self, weeks: int) -> tuple[BetterWeeks, Sequence[_Shell]]:
        last = week_of(self.today) + timedelta(weeks=weeks, days=4)
        shells = sorted(self._shells(last), key=_by_deposit)
        full = shop_of(self.db, self.book, self.working, self.today)
        stays = {one.had.seat: why for one in shells if (why := self._stays(one, full)) is not None}
        free = [one for one in shells if one.had.seat not in stays]
        found = self._better(free)
        moves = () if found is None else tuple(_moves(free, found.promises))
        proposal = replace(proposal_of(moves), stock=self._making_room(free, found) if moves else ())
        return BetterWeeks(self.today, last, len(shells), tuple(stays.items()), found, proposal), free

    def _shells(self, last: date) -> Iterator[_Shell]:
        """With a slot that is still to come, up to that day."""
        for seat in kept.visiting(self.db, self.today, last):
            had, whole = kept.promised(self.db, seat), self._orders.get(seat.number)
            if had is None or seat.place not in whole.places or whole.past_slot(seat.place, had.promise.slot):
                continue
            if had.promise.slot <= last:
                gated = gated_shell(whole, seat.place)
                made, route = gated.frozen.settled, gated.route
                yield _Shell(had, whole, gated, wanted_of(whole.book, made, route, gated.gates, had.promise.slot))

    def _stays(self, shell: _Shell, full: Shop) -> Stays | None:
        """Days by another book than the one in force are not weighed against days by this one."""
        book = shell.whole.book
        if (book.stages, book.calendar) != (self.book.stages, self.book.calendar):
            return Stays.OTHER_BOOK
        slot = shell.had.promise.slot
        late = shell.had.late or shell.gated.gates.undated or earliest_slot(shell.wanted, full, self.today) > slot
        return Stays.LATE if late else None

    def _better(self, free: Sequence[_Shell]) -> Better | None:
        """None where a day would lie beyond the years whose holidays are known."""
        without = shop_of(self.db, self.book, self.working, self.today, *(one.had.seat for one in free))
        if not without.slot_stage:
            return None
        seated = [_seated(one, without, self.today) for one in free]
        try:
            return better_order(self.book, seated, without, self.today)
        except HolidaysUnknown:
            return None

    def _making_room(self, free: Sequence[_Shell], found: Better | None) -> tuple[StockMove, ...]:
        """What is built for stock and goes to another slot because of it."""
        made = () if found is None else found.promises
        more = [visit for one, to in zip(free, made, strict=True) for visit in visits_of(to, one.wanted.kinds)]
        seats = (one.had.seat for one in free)
        full = shop_of(self.db, self.book, self.working, self.today, *seats, more=more)
        return what_makes_room(self.store, self.db, full, self.now)


def _seated(shell: _Shell, full: Shop, today: date) -> Seated:
    """It comes no sooner than its gates, and the work before the slot, let it; where it is, it may stay."""
    working: WorkingDays = full.working
    begun = working.add(today, shell.gated.route.before_slot)
    earliest = max(earliest_slot(shell.wanted, full, today), min(begun, shell.had.promise.slot))
    return Seated(shell.wanted, shell.had.promise, earliest)


def _by_deposit(shell: _Shell) -> tuple[date, datetime, int, int]:
    said, seat = shell.whole.said.get((0, DEPOSIT)), shell.had.seat
    day, at = (date.max, shell.had.at) if said is None else (said.day, said.at)
    return day, at, seat.order, seat.place


def _moves(shells: Sequence[_Shell], after: Sequence[Promise]) -> Iterator[Move]:
    """Those whose promise is not what it was, by their new slots."""
    pairs = [(one, to) for one, to in zip(shells, after, strict=bool(after)) if _told(one.had.promise) != _told(to)]
    for one, to in sorted(pairs, key=lambda pair: pair[1].slot):
        yield Move(one.had.seat, one.whole.book, one.whole.order.frozen.customer, one.had.promise, to)


def _told(promise: Promise) -> object:
    """What is planned and promised; what binds it may be said otherwise by another day."""
    return [(step.stage, step.start, step.end) for step in promise.steps], promise.ready, promise.ready_by

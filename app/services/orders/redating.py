"""What a change on one shell does to its days: kept, planned anew, or those of another that is built for the wish."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.floor.shell import Stop, points
from app.domain.orders.change_note import Range
from app.domain.planning.slots import Move, Proposal
from app.domain.quotations.quotation import FrozenLine
from app.services.floor.finding import FoundShell
from app.services.orders.seating import GatedShell, gated_shell
from app.services.planning.dating import Working, promised, shop_of, wanted_of
from app.services.planning.making_room import what_makes_room
from app.services.planning.promising import proposal_of
from app.store import slots
from app.store.db import Store
from rules.answer import Depends
from rules.model import Book
from rules.schedule.capacity import Shop, slot_stage_of
from rules.schedule.promise import GateDay, Promise, Wanted, dated, visits_of
from rules.schedule.replan import replanned


@dataclass(frozen=True, slots=True)
class Instead:
    """Where the shell can't be changed: it is finished as it is, for stock, and the wish has a slot of its own.

    `slot`, `ready` None: no day can be named.
    """

    slot: date | None
    ready: Range | None


@dataclass(frozen=True, slots=True)
class Redating:
    """The shell at its place, inside a transaction that sees everybody's slots. Writes nothing."""

    store: Store
    db: Database
    at: FoundShell
    working: Working
    now: datetime

    @property
    def book(self) -> Book:
        return self.at.whole.book

    @property
    def today(self) -> date:
        return self.at.whole.today

    def route(self, frozen: FrozenLine) -> tuple[Stop, ...]:
        """Of a released shell: the stages on which days are spent, and those that are through whatever changes."""
        shell = self.at.shell
        if not shell.deeds:
            return ()
        days = {stage.stage: stage.days for stage in self._gated(frozen).route.stages}
        through = shell.progress.through
        return tuple(Stop(one.id, one.work) for one in self.book.stages if days.get(one.id) or one.id in through)

    def _gated(self, frozen: FrozenLine) -> GatedShell:
        place, shells = self.at.gated.seat.place, list(self.at.whole.shells)
        shells[place - 1] = (shells[place - 1][0], frozen)
        return gated_shell(replace(self.at.whole, shells=tuple(shells)), place)

    def moved(self, frozen: FrozenLine) -> tuple[Proposal | None, Promise | None, Wanted | None]:
        """What of the plan moves, the promise after it, and what it is dated by. A shell without a slot moves none."""
        seat, gated = self.at.gated.seat, self._gated(frozen)
        had, today = slots.promised(self.db, seat), self.today
        if had is None:
            return None, None, None
        wanted = wanted_of(self.book, frozen.settled, gated.route, gated.gates, had.promise.slot)
        full = shop_of(self.db, self.book, self.working, today, seat)
        after = had.promise if gated.gates.undated else self._dated(had.promise, wanted, full, today)
        if after is None or after == had.promise:
            return None, had.promise, wanted
        stock = what_makes_room(self.store, self.db, full.plus(visits_of(after, wanted.kinds)), self.now)
        move = Move(seat, self.book, self.at.whole.order.frozen.customer, had.promised, after)
        return replace(proposal_of((move,)), stock=stock), after, wanted

    def _dated(self, made: Promise, wanted: Wanted, full: Shop, today: date) -> Promise | None:
        """One that has come to its slot keeps what is done; any other is planned with its slot, or a later one."""
        before = self.at.gated.route
        if made.slot <= today or slot_stage_of(self.book) in come_into(self.at):
            through = self.at.shell.progress.through
            return replanned(self.book, made, before, wanted, through, full, today)
        more = wanted.route.before_slot - before.before_slot if self.at.shell.deeds else 0
        if more > 0:
            late = GateDay("change", made.slot, slot_stage_of(self.book), more)
            wanted = replace(wanted, gates=(*wanted.gates, late))
        found = promised(self.book, wanted, full, today)
        same = found is not None and [(s.start, s.end) for s in found.steps] == [(s.start, s.end) for s in made.steps]
        return made if same else found

    def instead(self, after: Mapping[str, str], depends: Depends) -> Instead:
        gated = self._gated(replace(self.at.gated.frozen, settled=dict(after), depends=depends, approved=()))
        full = shop_of(self.db, self.book, self.working, self.today)
        wanted = wanted_of(self.book, after, gated.route, replace(gated.gates, gates=()), None)
        opened = GateDay("specification", self.today, slot_stage_of(self.book), gated.route.to_slot)
        made = promised(self.book, replace(wanted, gates=(opened,)), full, self.today, dated)
        return Instead(None if made is None else made.slot, range_of(made))


def come_into(at: FoundShell) -> tuple[str, ...]:
    """The points that the shell has come into, in order."""
    return points(at.shell.deeds, at.shell.route)[0]


def range_of(promise: Promise | None) -> Range | None:
    return None if promise is None else Range(promise.ready, promise.ready_by)

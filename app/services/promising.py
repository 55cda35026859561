"""Slots of orders: a cleared deposit takes one, nothing moves in silence, and what moves is listed before and after.

All that decides about a slot happens inside one writing transaction: of two deposits the first committed has it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from hashlib import sha256

from sqlite_utils import Database

from app.domain.actor import Actor
from app.domain.errors import DepositShort, Fault, NoSlot, NotFound, PlanMoved, SlotBarred
from app.domain.gates import BY_HAND, OF_THE_ORDER, Gates, Key, Said, gates_of
from app.domain.order import Order
from app.domain.quotation import FrozenLine
from app.domain.slots import Act, Barred, Due, Kept, Move, Proposal, Seat
from app.services.accounts import opened
from app.services.checking import refuse
from app.services.dating import Working, back_of, due_of, promised, shop_of, wanted_of
from app.services.once import Once, perform
from app.services.ordering import note, own_order
from app.services.pricing import day_of
from app.services.publishing import book as book_of
from app.services.tools import tool_states
from app.store import slots as kept
from app.store.db import Store
from app.store.frozen import frozen_text
from rules.capacity import Shop, Visit
from rules.days import Route, route_days
from rules.model import Book
from rules.promise import Promise, Wanted, earliest_slot, visits_of


@dataclass(frozen=True, slots=True)
class Shown:
    """A shell's gates and its promise. `kept` None: it has no slot, and `now` is what it would be promised today.

    `now`: worked out with today's gates and its slot, None where no day can be named; where it differs from `kept`, the
    promise needs planning anew. `undated`: tools that are down and nobody knows until when.
    """

    seat: Seat
    line: int
    settled: Mapping[str, str]
    due: tuple[Due, ...]
    said: Mapping[Key, Said]
    undated: tuple[str, ...]
    kept: Kept | None
    now: Promise | None

    @property
    def adrift(self) -> bool:
        """What was promised no longer holds as it stands."""
        if self.kept is None:
            return False
        was, now = self.kept.promise, self.now
        return now is None or now.slot != was.slot or now.ready_by > was.ready_by


@dataclass(frozen=True, slots=True)
class OrderDates:
    """`book`: the one that the order was quoted by. `today` where the firm is."""

    order: Order
    book: Book
    today: date
    shells: tuple[Shown, ...]


def order_dates(store: Store, actor: Actor, number: str, working: Working, now: datetime) -> OrderDates:
    """Every shell of the order with its gates and its promise. Raises NotFound."""
    with store.reading() as db:
        return _dates(store, db, own_order(db, actor, number, now), working, now)


def say_gate(
    store: Store,
    actor: Actor,
    number: str,
    place: int,
    key: Key,
    day: date,
    working: Working,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """That a gate opened, or is expected to open, on that day; an opened deposit takes a slot for each shell.

    `place` of the shell counts from 1; 0: gates of the whole order. Raises NotFound, BadInput, DepositShort, KeyReused,
    Underway.
    """

    def write(db: Database) -> int:
        order = own_order(db, actor, number, now)
        dates = _dates(store, db, order, working, now)
        refuse(_gate_faults(dates, place, key))
        if key[0] == "deposit" and day <= dates.today and not opened(db, actor, number, now).account.deposit_met:
            raise DepositShort(number=number)
        kept.say_gate(db, order.id, place, key, day, actor.name, now)
        note(db, number, f"gate-{key[0]}", actor, now, of=key[1], day=day.isoformat(), shell=str(place))
        _take(store, db, actor, order, working, now)
        return place

    perform(store, once, now, write)


def propose(
    store: Store, actor: Actor, number: str, place: int, day: date | None, swap: bool, working: Working, now: datetime
) -> Proposal:
    """What it would do to give this shell the slot of `day` (None: to give its slot up). Writes nothing.

    A day that another shell has: the two change places (`swap`), or the other goes to the next free slot after it.
    Raises NotFound, NoSlot.
    """
    with store.reading() as db:
        return _Moving(store, db, actor, working, now).proposal(number, place, day, swap)


def move(
    store: Store,
    actor: Actor,
    number: str,
    place: int,
    day: date | None,
    swap: bool,
    token: str,
    working: Working,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """Do what was proposed, if it is still that.

    Raises NotFound, NoSlot, SlotBarred, PlanMoved, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        moving = _Moving(store, db, actor, working, now)
        proposal = moving.proposal(number, place, day, swap)
        if proposal.barred is not None:
            raise SlotBarred(number=number, why=proposal.barred.value, day=proposal.earliest)
        if proposal.token != token:
            raise PlanMoved(number=number)
        moving.carry_out(proposal)
        return place

    perform(store, once, now, write)


class _Moving:
    """One shell's move, inside a transaction that sees everybody's slots."""

    def __init__(self, store: Store, db: Database, actor: Actor, working: Working, now: datetime) -> None:
        self.store, self.db, self.actor, self.working, self.now = store, db, actor, working, now

    def proposal(self, number: str, place: int, day: date | None, swap: bool) -> Proposal:
        own = self._shell(number, place)
        if own.kept is None:
            raise NoSlot(number=number)
        if day is None:
            return _proposal((self._move(own.kept, None),))
        other = kept.holder(self.db, day)
        others = None if other is None or other == own.seat else self._shell(other.number, other.place)
        return self._rearranged(own, others, day, swap)

    def carry_out(self, proposal: Proposal) -> None:
        """Give up all places first: two that change places never hold one slot at once."""
        for one in proposal.moves:
            kept.give_up(self.db, one.seat)
        for one in proposal.moves:
            act = Act.RELEASED if one.after is None else Act.MOVED
            _keep(self.store, self.db, self.actor, self.now, one.seat, act, one.after)

    def _rearranged(self, own: Shown, other: Shown | None, day: date, swap: bool) -> Proposal:
        leave = [own.seat, *([] if other is None else [other.seat])]
        first = self._planned(own, day, leave, [])
        if isinstance(first, Proposal):
            return first
        assert own.kept is not None
        moves = [self._move(own.kept, first)]
        if other is not None:
            assert other.kept is not None
            goes = own.kept.promise.slot if swap else None
            taken = _visits(self.store, self.db, own.seat, first, self.now)
            second = self._planned(other, goes, leave, taken)
            if isinstance(second, Proposal):
                return second
            moves.append(self._move(other.kept, second))
        return _proposal(tuple(moves))

    def _planned(self, shell: Shown, day: date | None, leave: list[Seat], taken: list[Visit]) -> Promise | Proposal:
        """With that very slot, or why not; `day` None: the first that is free."""
        order = own_order(self.db, _EVERYBODY, shell.seat.number, self.now)
        book, today = _book(self.store, order), _today(self.store, order, self.now)
        full = shop_of(self.db, book, self.working, today, *leave, more=taken)
        frozen, route = _shell_of(book, order, shell.seat.place)
        gates = Gates(tuple(due.gate for due in shell.due), shell.undated)
        wanted = wanted_of(book, frozen.settled, route, gates, day)
        earliest = earliest_slot(wanted, full, today)
        barred = None if day is None else _barred(day, today, earliest, full.working.is_working(day))
        made = None if shell.undated or barred else promised(book, wanted, full, today)
        if made is None:
            return Proposal((), "", barred or Barred.GATE, earliest)
        kind = wanted.kinds.get(full.slot_stage, "")
        step = next(step for step in made.steps if step.stage == full.slot_stage)
        if day is not None and not full.fits(Visit(full.slot_stage, step.start, step.end, kind)):
            free = promised(book, replace(wanted, slot=None), full, today)
            return Proposal((), "", Barred.FULL, None if free is None else free.slot)
        return made

    def _move(self, was: Kept, after: Promise | None) -> Move:
        customer = own_order(self.db, _EVERYBODY, was.seat.number, self.now).frozen.customer
        return Move(was.seat, customer, was.promise, after)

    def _shell(self, number: str, place: int) -> Shown:
        order = own_order(self.db, self.actor, number, self.now)
        dates = _dates(self.store, self.db, order, self.working, self.now)
        found = next((shell for shell in dates.shells if shell.seat.place == place), None)
        if found is None:
            raise NotFound(what="shell", name=f"{number} {place}")
        return found


@dataclass(frozen=True, slots=True)
class _Everybody:
    name: str = ""
    display_name: str = ""
    dealer: str | None = None


_EVERYBODY = _Everybody()


def _dates(store: Store, db: Database, order: Order, working: Working, now: datetime) -> OrderDates:
    book, today = _book(store, order), _today(store, order, now)
    said, tools = kept.gates_said(db, order.id), back_of(tool_states(store))
    shells = []
    for place, (line, frozen) in enumerate(_shells(order), start=1):
        seat, route = Seat(order.id, order.number, place), route_days(book, frozen.settled, order.frozen.donor.facts())
        own = {key: one for (at, key), one in said.items() if at == (0 if key[0] in OF_THE_ORDER else place)}
        days = {key: one.day for key, one in own.items()} | _approved(frozen, own)
        gates = gates_of(book, route, frozen.depends, days, tools, today)
        had = kept.promised(db, seat)
        wanted = wanted_of(book, frozen.settled, route, gates, None if had is None else had.promise.slot)
        full = shop_of(db, book, working, today, seat)
        live = _live(book, wanted, full, today, had, gates)
        made = live if had is None else had.promise
        due = due_of(gates, made, full.working) if made is not None else tuple(Due(gate, None) for gate in gates.gates)
        shells.append(Shown(seat, line, frozen.settled, due, own, gates.undated, had, live))
    return OrderDates(order, book, today, tuple(shells))


def _live(book: Book, wanted: Wanted, full: Shop, today: date, had: Kept | None, gates: Gates) -> Promise | None:
    """A shell whose slot has come is past its gates: until the workshop records stages its promise stands."""
    if had is not None and had.promise.slot <= today:
        return had.promise
    return None if gates.undated else promised(book, wanted, full, today)


def _take(store: Store, db: Database, actor: Actor, order: Order, working: Working, now: datetime) -> None:
    """A slot for every shell that has none, once the deposit is through."""
    said = kept.gates_said(db, order.id).get((0, ("deposit", "")))
    if said is None or said.day > _today(store, order, now):
        return
    for place, _ in enumerate(_shells(order), start=1):
        shell = _dates(store, db, order, working, now).shells[place - 1]
        if shell.kept is None and shell.now is not None:
            _keep(store, db, actor, now, shell.seat, Act.TAKEN, shell.now)


def _keep(store: Store, db: Database, actor: Actor, now: datetime, seat: Seat, act: Act, made: Promise | None) -> None:
    order = own_order(db, _EVERYBODY, seat.number, now)
    _, route = _shell_of(_book(store, order), order, seat.place)
    if made is not None:
        kept.plan(db, seat, _visits(store, db, seat, made, now), made.slot)
    kept.promise(db, seat, act, made, frozen_text(route), actor.name, now)
    facts = {} if made is None else {"day": made.slot.isoformat()}
    note(db, seat.number, f"slot-{act.value}", actor, now, shell=str(seat.place), **facts)


def _visits(store: Store, db: Database, seat: Seat, made: Promise, now: datetime) -> list[Visit]:
    order = own_order(db, _EVERYBODY, seat.number, now)
    book = _book(store, order)
    frozen, route = _shell_of(book, order, seat.place)
    return list(visits_of(made, wanted_of(book, frozen.settled, route, Gates(())).kinds))


def _barred(day: date, today: date, earliest: date, works: bool) -> Barred | None:
    if day < today:
        return Barred.PAST
    if not works:
        return Barred.CLOSED
    return Barred.GATE if day < earliest else None


def _proposal(moves: tuple[Move, ...]) -> Proposal:
    told = [(move.seat.number, move.seat.place, move.before, move.after) for move in moves]
    text = "".join(f"{number} {place} {frozen_text(was)} {frozen_text(to)}" for number, place, was, to in told)
    return Proposal(moves, sha256(text.encode()).hexdigest())


def _gate_faults(dates: OrderDates, place: int, key: Key) -> Iterator[Fault]:
    """Each gate is said of what it belongs to, and only where there is such a gate."""
    if key[0] not in BY_HAND:
        yield Fault("gate", "not-one-of", {"allowed": BY_HAND})
    elif key[0] in OF_THE_ORDER:
        if place or key[1]:
            yield Fault("shell", "not-one-of", {"allowed": (0,)})
    elif not 0 < place <= len(dates.shells):
        yield Fault("shell", "not-one-of", {"allowed": tuple(shell.seat.place for shell in dates.shells)})
    elif all((due.gate.name, due.gate.of) != key for due in dates.shells[place - 1].due):
        yield Fault("of", "not-one-of", {"allowed": [d.gate.of for d in dates.shells[place - 1].due if d.gate.of]})


def _approved(frozen: FrozenLine, said: Mapping[Key, Said]) -> dict[Key, date]:
    """Given before the revision was issued."""
    given = {("approvals", one.rule): one.day for one in frozen.approved}
    return {key: day for key, day in given.items() if key not in said}


def _shells(order: Order) -> Iterator[tuple[int, FrozenLine]]:
    """Line (from 1) and specification of every shell, in the order of their places."""
    for number, line in enumerate(order.lines, start=1):
        for _ in line.shells:
            if line.line.frozen is not None:
                yield number, line.line.frozen


def _shell_of(book: Book, order: Order, place: int) -> tuple[FrozenLine, Route]:
    _, frozen = list(_shells(order))[place - 1]
    return frozen, route_days(book, frozen.settled, order.frozen.donor.facts())


def _book(store: Store, order: Order) -> Book:
    return book_of(store, order.revision.book or 0)


def _today(store: Store, order: Order, now: datetime) -> date:
    return day_of(_book(store, order), now)

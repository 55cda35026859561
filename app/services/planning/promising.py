"""Slots of orders: a cleared deposit takes one, nothing moves in silence, and what moves is listed before and after.

All that decides about a slot happens inside one writing transaction: of two deposits the first committed has it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from hashlib import sha256

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import DepositShort, Fault, NoSlot, NotFound, PlanMoved, SlotBarred
from app.domain.floor.gates import BY_HAND, OF_THE_ORDER, Gates, Key, Said
from app.domain.orders.order import Order
from app.domain.part import GATE as PARTS
from app.domain.planning.slots import Act, Barred, Due, Kept, Move, Proposal, Seat, still_taken
from app.domain.stock import StockMove
from app.services.answering.checking import refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.services.money.accounts import deposit_met
from app.services.once import Once, perform
from app.services.orders.at_fault import faults_in
from app.services.orders.ordering import note, own_order
from app.services.orders.seating import DEPOSIT, SPECIFICATION, WholeOrder, WholeOrders, gated_shell, whole_order
from app.services.planning.dating import Working, due_of, promised, shop_of, wanted_of
from app.services.planning.making_room import make_room, what_makes_room
from app.services.stock.taking_from_stock import allocate_promised
from app.store import slots as kept
from app.store.db import Store
from app.store.frozen import frozen_text
from rules.model import Book
from rules.schedule.capacity import Shop, Visit
from rules.schedule.promise import Promise, Wanted, earliest_slot, visits_of


@dataclass(frozen=True, slots=True)
class Shown:
    """A shell's gates and its promise. `kept` None: it has no slot, and `now` is what it would be promised today.

    `wanted`: what it is dated by. `now`: worked out with today's gates and its slot, None where no day can be named;
    where it differs from `kept`, the promise needs planning anew. `undated`: tools that are down with no day named.
    `faults`: what is wrong by each safety fault that stops it: while one stands, no day of it holds.
    """

    seat: Seat
    line: int
    wanted: Wanted
    due: tuple[Due, ...]
    said: Mapping[Key, Said]
    undated: tuple[str, ...]
    kept: Kept | None
    now: Promise | None
    faults: tuple[Mapping[str, str], ...] = ()

    @property
    def adrift(self) -> bool:
        """What was promised no longer holds as it stands."""
        if self.kept is None:
            return False
        planned, was, now = self.kept.promise, self.kept.promised, self.now
        return now is None or now.slot != planned.slot or now.ready > was.ready


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
        return dates_of(store, db, own_order(db, actor, number, now), working, now)


def dates_of(store: Store, db: Database, order: Order, working: Working, now: datetime) -> OrderDates:
    """As `order_dates`, of an order that was read, inside a transaction."""
    whole = whole_order(store, db, order, now)
    return OrderDates(order, whole.book, whole.today, tuple(_one_behind_the_other(db, whole, working)))


def _one_behind_the_other(db: Database, whole: WholeOrder, working: Working) -> Iterator[Shown]:
    """As their slots will be taken: shells that have none yet don't all stand in the one that is free next."""
    ahead: list[Visit] = []
    for place in whole.places:
        shown = _shown(db, whole, place, working, ahead)
        if shown.kept is None and shown.now is not None and place in whole.wanting:
            ahead += visits_of(shown.now, shown.wanted.kinds)
        yield shown


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
        before = whole_order(store, db, order, now)
        refuse(_gate_faults(before, place, key, lambda: _shown(db, before, place, working).due))
        refuse((*_part_faults(before.today, key, day), *_signed_faults(before, key, day)))
        if key == DEPOSIT and day <= before.today and not deposit_met(db, order):
            raise DepositShort(number=number)
        kept.say_gate(db, order.id, place, key, day, actor.name, now)
        note(db, number, f"gate-{key[0]}", actor, now, of=key[1], day=day.isoformat(), shell=str(place))
        take_slots(store, db, actor, number, working, now)
        make_room(store, db, actor, working, now, number)
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
            raise PlanMoved()
        moving.carry_out(proposal)
        make_room(store, db, actor, working, now, number)
        return place

    perform(store, once, now, write)


class _Moving:
    """One shell's move, inside a transaction that sees everybody's slots. No shell is read twice."""

    def __init__(self, store: Store, db: Database, actor: Actor, working: Working, now: datetime) -> None:
        self.store, self.db, self.actor, self.working, self.now = store, db, actor, working, now
        self._orders = WholeOrders(store, db, actor, now)
        self._read: dict[tuple[str, int], tuple[WholeOrder, Shown]] = {}

    def proposal(self, number: str, place: int, day: date | None, swap: bool) -> Proposal:
        own = self._shell(number, place)
        if own.kept is None:
            raise NoSlot(number=number)
        if self._begun(own):
            return Proposal((), "", Barred.BEGUN)
        if day is None:
            return proposal_of((self._move(own.kept, None),))
        other = kept.holder(self.db, day)
        others = None if other is None or other == own.seat else self._shell(other.number, other.place)
        if others is not None and self._begun(others):
            return Proposal((), "", Barred.BEGUN)
        return self._rearranged(own, others, day, swap)

    def carry_out(self, proposal: Proposal) -> None:
        """Give up all places first: two that change places never hold one slot at once."""
        for one in proposal.moves:
            kept.give_up(self.db, one.seat)
        for one in proposal.moves:
            act = Act.RELEASED if one.after is None else Act.MOVED
            keep(
                self.db,
                self.actor,
                one.seat,
                self._shell(one.seat.number, one.seat.place).wanted,
                act,
                one.after,
                self.now,
            )

    def _rearranged(self, own: Shown, other: Shown | None, day: date, swap: bool) -> Proposal:
        leave = [own.seat, *([] if other is None else [other.seat])]
        first = self._planned(own, day, leave, ())
        if isinstance(first, Proposal):
            return first
        assert own.kept is not None
        moves = [self._move(own.kept, first)]
        if other is not None:
            assert other.kept is not None
            goes = own.kept.promise.slot if swap else None
            second = self._planned(other, goes, leave, visits_of(first, own.wanted.kinds))
            if isinstance(second, Proposal):
                return second
            moves.append(self._move(other.kept, second))
        return replace(proposal_of(tuple(moves)), stock=self._making_room(moves))

    def _making_room(self, moves: Sequence[Move]) -> tuple[StockMove, ...]:
        """What is built for stock and goes to another slot because of these."""
        book = current_book(self.store, self.now)
        wanted = {move.seat: self._shell(move.seat.number, move.seat.place).wanted for move in moves}
        more = [visit for move in moves if move.after for visit in visits_of(move.after, wanted[move.seat].kinds)]
        full = shop_of(self.db, book, self.working, day_of(book, self.now), *wanted, more=more)
        return what_makes_room(self.store, self.db, full, self.now)

    def _planned(
        self, shell: Shown, day: date | None, leave: Sequence[Seat], taken: Sequence[Visit]
    ) -> Promise | Proposal:
        """With that very slot, or why not; `day` None: the first that is free."""
        whole, _ = self._read[shell.seat.number, shell.seat.place]
        full = shop_of(self.db, whole.book, self.working, whole.today, *leave, more=taken)
        wanted = replace(shell.wanted, slot=day)
        earliest = earliest_slot(wanted, full, whole.today)
        barred = None if day is None else _barred(day, whole.today, earliest, full.working.is_working(day))
        made = None if shell.undated or barred else promised(whole.book, wanted, full, whole.today)
        if made is None:
            return Proposal((), "", barred or Barred.GATE, earliest)
        step = next(step for step in made.steps if step.stage == full.slot_stage)
        kind = wanted.kinds.get(full.slot_stage, "")
        if day is not None and not full.fits(Visit(full.slot_stage, step.start, step.end, kind)):
            free = promised(whole.book, replace(wanted, slot=None), full, whole.today)
            return Proposal((), "", Barred.FULL, None if free is None else free.slot)
        return made

    def _begun(self, shell: Shown) -> bool:
        """Its slot has come: it is in the workshop."""
        whole, _ = self._read[shell.seat.number, shell.seat.place]
        return shell.kept is not None and whole.past_slot(shell.seat.place, shell.kept.promise.slot)

    def _move(self, was: Kept, after: Promise | None) -> Move:
        whole, _ = self._read[was.seat.number, was.seat.place]
        return Move(was.seat, whole.book, whole.order.frozen.customer, was.promised, after)

    def _shell(self, number: str, place: int) -> Shown:
        if (number, place) not in self._read:
            whole = self._orders.get(number)
            if place not in whole.places:
                raise NotFound(what="shell", name=f"{number} {place}")
            self._read[number, place] = whole, _shown(self.db, whole, place, self.working)
        return self._read[number, place][1]


def _shown(db: Database, whole: WholeOrder, place: int, working: Working, ahead: Iterable[Visit] = ()) -> Shown:
    """As the plan stands now, and what goes `ahead` of it without having its slots yet."""
    gated = gated_shell(whole, place)
    seat, gates = gated.seat, gated.gates
    had = kept.promised(db, seat)
    slot = None if had is None else had.promise.slot
    wanted = wanted_of(whole.book, gated.frozen.settled, gated.route, gates, slot)
    full = shop_of(db, whole.book, working, whole.today, seat, more=ahead)
    past = had is not None and whole.past_slot(place, had.promise.slot)
    live = had.promise if had is not None and past else _live(whole, wanted, full, gates)
    made = live if had is None else had.promise
    due = due_of(gates, made, full.working) if made is not None else tuple(Due(gate, None) for gate in gates.gates)
    faults = tuple(why for _, why in faults_in(whole, gated, whole.order.shells[place - 1]))
    return Shown(seat, gated.line, wanted, due, gated.said, gates.undated, had, live, faults)


def _live(whole: WholeOrder, wanted: Wanted, full: Shop, gates: Gates) -> Promise | None:
    """Of one that is before its slot: whoever is past it is past his gates, and his promise stands."""
    return None if gates.undated else promised(whole.book, wanted, full, whole.today)


def take_slots(store: Store, db: Database, actor: Actor, number: str, working: Working, now: datetime) -> None:
    """Once the deposit is through: what was taken from stock, and a slot for every other shell that has none.

    Each is planned behind the one before it. Inside a transaction.
    """
    whole = whole_order(store, db, own_order(db, actor, number, now), now)
    if not whole.deposit_through:
        return
    allocate_promised(store, db, actor, whole, working, now)
    whole = whole_order(store, db, own_order(db, actor, number, now), now)
    for place in whole.wanting:
        shell = _shown(db, whole, place, working)
        if shell.kept is None and shell.now is not None:
            keep(db, actor, shell.seat, shell.wanted, Act.TAKEN, shell.now, now)


def keep(
    db: Database,
    actor: Actor,
    seat: Seat,
    wanted: Wanted,
    act: Act,
    made: Promise | None,
    now: datetime,
    *,
    behind: tuple[Collection[str], date] = ((), date.min),
) -> None:
    """Write the promise down, and its place in the plan, of which it holds none at that moment.

    `behind`: the stages that it has done, and the day on which that is so.
    """
    if made is not None:
        kept.plan(db, seat, still_taken(visits_of(made, wanted.kinds), *behind), made.slot)
    kept.promise(db, seat, act, made, frozen_text(wanted.route), actor.name, now)
    facts = {} if made is None else {"day": made.slot.isoformat()}
    note(db, seat.number, f"slot-{act.value}", actor, now, shell=str(seat.place), **facts)


def _barred(day: date, today: date, earliest: date, works: bool) -> Barred | None:
    if day < today:
        return Barred.PAST
    if not works:
        return Barred.CLOSED
    return Barred.GATE if day < earliest else None


def proposal_of(moves: tuple[Move, ...]) -> Proposal:
    """The list with the token that names exactly it."""
    told = [(move.seat.number, move.seat.place, move.before, move.after) for move in moves]
    text = "".join(f"{number} {place} {frozen_text(was)} {frozen_text(to)}" for number, place, was, to in told)
    return Proposal(moves, sha256(text.encode()).hexdigest())


def _part_faults(today: date, key: Key, day: date) -> Iterator[Fault]:
    """A customer's part opens its own gate, by its receipt: by hand it can be expected and no more."""
    if key[0] == PARTS and day <= today:
        yield Fault("day", "part-opens-its-gate")


def _signed_faults(whole: WholeOrder, key: Key, day: date) -> Iterator[Fault]:
    """Nobody signs a specification before it was issued: a year mistyped would stand as the customer's signature."""
    issued = whole.order.revision.issued_at
    if key == SPECIFICATION and issued is not None and day < day_of(whole.book, issued):
        yield Fault("day", "signed-before-issue", {"day": day_of(whole.book, issued)})


def _gate_faults(whole: WholeOrder, place: int, key: Key, due: Callable[[], tuple[Due, ...]]) -> Iterator[Fault]:
    """Each gate is said of what it belongs to, and only where there is such a gate. `due`: those of the shell."""
    if key[0] not in BY_HAND:
        yield Fault("gate", "not-one-of", {"allowed": BY_HAND})
    elif key[0] in OF_THE_ORDER:
        if place or key[1]:
            yield Fault("shell", "not-one-of", {"allowed": (0,)})
    elif place not in whole.places:
        yield Fault("shell", "not-one-of", {"allowed": tuple(whole.places)})
    elif all((one.gate.name, one.gate.of) != key for one in due()):
        yield Fault("of", "not-one-of", {"allowed": [one.gate.of for one in due() if one.gate.of]})

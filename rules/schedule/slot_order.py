"""A better order of the slots that shells already have: fewest changeovers, then least lateness, then order of deposit.

The days stay, the shells change places. Every promise is kept: no shell is ready after the last day that was promised,
and none comes before what it waits for. Moves nothing; a person decides.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import pairwise
from typing import NamedTuple

from rules.model import Book, Stage
from rules.schedule.capacity import Shop
from rules.schedule.days import WorkingDays
from rules.schedule.promise import Promise, Wanted, dated, promise, visits_of

#: Shells dated in one search, at most: beyond it the best so far is told, and that it is only that.
MOST_DATED = 1_500
#: Orders of kinds looked at in one search, at most: the same holds.
MOST_ROWS = 20_000


class Merit(NamedTuple):
    """The less the better, from left to right. `late`: working days of all promises' width used up together.

    `order`: places of the shells in order of deposit, slot by slot.
    """

    changeovers: int
    late: int
    order: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Seated:
    """A shell that may change its slot. `promised`: as the customer was told; not to be framed before `earliest`."""

    wanted: Wanted
    promised: Promise
    earliest: date


@dataclass(frozen=True, slots=True)
class Better:
    """`best` None: no better order was found. `promises`: by it, in the order in which the shells were handed in.

    `whole`: every order was weighed, so there is no better one; else only so many of them.
    """

    now: Merit
    best: Merit | None
    promises: tuple[Promise, ...]
    whole: bool


def better_order(book: Book, shells: Sequence[Seated], shop: Shop, today: date, most: int = MOST_DATED) -> Better:
    """`shells` in order of deposit, `shop` without them. At most `most` shells are dated in the search.

    Raises HolidaysUnknown.
    """
    looking = _Looking(book, shells, shop, today, most)
    if len(shells) > 1:
        looking.look()
    best = None if looking.found is None else looking.best
    made = () if best is None else tuple(_told(book, shells, shop, today, best.order))
    return Better(looking.now, best, made, looking.left > 0)


def _told(book: Book, shells: Sequence[Seated], shop: Shop, today: date, order: Sequence[int]) -> Iterator[Promise]:
    """With what binds each, in the order in which the shells were handed in."""
    days, told = sorted(shell.promised.slot for shell in shells), dict[int, Promise]()
    for n, day in zip(order, days, strict=True):
        made = promise(book, replace(shells[n].wanted, slot=day), shop, today)
        if made is not None:
            shop = shop.plus(visits_of(made, shells[n].wanted.kinds))
            told[n] = _kept_to(made, shells[n].promised)
    return (told[n] for n in range(len(shells)))


def _used_up(book: Book, ready: date, promised: Promise, working: WorkingDays) -> int:
    """Working days of the promise's width: how much later a fresh promise of that day would end."""
    return working.between(promised.ready_by, working.add(ready, book.calendar.spread))


@dataclass(slots=True)
class _Looking:
    """Depth first, slot after slot, with as few changeovers as there can be, then one more, and so on."""

    book: Book
    shells: Sequence[Seated]
    shop: Shop
    today: date
    left: int
    days: list[date] = field(init=False)
    stage: Stage = field(init=False)
    between: list[list[str]] = field(init=False)
    soonest: list[list[int | None]] = field(init=False)
    full: Shop = field(init=False)
    now: Merit = field(init=False)
    best: Merit = field(init=False)
    found: tuple[Promise, ...] | None = None  # slot by slot
    rows_left: int = MOST_ROWS
    rows: set[tuple[str, ...]] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.days = sorted(shell.promised.slot for shell in self.shells)
        self.stage = self.shop.stages[self.shop.slot_stage]
        self.between = list(_fixed(self.shop, self.days))
        self.soonest = [[self._late_at(shell, day) for day in self.days] for shell in self.shells]
        self.full = self.shop.plus(visit for one in self.shells for visit in visits_of(one.promised, one.wanted.kinds))
        self.now = self.best = self._merit_now()

    def look(self) -> None:
        for changes in range(self.now.changeovers + 1):
            if changes < self.now.changeovers:
                self.best = Merit(changes, self._most_late(), (len(self.shells),))
            else:
                self.best = self.now
            self.rows = set(self._rows(changes))
            if () in self.rows:
                self._place((), (), self.shop, 0, 0)
            if self.found is not None or self.left <= 0:
                return

    def _place(self, order: tuple[int, ...], made: tuple[Promise, ...], shop: Shop, changes: int, late: int) -> None:
        at = len(order)
        if at == len(self.days):
            self._keep(order, made, shop, changes, late)
            return
        for shell in range(len(self.shells)):
            if shell not in order and self.left > 0:
                self._try(shell, order, made, shop, changes, late)

    def _try(
        self, shell: int, order: tuple[int, ...], made: tuple[Promise, ...], shop: Shop, changes: int, late: int
    ) -> None:
        placed, at = (*order, shell), len(order)
        changes += self._changes(order, shell)
        own = self.soonest[shell][at]
        if own is None or tuple(self._kinds(placed)) not in self.rows or not self._can_win(placed, changes, late + own):
            return
        self.left -= 1
        dated_so = self._dated(self.shells[shell], self.days[at], shop)
        if dated_so is None:
            return
        late += _used_up(self.book, dated_so.ready, self.shells[shell].promised, shop.working)
        if self._can_win(placed, changes, late):
            more = shop.plus(visits_of(dated_so, self.shells[shell].wanted.kinds))
            self._place(placed, (*made, dated_so), more, changes, late)

    def _rows(self, changes: int) -> Iterator[tuple[str, ...]]:
        """Kinds slot by slot, with no more changeovers, that leave each shell a slot in time; and how each begins."""
        kinds = self._kinds(range(len(self.shells)))
        for row in _rows((), 0, tuple(sorted(kinds)), changes, self.between, self.stage):
            self.rows_left -= 1
            if self.rows_left < 0:
                self.left = 0
                return
            if all(self._seats(kind, row) for kind in set(kinds)):
                yield from (row[:at] for at in range(len(row) + 1))

    def _seats(self, kind: str, row: Sequence[str]) -> bool:
        """Whether each shell of the kind gets one of its slots in time, were nothing else in the way.

        A shell may have any slot between its first and its last: of those that may, the one with the nearest last goes
        first, which finds a way wherever there is one.
        """
        spans = [self._span(n) for n, own in enumerate(self._kinds(range(len(self.shells)))) if own == kind]
        for at in (at for at, one in enumerate(row) if one == kind):
            may = [span for span in spans if span[0] <= at <= span[1]]
            if not may:
                return False
            spans.remove(min(may, key=lambda span: span[1]))
        return True

    def _span(self, shell: int) -> tuple[int, int]:
        able = [at for at, late in enumerate(self.soonest[shell]) if late is not None]
        return (able[0], able[-1]) if able else (len(self.days), -1)

    def _keep(self, order: tuple[int, ...], made: tuple[Promise, ...], shop: Shop, changes: int, late: int) -> None:
        merit = Merit(changes + _count(self._kinds(order[-1:]) + self.between[-1], self.stage), late, order)
        if merit < self.best and shop.no_fuller_than(self.full, self.stage):
            self.best = merit
            self.found = made

    def _can_win(self, placed: tuple[int, ...], changes: int, late: int) -> bool:
        """Whether the best that could still come of it is better than the best so far."""
        rest = [n for n in range(len(self.shells)) if n not in placed]
        ahead = [self.soonest[n][len(placed)] for n in rest]
        if any(
            one is None and self.shells[n].earliest <= self.days[len(placed)]
            for n, one in zip(rest, ahead, strict=True)
        ):
            return False
        kinds = set(self._kinds(rest)) - set(self._kinds(placed[-1:]))
        least = changes + (len(kinds) if self.stage.changeover_of else 0)
        bound = (least, late + sum(one or 0 for one in ahead), placed)
        return bound <= (self.best.changeovers, self.best.late, self.best.order[: len(placed)])

    def _dated(self, shell: Seated, day: date, shop: Shop) -> Promise | None:
        """None where it can't be framed then, or would not keep its promise."""
        made = dated(self.book, replace(shell.wanted, slot=day), shop, self.today)
        return made if made.slot == day and made.ready <= shell.promised.ready_by else None

    def _late_at(self, shell: Seated, day: date) -> int | None:
        """At least so late with that slot; None where it can't have it."""
        ready = self.shop.working.add(day, shell.wanted.route.after_slot)
        if day < shell.earliest or ready > shell.promised.ready_by:
            return None
        return _used_up(self.book, ready, shell.promised, self.shop.working)

    def _changes(self, order: tuple[int, ...], shell: int) -> int:
        """From the shell before, through those that stay between the two."""
        return _count([*self._kinds(order[-1:]), *self.between[len(order)], *self._kinds([shell])], self.stage)

    def _kinds(self, shells: Iterable[int]) -> list[str]:
        return [self.shells[n].wanted.kinds.get(self.stage.id, "") for n in shells]

    def _merit_now(self) -> Merit:
        order = tuple(sorted(range(len(self.shells)), key=lambda n: self.shells[n].promised.slot))
        changes = sum(self._changes(order[:at], shell) for at, shell in enumerate(order))
        changes += _count(self._kinds(order[-1:]) + self.between[-1], self.stage)
        late = (_used_up(self.book, one.promised.ready, one.promised, self.shop.working) for one in self.shells)
        return Merit(changes, sum(late), order)

    def _most_late(self) -> int:
        return len(self.shells) * self.book.calendar.spread


def _fixed(shop: Shop, days: Sequence[date]) -> Iterator[list[str]]:
    """Kinds of the shells that stay: the last before the first day, those between two days each, the first after."""
    load = shop.loads.get(shop.slot_stage)
    queue = [] if load is None else load.queue
    if not days:
        yield []
        return
    yield [kind for day, kind in queue if day < days[0]][-1:]
    for since, until in pairwise(days):
        yield [kind for day, kind in queue if since < day < until]
    yield [kind for day, kind in queue if day > days[-1]][:1]


def _rows(
    row: tuple[str, ...],
    had: int,
    left: tuple[str, ...],
    most: int,
    between: Sequence[Sequence[str]],
    stage: Stage,
) -> Iterator[tuple[str, ...]]:
    """Every order of the kinds that are `left` behind the `row`, with at most so many changeovers in all."""
    if not left:
        if had + _count([*row[-1:], *between[-1]], stage) <= most:
            yield row
        return
    for kind in dict.fromkeys(left):
        changes = had + _count([*row[-1:], *between[len(row)], kind], stage)
        if changes <= most:
            at = left.index(kind)
            yield from _rows((*row, kind), changes, left[:at] + left[at + 1 :], most, between, stage)


def _count(kinds: Sequence[str], stage: Stage) -> int:
    return 0 if stage.changeover_of is None else sum(one != then for one, then in pairwise(kinds))


def _kept_to(made: Promise, promised: Promise) -> Promise:
    """The last day that the customer was told stands, unless it comes sooner."""
    return replace(made, ready_by=min(made.ready_by, promised.ready_by))

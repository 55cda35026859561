"""The promise: from gates, days and what is planned already, when a shell is ready, stage by stage, and what binds it.

Everything is handed in, the day of asking too. Nothing is reserved by asking; who may have a slot is decided elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import Enum

from rules.model import Book
from rules.schedule.capacity import Shop, Visit
from rules.schedule.days import Route, StageDays, WorkingDays

_DAY = timedelta(days=1)


class Binds(Enum):
    """What keeps a shell from being ready sooner."""

    GATE = "gate"
    CAPACITY = "capacity"
    CLOSURE = "closure"


@dataclass(frozen=True, slots=True)
class GateDay:
    """A gate that opens on `day`: `days` working days later, at the earliest, the shell may enter stage `before`.

    `name` is the gate's own (deposit, specification …), `of` what it is about (the rule of a part, the tool) or empty.
    `opened`: it is a fact; else the day is expected, or assumed.
    """

    name: str
    day: date
    before: str
    days: int = 0
    of: str = ""
    opened: bool = False


@dataclass(frozen=True, slots=True)
class Wanted:
    """A shell to be dated. `kinds`: stage → its choice of what the stage changes for. `slot`: a slot that it has."""

    route: Route
    gates: tuple[GateDay, ...]
    kinds: Mapping[str, str]
    slot: date | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """At `stage` from `start` until `end`, the day of the next stage; it could have come in on `could`."""

    stage: str
    could: date
    start: date
    end: date


@dataclass(frozen=True, slots=True)
class Binding:
    """`days` working days sooner without it, which holds `until` then.

    `what`: the gate's name, the stage's id or the closure's place in the calendar; `of`: as the gate's.
    """

    kind: Binds
    what: str
    of: str
    days: int
    until: date


@dataclass(frozen=True, slots=True)
class Promise:
    """Ready from `ready` to `ready_by`; `bindings`: what costs days, the most first."""

    steps: tuple[Step, ...]
    slot: date
    ready: date
    ready_by: date
    bindings: tuple[Binding, ...] = ()


def promise(book: Book, wanted: Wanted, shop: Shop, today: date) -> Promise | None:
    """The earliest promise that fits; None where the book has no stage with slots."""
    if not shop.slot_stage:
        return None
    made = dated(book, wanted, shop, today)
    return replace(made, bindings=tuple(_bindings(book, wanted, shop, today, made)))


def dated(book: Book, wanted: Wanted, shop: Shop, today: date) -> Promise:
    """The same without what binds it: for comparing many."""
    steps = list(_steps(wanted, shop, today))
    slot = next(step.start for step in steps if step.stage == shop.slot_stage)
    before = list(_before_slot(wanted, shop, slot))
    ready = steps[-1].end
    return Promise((*before, *steps), slot, ready, shop.working.add(ready, book.calendar.spread))


def visits_of(promise: Promise, kinds: Mapping[str, str]) -> tuple[Visit, ...]:
    """What the promise takes of the stages."""
    return tuple(Visit(step.stage, step.start, step.end, kinds.get(step.stage, "")) for step in promise.steps)


def earliest_slot(wanted: Wanted, shop: Shop, today: date) -> date:
    """The first working day on which it may come to the stage with the slots, if there were one free."""
    opened = opened_before(wanted, shop, shop.slot_stage)
    return max([shop.working.first_from(today), *opened])


def needed_by(gate: GateDay, promise: Promise, working: WorkingDays) -> date | None:
    """The last working day on which the gate may open and the promise stands; None: it waits for no stage of it."""
    entered = next((step.start for step in promise.steps if step.stage == gate.before), None)
    return None if entered is None else working.back(entered, gate.days)


def _steps(wanted: Wanted, shop: Shop, today: date) -> Iterator[Step]:
    at = earliest_slot(wanted, shop, today)
    for stage in (one for one in wanted.route.stages if not one.before_slot):
        if stage.days or stage.stage == shop.slot_stage:
            step = _step(wanted, shop, stage, at)
            yield step
            at = step.end


def _step(wanted: Wanted, shop: Shop, stage: StageDays, at: date) -> Step:
    could = max([at, *opened_before(wanted, shop, stage.stage)])
    kept = stage.stage == shop.slot_stage and wanted.slot is not None and wanted.slot >= could
    start = wanted.slot if kept and wanted.slot is not None else first_fit(wanted, shop, stage, could)
    return Step(stage.stage, could, start, shop.working.add(start, stage.days))


def first_fit(wanted: Wanted, shop: Shop, stage: StageDays, day: date) -> date:
    """The first working day from `day` on from which the stage can take it."""
    kind = wanted.kinds.get(stage.stage, "")
    day = shop.working.first_from(day)
    while not shop.fits(Visit(stage.stage, day, shop.working.add(day, stage.days), kind)):
        day = shop.working.first_from(day + _DAY)
    return day


def opened_before(wanted: Wanted, shop: Shop, stage: str) -> Iterator[date]:
    """When each gate before the stage lets it in."""
    yield from (shop.working.add(gate.day, gate.days) for gate in wanted.gates if gate.before == stage)


def _before_slot(wanted: Wanted, shop: Shop, slot: date) -> Iterator[Step]:
    """The work before the slot, as late as it may begin: counted back from it."""
    before = [stage for stage in wanted.route.stages if stage.before_slot and stage.days]
    left = sum(stage.days for stage in before)
    for stage in before:
        start = shop.working.back(slot, left)
        left -= stage.days
        yield Step(stage.stage, start, start, shop.working.back(slot, left))


def _bindings(book: Book, wanted: Wanted, shop: Shop, today: date, made: Promise) -> list[Binding]:
    """Each taken away alone: by how many working days the shell would be ready sooner. What costs none is left out."""
    found = [*_gates(book, wanted, shop, today, made), *_full(book, wanted, shop, today, made)]
    found += _closures(book, wanted, shop, today, made)
    order = list(Binds)
    costly = sorted((one for one in found if one.days > 0), key=lambda one: (-one.days, order.index(one.kind)))
    return costly or list(_together(book, wanted, shop, today, made))


def _gates(book: Book, wanted: Wanted, shop: Shop, today: date, made: Promise) -> Iterator[Binding]:
    """Of the gates before a stage only the last to let it in can bind; those that tie are one."""
    for stage in dict.fromkeys(gate.before for gate in wanted.gates):
        ahead = [gate for gate in wanted.gates if gate.before == stage and gate.day > today]
        lets_in = {gate: shop.working.add(gate.day, gate.days) for gate in ahead}
        last = [gate for gate in ahead if lets_in[gate] == max(lets_in.values())]
        if last:
            gates = tuple(replace(gate, day=today) if gate in last else gate for gate in wanted.gates)
            sooner = dated(book, replace(wanted, gates=gates), shop, today)
            yield Binding(
                Binds.GATE, last[0].name, last[0].of, shop.working.between(sooner.ready, made.ready), last[0].day
            )


def _full(book: Book, wanted: Wanted, shop: Shop, today: date, made: Promise) -> Iterator[Binding]:
    for step in _waiting(wanted, shop, made):
        sooner = dated(book, wanted, replace(shop, free=shop.free | {step.stage}), today)
        yield Binding(Binds.CAPACITY, step.stage, "", shop.working.between(sooner.ready, made.ready), step.start)


def _together(book: Book, wanted: Wanted, shop: Shop, today: date, made: Promise) -> Iterator[Binding]:
    """Where nothing alone costs a day, one hides behind another: gates first, then each stage that is then full.

    The one behind which nothing else hides is named, with what all of them cost.
    """
    gates = tuple(replace(gate, day=min(gate.day, today)) for gate in wanted.gates)
    ahead = next((gate for gate in wanted.gates if gate.day > today), None)
    last = None if ahead is None else Binding(Binds.GATE, ahead.name, ahead.of, 0, ahead.day)
    wanted, now, days = replace(wanted, gates=gates), made, 0
    while last is None or not days:
        now = dated(book, wanted, shop, today)
        days = shop.working.between(now.ready, made.ready)
        full = next(_waiting(wanted, shop, now), None)
        if days or full is None:
            break
        last = Binding(Binds.CAPACITY, full.stage, "", 0, full.start)
        shop = replace(shop, free=shop.free | {full.stage})
    if last is not None and days:
        yield replace(last, days=days)


def _waiting(wanted: Wanted, shop: Shop, made: Promise) -> Iterator[Step]:
    """The stages that it could have come into sooner; a slot that it has is not waited for."""
    for step in made.steps:
        if (
            step.stage not in shop.free
            and step.start > shop.working.first_from(step.could)
            and wanted.slot != step.start
        ):
            yield step


def _closures(book: Book, wanted: Wanted, shop: Shop, today: date, made: Promise) -> Iterator[Binding]:
    """Counted in working days as they would be without the closure."""
    closures = shop.working.closures
    for place, closure in enumerate(closures):
        open_then = replace(shop.working, closures=(*closures[:place], *closures[place + 1 :]))
        until = _last_closed(shop.working, open_then, today, made.ready)
        if until is not None:
            sooner = dated(book, wanted, replace(shop, working=open_then), today)
            days = open_then.between(sooner.ready, made.ready)
            yield Binding(Binds.CLOSURE, str(book.calendar.closures.index(closure)), "", days, until)


def _last_closed(working: WorkingDays, open_then: WorkingDays, since: date, before: date) -> date | None:
    """The last day of the span that only the closure keeps closed; None: it closes none of them."""
    days = (before - _DAY * n for n in range((before - since).days + 1))
    return next((day for day in days if open_then.is_working(day) and not working.is_working(day)), None)

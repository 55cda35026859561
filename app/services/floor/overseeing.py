"""Shells as the workshop sees them: where each is, what stops it, what is done to it. Writes nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.floor.rework import Rework
from app.domain.floor.safety import AtFault, Reached, concerns, reached
from app.domain.floor.shell import ENDED, ShellState, Stop
from app.domain.floor.stopping import Stopped, past
from app.domain.floor.welding import WeldZone
from app.domain.inspection.concession import Concession
from app.domain.inspection.subject import Subject, subjects
from app.domain.orders.order import Order, Shell
from app.domain.planning.slots import Seat
from app.services.floor.finding import (
    FoundShell,
    each_of,
    every_confirmed,
    every_found,
    known_shell,
    route_of,
    tools_of,
    unchecked,
    work,
    zones_with,
)
from app.services.floor.stopping import coat_due, stops_of
from app.services.inspection.inspecting import Inspection, inspection_of
from app.services.orders.at_fault import built
from app.services.stock import stock_floor
from app.store import concessions, rework, slots
from app.store.db import Store
from app.store.shells import Left
from rules.model import Book


@dataclass(frozen=True, slots=True)
class OnFloor:
    """A shell of a confirmed order as the workshop sees it. `line` counts from 1; `seat`: its place in the order.

    `stops`: what keeps it from going on, or from being released; `days`: stage → in from, until, as planned.
    `route`: what would be frozen at release. `zones`: its welds with who made them, in build order. `unchecked`: lines
    of the kit of which nobody has said anything, before release. `coat_due`: it is in paint, and nobody has passed its
    coat. `subjects`: all of it that a concession or rework can be about. `over`: another was begun in its place.
    `looked`: its inspection, where a concession waits for its answer and this was read for who answers.
    """

    order: Order
    book: Book
    line: int
    seat: Seat
    shell: Shell
    stops: tuple[Stopped, ...]
    days: Mapping[str, tuple[date, date]]
    route: tuple[Stop, ...]
    zones: tuple[WeldZone, ...] = ()
    unchecked: int = 0
    concessions: tuple[Concession, ...] = ()
    reworks: tuple[Rework, ...] = ()
    coat_due: bool = False
    subjects: tuple[Subject, ...] = ()
    over: bool = False
    looked: Inspection | None = None


def shell(store: Store, actor: Actor, key: int, now: datetime) -> OnFloor:
    """Of an order that is not confirmed, too, and one that was replaced. Raises NotFound."""
    with store.reading() as db:
        return _to_answer(store, db, known_shell(store, db, actor, key, now), now)


def floor(store: Store, now: datetime) -> tuple[OnFloor, ...]:
    """Every shell of confirmed orders that have not all left, by their slots; those without one at the end."""
    with store.reading() as db:
        found = [_to_answer(store, db, one, now) for one in every_found(store, db, now)]
    return tuple(sorted(found, key=_by_slot))


def made_with(store: Store, tool: str, now: datetime) -> tuple[tuple[OnFloor, ...], tuple[OnFloor, ...]]:
    """Released shells that use the tool: those not past the stage where it is used, and those past it.

    Whether it is down is not asked here; a shell that is ready, rejected or cancelled is in neither.
    """
    with store.reading() as db:
        confirmed = every_confirmed(store, db, now, Left.TO_BUILD)
        found = [one for whole in confirmed for one in each_of(whole) if _in_build(one)]
        used = [(stage, one) for one in found for used, stage in tools_of(one) if used == tool]
        told = [(past(stage, one.shell.deeds, one.shell.route), on_floor(db, one)) for stage, one in used]
    return tuple(one for through, one in told if not through), tuple(one for through, one in told if through)


def concerned(store: Store, fault: AtFault, now: datetime) -> tuple[tuple[OnFloor, Reached], ...]:
    """Shells of confirmed orders in which that may be at fault, and what the fault would do with each.

    Those that were begun first come first; one that is rejected or cancelled is none of them.
    """
    with store.reading() as db:
        every = (one for whole in every_confirmed(store, db, now) for one in each_of(whole))
        found = [one for one in every if concerns(fault, built(one.whole, one.gated, one.shell))]
        told = [(one, reached(one.shell.state)) for one in found]
        return tuple((on_floor(db, one), how) for one, how in told if how is not None)


def on_floor(db: Database, found: FoundShell) -> OnFloor:
    """For use inside a transaction."""
    visits = slots.visits(db, found.gated.seat)
    made = slots.promised(db, found.gated.seat)
    steps = () if found.over or made is None or not visits else made.promise.steps
    done, reworks = work(found), rework.of_shell(db, found.shell.id)
    return OnFloor(
        order=found.whole.order,
        book=found.whole.book,
        line=found.gated.line,
        seat=found.gated.seat,
        shell=found.shell,
        stops=stops_of(found),
        unchecked=len(unchecked(found)),
        days={step.stage: (step.start, step.end) for step in stock_floor.steps(db, found.whole) or steps},
        route=route_of(found),
        zones=zones_with(db, found, done),
        concessions=concessions.of_shell(db, found.shell.id),
        reworks=reworks,
        coat_due=coat_due(db, found, reworks),
        subjects=tuple(subjects(done)),
        over=found.over,
    )


def _to_answer(store: Store, db: Database, found: FoundShell, now: datetime) -> OnFloor:
    """With what has been read of it, where somebody is to answer a concession by that."""
    one = on_floor(db, found)
    waits = any(asked.answer is None for asked in one.concessions)
    return replace(one, looked=inspection_of(store, db, found, now)) if waits else one


def _by_slot(one: OnFloor) -> tuple[bool, date, str, int]:
    first = min((days[0] for days in one.days.values()), default=None)
    return first is None, first or date.max, one.order.number, one.seat.place


def _in_build(found: FoundShell) -> bool:
    return found.shell.progress.state not in (ShellState.PLANNED, ShellState.READY, *ENDED)

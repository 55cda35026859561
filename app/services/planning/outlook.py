"""Do the promises hold? The firm's own work of a year, before and after today, lived through a thousand times.

It takes seconds: a thread of its own does it and says how far it has come. Nothing is written: the last outlook is kept
while the service runs, and the same seed gives it again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random
from threading import Lock, Thread
from weakref import WeakKeyDictionary

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.planning.outlook import Counted, Outlook, Supposed
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.services.books.tools import tool_states
from app.services.orders.seating import GatedShell, WholeOrder, WholeOrders, gated_shell
from app.store import slots as kept
from app.store.db import Store
from rules.donor.resolve import domains_of, holds_with
from rules.model import Book, Stage, ToolCondition
from rules.schedule.capacity import slot_stage_of
from rules.schedule.days import Route, route_days
from rules.schedule.outlook import Mishaps, Place, Tried, Work, Workshop, a_year, tried
from rules.specification import Donor

#: Percent of what the stages can take; the book's own line is looked at beside them.
LOADS = (85, 90, 95)
MOST_YEARS = 1_000
_YEAR = timedelta(days=365)


@dataclass(slots=True)
class Progress:
    """How many years of all have been lived through. `failed`: it could not be brought to an end."""

    supposed: Supposed
    done: int = 0
    of: int = 0
    failed: bool = False


@dataclass(frozen=True, slots=True)
class Firm:
    """The workshop as it is, what of it stands for what, and the tools that can be down."""

    workshop: Workshop
    counted: Counted
    tools: tuple[str, ...]


def outlook(store: Store) -> Outlook | None:
    """The last that was worked out since the service began; None: none was."""
    with _lock:
        return _found.get(store)


def progress(store: Store) -> Progress | None:
    """How far it has come; None: nobody is at it."""
    with _lock:
        return _jobs.get(store)


def begin(store: Store, actor: Actor, supposed: Supposed, now: datetime) -> None:
    """Begin, unless one is underway: that one is brought to an end first."""
    book = current_book(store, now)
    firm = firm_of(store, actor, book, now)
    with _lock:
        under_way = _jobs.get(store)
        if under_way is not None and not under_way.failed:
            return
        told = _jobs[store] = Progress(supposed)
    Thread(target=_work, args=(store, actor, book, firm, told, now), name="outlook", daemon=True).start()


def look(book: Book, firm: Firm, told: Progress) -> Iterator[tuple[int, Tried]]:
    """Here and now, load after load; `told` is kept up to date meanwhile. Each load has the same chance."""
    loads = sorted({*LOADS, int(book.calendar.load_percent)})
    told.of = len(loads) * told.supposed.years
    mishaps = _mishaps(told.supposed, firm)
    for load in loads:
        chance = Random(told.supposed.seed)  # noqa: S311 - chance that can be had again, no secret
        yield load, tried(_years(firm.workshop, mishaps, load, chance, told), book.calendar.spread)


def firm_of(store: Store, actor: Actor, book: Book, now: datetime) -> Firm:
    """By the shells that had or have a slot within a year; where there is none, by a plain one of the book's."""
    with store.reading() as db:
        shells = list(_shells(store, db, actor, book, now))
    conditions = tool_states(store).conditions()
    tools = tuple(tool.id for tool in book.tools if conditions.get(tool.id) is not ToolCondition.LOST)
    return firm_by(book, shells, tools)


def firm_by(book: Book, shells: list[Work], tools: tuple[str, ...]) -> Firm:
    """The same by shells that are handed in."""
    slack, booth, rework = _slack(book), _booth(book), _rework(book)
    plain = route_days(book, {}, Donor())
    works = [_without(work, slack) for work in shells] or [_without(work_of(book, plain, {}, Donor(), None), slack)]
    stages = [stage for stage in book.stages if not stage.before_slot and stage.id != slack]
    slack_days = next((stage.days for stage in book.stages if stage.id == slack), 0)
    workshop = Workshop(tuple(map(_place, stages)), tuple(works), slack_days)
    parts = sum(work.part_before is not None for work in shells)
    return Firm(workshop, Counted(len(shells), parts, len(tools), rework, booth, slack, slack_days), tools)


def _shells(store: Store, db: Database, actor: Actor, book: Book, now: datetime) -> Iterator[Work]:
    today, orders = day_of(book, now), WholeOrders(store, db, actor, now)
    for seat in kept.visiting(db, today - _YEAR, today + _YEAR):
        whole = orders.get(seat.number)
        if seat.place in whole.places:
            yield _shell(whole, gated_shell(whole, seat.place))


def _shell(whole: WholeOrder, gated: GatedShell) -> Work:
    parts = [whole.book.rule(rule).needed_before for rule in gated.frozen.depends.parts]
    before = None if not parts else parts[0] or slot_stage_of(whole.book)
    donor = whole.order.frozen.donor.facts()
    return work_of(whole.book, gated.route, dict(gated.frozen.settled), donor, before)


def work_of(book: Book, route: Route, made: dict[str, str], donor: Donor, part_before: str | None) -> Work:
    """A shell of these choices as it passes through the shop; `part_before`: the stage that waits for its part."""
    domains, slot = domains_of(book), slot_stage_of(book)
    days = {s.stage: float(s.days) for s in route.stages if not s.before_slot and (s.days or s.stage == slot)}
    option = next((stage.changeover_of for stage in book.stages if stage.id == slot), None)
    kind = "" if option is None else made.get(option, "")
    tools = frozenset(t.id for t in book.tools if holds_with(t.needed_for, book, donor, made, domains))
    return Work(days, kind, tools, part_before)


def _without(work: Work, slack: str) -> Work:
    days = {place: days for place, days in work.days.items() if place != slack}
    return Work(days, work.kind, work.tools, work.part_before)


def _place(stage: Stage) -> Place:
    rate = None if stage.per_week is None else float(stage.per_week)
    return Place(stage.id, rate, stage.bays, float(stage.changeover))


def _slack(book: Book) -> str:
    """The last stage, where it takes days and anything fits into it: nothing is worked there that could be late."""
    last = next((s for s in reversed(book.stages) if s.days and not s.before_slot), None)
    return last.id if last is not None and last.per_week is None and last.bays is None else ""


def _booth(book: Book) -> str:
    """The last stage with a weekly rate, but for the one with the slots."""
    rated = [s.id for s in book.stages if s.per_week is not None and not s.before_slot]
    return rated[-1] if len(rated) > 1 else ""


def _rework(book: Book) -> str:
    """Where a shell stands in a bay while it is put right; without bays, at the last that takes days."""
    bays = [s.id for s in book.stages if s.bays is not None]
    days = [s.id for s in book.stages if s.days and not s.before_slot and s.id != _slack(book)]
    return (bays or days or [""])[-1]


def _mishaps(supposed: Supposed, firm: Firm) -> Mishaps:
    return Mishaps(
        rework=supposed.rework / 100,
        rework_days=supposed.rework_days,
        rework_at=firm.counted.rework_at,
        part_late=supposed.part_late / 100,
        part_days=supposed.part_days,
        tools=firm.tools,
        tool_days=supposed.tool_days,
        booth=firm.counted.booth,
        booth_days=supposed.booth_days,
    )


def _years(workshop: Workshop, mishaps: Mishaps, load: int, chance: Random, told: Progress) -> Iterator[list[int]]:
    for _ in range(told.supposed.years):
        yield a_year(workshop, mishaps, load / 100, chance.random)
        told.done += 1


_jobs: WeakKeyDictionary[Store, Progress] = WeakKeyDictionary()
_found: WeakKeyDictionary[Store, Outlook] = WeakKeyDictionary()
_lock = Lock()


def _work(store: Store, actor: Actor, book: Book, firm: Firm, told: Progress, now: datetime) -> None:
    try:
        held = tuple(look(book, firm, told))
        with _lock:
            _found[store] = Outlook(told.supposed, book.calendar.spread, firm.counted, held, now, actor.name)
            del _jobs[store]
    except Exception:
        told.failed = True
        raise
    finally:
        store.close()

"""When a specification would be ready, with the slots of this moment: a range, what binds it, what would be sooner.

A quotation reserves nothing: asking takes no slot. Holidays are handed in as `working`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.books.tool_state import ToolStates
from app.domain.floor.gates import Gates, gates_of
from app.domain.planning.slots import Due, Seat
from app.services.answering.pricing import Deal, day_of
from app.services.answering.specifying import Asked, deal_of, said_of
from app.store import slots, stock
from app.store.db import Store
from rules.answer import Answer, Depends, Verdict
from rules.condition import options_of
from rules.donor.resolve import domains_of, holds_with
from rules.engine.ask import ask
from rules.engine.without_diagram import WithoutDiagram
from rules.model import Addition, Book, Calendar, ToolCondition
from rules.schedule.capacity import Shop, Visit, shop, week_of
from rules.schedule.days import HolidaysUnknown, Route, WorkingDays, route_days
from rules.schedule.promise import Promise, Wanted, dated, needed_by, promise, visits_of
from rules.specification import Donor, Origin, Specification, Taken
from rules.suggest import Surroundings, suggest

#: More shells than these are dated by nobody while he types: years of the jig would be planned at each letter.
MOST_DATED = 100
#: A promise by book, wish, shop and day: `rules.schedule.promise.promise` or `dated`.
WorkedOut = Callable[[Book, Wanted, Shop, date], Promise | None]
#: The working days of a calendar around a day: holidays are looked up where the edge of the service is.
Working = Callable[[Calendar, date], WorkingDays]


@dataclass(frozen=True, slots=True)
class Sooner:
    """With `choice` of `option` instead, and `also` (option → choice) because of it: `days` working days sooner."""

    option: str
    choice: str
    also: Mapping[str, str]
    promise: Promise
    days: int


@dataclass(frozen=True, slots=True)
class Dated:
    """`promise` None: can't be built, or `undated` tools are down until nobody knows when, or too far off to say.

    `can`: it can be built. `due`: each gate with the last day on which it may open. `today`: the day of asking, where
    the firm is.
    """

    book: Book
    today: date
    settled: Mapping[str, str]
    complete: bool
    promise: Promise | None
    due: tuple[Due, ...] = ()
    undated: tuple[str, ...] = ()
    sooner: tuple[Sooner, ...] = ()
    can: bool = True


def date_specification(
    store: Store, actor: Actor, asked: Asked, working: Working, now: datetime, *, sooner: bool = True
) -> Dated:
    """As if every gate that nobody dated opened today. Raises as `specifying.answer` does.

    Several shells take their slots one behind the other: ready from when the first is, until when the last is.
    `sooner` False: what would bring it forward is not looked for.
    """
    deal, tools = deal_of(store, actor, asked, now)
    prepared, said = said_of(store, deal, tools, asked.specification)
    today = day_of(deal.book, now)
    if said.verdict is Verdict.CANT:
        return Dated(deal.book, today, said.settled, said.complete, None, can=False)
    with store.reading() as db:
        full = shop_of(db, deal.book, working, today)
    at = _At(deal, tools, full, today, asked.quantity)
    gates, made = at.promise(said.settled, said.depends)
    if made is None:
        return Dated(deal.book, today, said.settled, said.complete, None, undated=gates.undated)
    around = None
    if sooner and not isinstance(prepared, WithoutDiagram):
        around = Surroundings(prepared, tools.conditions(), deal.donor)
    found = () if around is None else tuple(_best(_sooner(at, around, asked.specification, said, made)))
    return Dated(deal.book, today, said.settled, said.complete, made, due_of(gates, made, full.working), sooner=found)


def dates_of(
    store: Store, actor: Actor, asked: Asked, answers: Iterable[Answer], working: Working, now: datetime
) -> list[Promise | None]:
    """Of several shells that can be built, each as `date_specification` would date it, without what binds it.

    None where nobody can name a day. Raises as `specifying.answer` does.
    """
    deal, tools = deal_of(store, actor, asked, now)
    today = day_of(deal.book, now)
    with store.reading() as db:
        full = shop_of(db, deal.book, working, today)
    at = _At(deal, tools, full, today, asked.quantity)
    return [at.promise(said.settled, said.depends, dated)[1] for said in answers]


def shop_of(
    db: Database, book: Book, working: Working, today: date, *without: Seat, more: Iterable[Visit] = ()
) -> Shop:
    """What is planned from the weeks on that the line still looks back to, and `more` besides.

    Of what is built for stock only what is in the workshop: the rest gives way to whoever is promised a day.
    """
    since = week_of(today) - timedelta(weeks=book.calendar.load_weeks)
    had = [*slots.planned(db, since, without), *stock.planned(db, since, today)]
    return shop(book, working(book.calendar, today), [*had, *more])


def wanted_of(book: Book, made: Mapping[str, str], route: Route, gates: Gates, slot: date | None = None) -> Wanted:
    """`kinds`: for each stage that changes over, the shell's choice of that option."""
    changes = ((stage.id, stage.changeover_of) for stage in book.stages if stage.changeover_of is not None)
    return Wanted(route, gates.gates, {stage: made[option] for stage, option in changes if option in made}, slot)


def promised(book: Book, wanted: Wanted, full: Shop, today: date, work_out: WorkedOut = promise) -> Promise | None:
    """None where it lies beyond the years whose holidays are known. `work_out`: with what binds it, or without."""
    try:
        return work_out(book, wanted, full, today)
    except HolidaysUnknown:
        return None


def due_of(gates: Gates, made: Promise, working: WorkingDays) -> tuple[Due, ...]:
    return tuple(Due(gate, needed_by(gate, made, working)) for gate in gates.gates)


def back_of(tools: ToolStates) -> dict[str, date | None]:
    """Tool that is down → the day on which it is expected back."""
    return {id_: state.until for id_, state in tools.states.items() if state.state is ToolCondition.DOWN}


@dataclass(frozen=True, slots=True)
class _At:
    """One moment: the deal, the tools, the shop as it is planned; and how many shells are asked about."""

    deal: Deal
    tools: ToolStates
    full: Shop
    today: date
    quantity: int

    def promise(
        self, made: Mapping[str, str], depends: Depends, work_out: WorkedOut = promise
    ) -> tuple[Gates, Promise | None]:
        """What it waits for, and when it would be ready: None while nobody knows when a tool is back."""
        book = self.deal.book
        route = route_days(book, made, self.deal.donor)
        gates = gates_of(book, route, depends, {}, back_of(self.tools), self.today)
        if gates.undated:
            return gates, None
        return gates, self._of_all(wanted_of(book, made, route, gates), work_out)

    def _of_all(self, wanted: Wanted, work_out: WorkedOut) -> Promise | None:
        """Of the last, which waits longest, with the day on which the first is ready."""
        book, full, first = self.deal.book, self.full, None
        if not full.slot_stage or self.quantity > MOST_DATED:
            return None
        for _ in range(self.quantity - 1):
            ahead = promised(book, wanted, full, self.today, dated)
            if ahead is None:
                return None
            full, first = full.plus(visits_of(ahead, wanted.kinds)), first or ahead.ready
        last = promised(book, wanted, full, self.today, work_out)
        return last if last is None or first is None else replace(last, ready=first)


def _sooner(
    at: _At, around: Surroundings, specification: Specification, said: Answer, now: Promise
) -> Iterator[Sooner]:
    """Every other choice that would take an addition of days away, kept where such a shell can be built."""
    for option, choice in _candidates(at.deal.book, said.settled, at.deal.donor):
        taken = Specification({**specification.answers, option: Taken(choice, Origin.CHOSEN)})
        found = _buildable(around, specification, taken, (option, choice), at.deal)
        made = None if found is None else at.promise(*found, dated)[1]
        if found is not None and made is not None:
            also = {o: c for o, c in found[0].items() if o != option and o in said.settled and said.settled[o] != c}
            yield Sooner(option, choice, also, made, at.full.working.between(made.ready, now.ready))


def _best(found: Iterator[Sooner]) -> Iterator[Sooner]:
    """The one that gains most for each option, the most first; what gains nothing is left out."""
    best: dict[str, Sooner] = {}
    for one in found:
        if one.days > 0 and (one.option not in best or one.days > best[one.option].days):
            best[one.option] = one
    yield from sorted(best.values(), key=lambda one: -one.days)


def _candidates(book: Book, made: Mapping[str, str], donor: Donor) -> Iterator[tuple[str, str]]:
    domains = domains_of(book)

    def holds(addition: Addition, choices: Mapping[str, str]) -> bool:
        return holds_with(addition.when, book, donor, choices, domains)

    held = [addition for addition in book.additions if holds(addition, made)]
    options = dict.fromkeys(o.id for a in held for o in book.options if o.id in options_of(a.when) and o.id in made)
    for option in options:
        for choice in domains[option]:
            if choice != made[option] and not all(holds(addition, {**made, option: choice}) for addition in held):
                yield option, choice


def _buildable(
    around: Surroundings, specification: Specification, taken: Specification, wish: tuple[str, str], deal: Deal
) -> tuple[Mapping[str, str], Depends] | None:
    """The answers with the wish, or the nearest shell that keeps it."""
    said = ask(around.prepared, taken, deal.tariff)
    if said.verdict is not Verdict.CANT:
        return said.settled, said.depends
    near = suggest(around, specification, deal.tariff, wish, limit=1).nearest
    return (near[0].answer.settled, near[0].answer.depends) if near else None

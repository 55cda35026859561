"""The calendar of the shop: every shell that is planned or in the workshop, week by week, and how full each stage is.

It shows the plan and changes nothing. It knows no money.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import BadInput, Fault
from app.domain.planning.slots import Due, Seat
from app.domain.stock import StockShell
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.books.tools import tool_states
from app.services.orders.seating import GatedShell, WholeOrder, WholeOrders, gated_shell
from app.services.planning.dating import Working, due_of
from app.store import slots as kept
from app.store import stock
from app.store.db import Store
from rules.model import Book, Closure, Role, Stage, ToolCondition
from rules.schedule.capacity import Come, Shop, Visit, WeekLoad, changeovers, shop, week_of
from rules.schedule.days import HolidaysUnknown, WorkingDays
from rules.schedule.promise import Promise, Wanted, earliest_slot

#: Weeks that are shown at once, at most.
MOST_WEEKS = 26

_WEEK = timedelta(weeks=1)


@dataclass(frozen=True, slots=True)
class Ticket:
    """A shell that has a slot. `what`: option → choice, as people tell shells apart; `book`: its order's.

    `waits`: gates that are not through, each with the last day that keeps the promise. `begun`: its slot has come.
    `late`: it can't be framed on its day as things stand, so the promise no longer holds. `promised_at`: when it was
    made, or last moved.
    """

    seat: Seat
    serial: str | None
    book: Book
    customer: str
    what: Mapping[str, str]
    promise: Promise
    promised_at: datetime
    visits: tuple[Visit, ...]
    waits: tuple[Due, ...]
    begun: bool
    late: bool


@dataclass(frozen=True, slots=True)
class StockTicket:
    """A shell that is built for stock. `what` as of a ticket."""

    shell: StockShell
    book: Book
    what: Mapping[str, str]
    visits: tuple[Visit, ...]
    begun: bool

    @property
    def promise(self) -> Promise:
        """Its days: promised to nobody."""
        return self.shell.plan

    @property
    def promised_at(self) -> datetime:
        return self.shell.at

    @property
    def late(self) -> bool:
        """It can't be: it waits for nobody."""
        return False


@dataclass(frozen=True, slots=True)
class Change:
    """A changeover at a stage, counted against a shell, `behind` it or before it."""

    week: date
    slots: Decimal
    seat: Seat
    behind: bool


@dataclass(frozen=True, slots=True)
class Row:
    """A stage that takes only so much. `is_slot`: the one whose days are slots."""

    stage: Stage
    is_slot: bool
    loads: tuple[WeekLoad, ...]
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Closed:
    """A week-day without work: the firm's own closure, or a public holiday."""

    day: date
    closure: Closure | None


@dataclass(frozen=True, slots=True)
class Down:
    """A tool that is down, said `at`; `until` it is expected back; None: nobody knows."""

    tool: str
    at: datetime
    until: date | None


@dataclass(frozen=True, slots=True)
class ShopCalendar:
    """`weeks`: their Mondays. `today` where the firm is."""

    book: Book
    today: date
    weeks: tuple[date, ...]
    closed: tuple[Closed, ...]
    rows: tuple[Row, ...]
    tickets: tuple[Ticket, ...]
    down: tuple[Down, ...]
    stock: tuple[StockTicket, ...] = ()


def shop_calendar(
    store: Store, actor: Actor, first: date | None, weeks: int, working: Working, now: datetime
) -> ShopCalendar:
    """From the week of `first` (None: this one). Raises BadInput where the holidays of those days are unknown."""
    book = current_book(store, now)
    today = day_of(book, now)
    try:
        mondays = tuple(week_of(first or today) + _WEEK * n for n in range(weeks))
        open_days = working(book.calendar, today)
        closed = tuple(_closed(mondays, open_days))
    except (HolidaysUnknown, OverflowError):
        raise BadInput([Fault("first", "too-large", {"most": today.year + 8})]) from None
    with store.reading() as db:
        since = mondays[0] - _WEEK * book.calendar.load_weeks
        full = shop(book, open_days, [*kept.planned(db, since), *stock.planned(db, since)])
        tickets = tuple(_tickets(store, db, actor, mondays, full, now))
        built = tuple(_stock(store, db, mondays, today))
    rows = tuple(_rows(full, mondays, tickets))
    return ShopCalendar(book, today, mondays, closed, rows, tickets, _down(store), built)


def _closed(mondays: tuple[date, ...], working: WorkingDays) -> Iterator[Closed]:
    for day in (monday + timedelta(days=n) for monday in mondays for n in range(5)):
        if not working.is_working(day):
            yield Closed(day, working.closure_on(day))


def _tickets(
    store: Store, db: Database, actor: Actor, mondays: tuple[date, ...], full: Shop, now: datetime
) -> Iterator[Ticket]:
    orders = WholeOrders(store, db, actor, now)
    for seat, visits in kept.visiting(db, mondays[0], mondays[-1] + _WEEK).items():
        ticket = _ticket(db, orders.get(seat.number), seat, visits, full)
        if ticket is not None:
            yield ticket


def _ticket(db: Database, whole: WholeOrder, seat: Seat, visits: tuple[Visit, ...], full: Shop) -> Ticket | None:
    had = kept.promised(db, seat)
    if had is None or seat.place not in whole.places:
        return None
    gated, begun = gated_shell(whole, seat.place), whole.past_slot(seat.place, had.promise.slot)
    return Ticket(
        seat=seat,
        serial=whole.order.shells[seat.place - 1].serial,
        book=whole.book,
        customer=whole.order.frozen.customer.name,
        what=told(whole.book, gated.frozen.settled),
        promise=had.promise,
        promised_at=had.at,
        visits=visits,
        waits=() if begun else _waits(gated, had.promise, full.working),
        begun=begun,
        late=had.late or (not begun and _late(gated, had.promise.slot, full, whole.today)),
    )


def _stock(store: Store, db: Database, mondays: tuple[date, ...], today: date) -> Iterator[StockTicket]:
    for shell in stock.every(db):
        visits = stock.visits(db, shell.id)
        if any(one.start < mondays[-1] + _WEEK and one.end > mondays[0] for one in visits):
            book = book_of(store, shell.book)
            yield StockTicket(shell, book, told(book, shell.settled), visits, shell.begun(today))


def told(book: Book, settled: Mapping[str, str]) -> dict[str, str]:
    """Series, body and market of a shell: as people tell shells apart."""
    roles = [book.roles.get(role, "") for role in (Role.SERIES, Role.BODY, Role.MARKET)]
    return {option: settled[option] for option in roles if option in settled}


def _waits(gated: GatedShell, made: Promise, working: WorkingDays) -> tuple[Due, ...]:
    return tuple(due for due in due_of(gated.gates, made, working) if not due.gate.opened)


def _late(gated: GatedShell, slot: date, full: Shop, today: date) -> bool:
    """Nobody knows when a tool is back, or what it waits for comes through after its day."""
    if gated.gates.undated:
        return True
    return earliest_slot(Wanted(gated.route, gated.gates.gates, {}), full, today) > slot


def _rows(full: Shop, mondays: tuple[date, ...], tickets: tuple[Ticket, ...]) -> Iterator[Row]:
    for stage in full.stages.values():
        loads = [full.week_load(stage, monday) for monday in mondays]
        if loads[0] is not None:
            changes = tuple(_changes(full, stage, mondays, tickets))
            yield Row(stage, stage.id == full.slot_stage, tuple(load for load in loads if load), changes)


def _changes(full: Shop, stage: Stage, mondays: tuple[date, ...], tickets: tuple[Ticket, ...]) -> Iterator[Change]:
    comes: dict[Come, Seat] = {}
    for ticket in tickets:
        comes |= {(visit.start, visit.kind): ticket.seat for visit in ticket.visits if visit.stage == stage.id}
    load = full.loads.get(stage.id)
    for change in changeovers(stage, load.queue if load else ()):
        if change.of in comes:
            yield Change(change.week, change.slots, comes[change.of], change.behind)


def _down(store: Store) -> tuple[Down, ...]:
    states = tool_states(store).states
    return tuple(Down(id_, one.since, one.until) for id_, one in states.items() if one.state is ToolCondition.DOWN)

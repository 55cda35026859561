"""Which shells of stock could be the one that is wanted: what differs, what is changed, by when, and at which price.

Only what is begun is a shell; what still waits for its slot gives way to whoever is promised a day, and saves none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.books.tool_state import ToolStates
from app.domain.floor.shell import points
from app.domain.money.crediting import balance_of_place
from app.domain.stock import InStock, StockState
from app.services.answering.pricing import Deal
from app.services.answering.specifying import Asked, deal_of, said_of
from app.services.books.publishing import book as book_of
from app.services.planning.dating import Dated, Working, date_specification
from app.store import invoices, shells, stock, stock_claims
from app.store.db import Store
from rules.answer import Answer, Verdict
from rules.model import Book, Role
from rules.money.price import price_shell
from rules.schedule.days import HolidaysUnknown, WorkingDays, route_days
from rules.specification import Donor, Origin, Specification, Taken
from rules.workshop.conversion import Conversion, conversion

#: Shells that are offered at once, at most.
MOST = 6
#: Features of a shell that somebody would take as they are, at most, beside what he wants.
MOST_KEPT = 2


@dataclass(frozen=True, slots=True)
class Match:
    """`conversion.kept` empty: it can become exactly what is wanted. `says`: the book's answer to what it becomes.

    Ready from `ready` to `ready_by`; `days`: working days sooner than a new one (negative: later), None where no day of
    a new one can be named. `price`: of what it becomes, less that of what is wanted, in minor units; None: not priced.
    """

    shell: InStock
    book: Book
    conversion: Conversion
    specification: Specification
    says: Answer
    ready: date
    ready_by: date
    days: int | None
    price: int | None
    currency: str

    @property
    def fits(self) -> bool:
        return not self.conversion.kept


@dataclass(frozen=True, slots=True)
class Matches:
    """Those that fit first, then by the days that they save, then by price.

    `dated`: a new one; None: nothing is in stock, and nobody looked.
    """

    dated: Dated | None
    found: tuple[Match, ...]


def matches(store: Store, actor: Actor, asked: Asked, working: Working, now: datetime) -> Matches:
    """For a complete specification that can be built; else none. Raises as `specifying.answer` does."""
    with store.reading() as db:
        here = tuple(one for one in every(db) if one.unready() is None and one.allocated is None)
    if not here:
        return Matches(None, ())
    dated = date_specification(store, actor, asked, working, now, sooner=False)
    if not dated.can or not dated.complete:
        return Matches(dated, ())
    deal, tools = deal_of(store, actor, asked, now)
    wanting = Wanting(store, deal, tools, asked.specification, dated.settled, working(deal.book.calendar, dated.today))
    found = [match for match in (wanting.match(one, dated) for one in here) if match is not None]
    return Matches(dated, tuple(sorted(found, key=_best)[:MOST]))


def every(db: Database) -> Iterator[InStock]:
    """All that is in stock, with what orders have of it."""
    return (in_stock(db, one.id) for one in stock.had(db))


def in_stock(db: Database, key: int) -> InStock:
    """Raises LookupError for no shell of stock."""
    entry = stock.get(db, key)
    if entry is None:
        raise LookupError(key)
    had = stock_claims.allocated(db, key)
    last = entry.last_deed if had is None else had[0].last_deed
    return InStock(
        entry,
        shells.in_stock(db, entry.shell, last),
        stock_claims.reserved(db, key),
        None if had is None else had[0],
        had is not None and had[1],
        had is not None and balance_of_place(had[0].seat, invoices.of(db, had[0].key)) is not None,
    )


def nearest_free(db: Database, to: InStock, now: datetime) -> InStock | None:
    """Of the free shells the one that differs least from this one."""
    free = (one for one in every(db) if one.unready() is None and one.state(now) is StockState.FREE)
    others = [one for one in free if one.stock.id != to.stock.id]
    return min(others, key=lambda one: (_apart(one, to), one.stock.id), default=None)


@dataclass(frozen=True, slots=True)
class Wanting:
    """A specification that is wanted, at one moment: `settled` of it, with donor car, price list and tools."""

    store: Store
    deal: Deal
    tools: ToolStates
    specification: Specification
    settled: Mapping[str, str]
    working: WorkingDays

    def match(self, one: InStock, dated: Dated) -> Match | None:
        """None where it is another car's shell, or too much of it would have to be taken as it is."""
        book = self.deal.book
        made = conversion(book, one.stock.settled, self.settled, self.deal.donor, come_into(one))
        if made is None or not same_car(book, one, self.settled) or len(made.kept) > MOST_KEPT:
            return None
        taken = becoming(self.specification, made)
        says = said_of(self.store, self.deal, self.tools, taken)[1]
        if says.verdict is Verdict.CANT or says.settled != made.becomes or says.depends.parts:
            return None
        try:
            ready = ready_on(self.store, one, made.days, self.working, dated.today)
            by = self.working.add(ready, book.calendar.spread)
        except HolidaysUnknown:
            return None
        return Match(
            shell=one,
            book=book,
            conversion=made,
            specification=taken,
            says=says,
            ready=ready,
            ready_by=by,
            days=self._saved(ready, dated),
            price=self._price(made.becomes),
            currency=self.deal.currency,
        )

    def _saved(self, ready: date, dated: Dated) -> int | None:
        if dated.promise is None:
            return None
        return sooner_by(self.working, ready, dated.promise.ready)

    def _price(self, becomes: Mapping[str, str]) -> int | None:
        prices = (
            price_shell(self.deal.book, made, self.deal.donor, self.deal.tariff).net for made in (becomes, self.settled)
        )
        after, wanted = prices
        return None if after is None or wanted is None else after - wanted


def ready_on(store: Store, one: InStock, more: int, working: WorkingDays, today: date) -> date:
    """With `more` days of changes: a finished one after them, another as planned, or as the work that is left lets it.

    Raises HolidaysUnknown.
    """
    if one.finished:
        return working.add(today, more)
    through = one.shell.progress.through
    ahead = {stop.stage for stop in one.shell.route if stop.stage not in through}
    route = route_days(book_of(store, one.stock.book), one.stock.settled, Donor())
    left = sum(stage.days for stage in route.stages if stage.stage in ahead)
    return max(working.add(today, left + more), working.add(max(today, one.stock.plan.ready), more))


def sooner_by(working: WorkingDays, ready: date, new: date) -> int:
    """Working days that it is ready before a new one; negative: after it."""
    return working.between(ready, new) if ready <= new else -working.between(new, ready)


def come_into(one: InStock) -> tuple[str, ...]:
    """The points of the shop that it has come into, for the table of what may still change."""
    return points(one.shell.deeds, one.shell.route)[0]


def becoming(specification: Specification, made: Conversion) -> Specification:
    """What was answered, but what the shell has where that can't be changed any more."""
    kept = {one.option: Taken(one.has, Origin.CHOSEN) for one in made.kept}
    return Specification({**specification.answers, **kept})


def same_car(book: Book, one: InStock, settled: Mapping[str, str]) -> bool:
    told = [book.roles[role] for role in (Role.SERIES, Role.BODY) if role in book.roles]
    return all(one.stock.settled.get(option) == settled.get(option) for option in told)


def _apart(one: InStock, other: InStock) -> int:
    return len(dict(one.stock.settled).items() ^ dict(other.stock.settled).items())


def _best(match: Match) -> tuple[bool, int, int, int]:
    days = 0 if match.days is None else match.days
    return not match.fits, -days, match.price or 0, match.shell.stock.id

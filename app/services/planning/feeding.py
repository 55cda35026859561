"""The shop's calendar as people's own calendar programs read it: slots, ready days, closures, tools down.

Whoever holds the address reads it, so no customer is named and no sum.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from urllib.parse import urlsplit

from app.dates_said import DatesSaid
from app.documents.workshop.all_day import AllDay, calendar_bytes
from app.domain.asking.actor import Actor
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book, published_books
from app.services.planning.dating import Working
from app.services.planning.shop_calendar import Closed, Down, ShopCalendar, StockTicket, Ticket, shop_calendar
from app.store.db import Store
from rules.model import Book, Closure
from rules.schedule.capacity import week_of

#: Weeks that lie behind and weeks in all: what was planned for a year stays in sight.
BEHIND, WEEKS = 4, 57


def calendar_feed(store: Store, actor: Actor, language: str, url: str, working: Working, now: datetime) -> bytes:
    """The stream; `url`: where the desk is, to which an entry leads back."""
    first = day_of(current_book(store, now), now) - timedelta(weeks=BEHIND)
    plan = shop_calendar(store, actor, first, WEEKS, working, now)
    published = next(one for one in published_books(store) if one.number == plan.book.number)
    feeding = _Feeding(plan, language, url, published.published_at)
    return calendar_bytes(feeding.said.say("feed.name"), feeding.entries())


class _Feeding:
    """One plan in one language. `published`: since when the closures are as they are."""

    def __init__(self, plan: ShopCalendar, language: str, url: str, published: datetime) -> None:
        self.plan, self.url, self.published = plan, url, published
        self.said = DatesSaid(plan.book, language)
        self.host = urlsplit(url).hostname or "localhost"

    def entries(self) -> Iterator[AllDay]:
        for ticket in self.plan.tickets:
            yield from self._shell(ticket, _name(ticket), f"{ticket.seat.number}.{ticket.seat.place}")
        for stock in self.plan.stock:
            name = self.said.say("stock.shell", number=stock.shell.number)
            yield from self._shell(stock, name, stock.shell.number)
        yield from self._closures()
        for one in self.plan.closed:
            if one.closure is None:
                yield self._entry(f"holiday.{one.day}", one.day, one.day, self.said.say("calendar.holiday"))
        for down in self.plan.down:
            yield self._tool(down)

    def _shell(self, ticket: Ticket | StockTicket, name: str, own: str) -> Iterator[AllDay]:
        made, told = ticket.promise, {"shell": name, "what": self._what(ticket)}
        stage = self._stage(ticket.book, next(step.stage for step in made.steps if step.start == made.slot))
        for what, day in (("slot", made.slot), ("ready", made.ready)):
            yield AllDay(
                uid=f"{what}.{own}@{self.host}",
                first=day,
                last=day,
                summary=self.said.say(f"feed.{what}", stage=stage, **told),
                description="\n".join(self._days(ticket)),
                revised=ticket.promised_at,
                url=f"{self.url}/calendar/{week_of(day)}",
            )

    def _days(self, ticket: Ticket | StockTicket) -> Iterator[str]:
        if ticket.late:
            yield self.said.say("feed.late")
        for step in ticket.promise.steps:
            yield self.said.say("feed.stage", stage=self._stage(ticket.book, step.stage), day=step.start)
        yield self.said.say("feed.range", ready=ticket.promise.ready, ready_by=ticket.promise.ready_by)

    def _what(self, ticket: Ticket | StockTicket) -> str:
        return ", ".join(self.said.words(ticket.book.option(of).choice(had).label) for of, had in ticket.what.items())

    def _stage(self, book: Book, stage: str) -> str:
        return self.said.words(next(one.label for one in book.stages if one.id == stage))

    def _closures(self) -> Iterator[AllDay]:
        """Each as one entry, though weekends lie within it."""
        runs: dict[tuple[int, int], list[Closed]] = {}
        for one in self.plan.closed:
            if one.closure is not None:
                place = self.plan.book.calendar.closures.index(one.closure)
                runs.setdefault((place, _year(one.closure, one.day)), []).append(one)
        for (place, year), days in runs.items():
            label = self.said.words(self.plan.book.calendar.closures[place].label)
            yield self._entry(f"closure.{place}.{year}", days[0].day, days[-1].day, label)

    def _tool(self, down: Down) -> AllDay:
        """Of a tool of which nobody knows when it is back, until today."""
        since = day_of(self.plan.book, down.at)
        key = "feed.down" if down.until is None else "feed.down-until"
        summary = self.said.say(key, tool=self.said.thing(down.tool), until=down.until)
        return self._entry(f"tool.{down.tool}", since, max(since, down.until or self.plan.today), summary, down.at)

    def _entry(self, own: str, first: date, last: date, summary: str, revised: datetime | None = None) -> AllDay:
        return AllDay(f"{own}@{self.host}", first, last, summary, summary, revised or self.published)


def _name(ticket: Ticket) -> str:
    """By its serial, once it has one, else by its order and place."""
    return ticket.serial or f"{ticket.seat.number}/{ticket.seat.place}"


def _year(closure: Closure, day: date) -> int:
    """In which this closure began: it may reach over the turn of the year."""
    return day.year if (day.month, day.day) >= closure.start else day.year - 1

"""The shop's calendar put on paper. The seam to the paper's own types."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, datetime
from decimal import Decimal

from app.documents.saying.figures import Figures, locale_for
from app.documents.saying.phrases import sentences
from app.documents.workshop.plan_sheet import PlanLoad, PlanPaper, PlanRow, PlanTicket, plan_pdf
from app.domain.asking.actor import Actor
from app.services.answering import checking
from app.services.books.standard_lists import firm_of
from app.services.planning.dating import Working
from app.services.planning.shop_calendar import Row, ShopCalendar, Ticket, shop_calendar
from app.services.quotations import papering
from app.store.db import Store
from rules.model import Book
from rules.schedule.capacity import Visit, WeekLoad


def calendar_pdf(
    store: Store, actor: Actor, first: date | None, weeks: int, language: str, working: Working, now: datetime
) -> bytes:
    """The PDF. Raises BadInput for a language that it can't be written in, and as `shop_calendar` does."""
    plan = shop_calendar(store, actor, first, weeks, working, now)
    checking.refuse(checking.one_of("language", language, papering.languages(plan.book.languages)))
    paper = _paper(plan, store, language)
    with papering.PRESS:
        return plan_pdf(paper)


def _paper(plan: ShopCalendar, store: Store, language: str) -> PlanPaper:
    kinds = _kinds(plan)
    option = next((row.stage.changeover_of for row in plan.rows if row.stage.changeover_of), None)
    return PlanPaper(
        firm=firm_of(store),
        dated=plan.today,
        weeks=plan.weeks,
        closed=tuple(_column(plan, one.day) for one in plan.closed),
        rows=tuple(_row(plan, row, kinds, language) for row in plan.rows),
        kinds=tuple(plan.book.option(option).choice(kind).label for kind in kinds) if option else (),
        down=tuple(_down(plan, language)),
        language=language,
        locale=locale_for(language),
    )


def _row(plan: ShopCalendar, row: Row, kinds: list[str], language: str) -> PlanRow:
    figures = Figures(locale_for(language), "")
    key = "plan.per-week" if row.stage.bays is None else "plan.bays"
    count = row.stage.per_week if row.stage.bays is None else Decimal(row.stage.bays)
    percent = figures.exact(plan.book.calendar.load_percent.normalize())
    limit = sentences(language)[key].format(count=figures.exact((count or Decimal(0)).normalize()), percent=percent)
    loads = tuple(_load(load, figures) for load in row.loads)
    tickets = (*_tickets(plan, row, kinds, language), *_stock(plan, row, kinds, language))
    return PlanRow(row.stage.label, limit, loads, tickets)


def _load(load: WeekLoad, figures: Figures) -> PlanLoad:
    share, line = (float(part / load.takes) if load.takes else 0.0 for part in (load.used, load.line))
    used, takes = (figures.exact(part.normalize() + 0) for part in (load.used, load.takes))
    return PlanLoad(used, takes, share, line, load.over)


def _tickets(plan: ShopCalendar, row: Row, kinds: list[str], language: str) -> Iterator[PlanTicket]:
    for ticket in plan.tickets:
        for start, end, kind in _seen(plan, row, ticket.visits, kinds):
            yield PlanTicket(
                short=f"{ticket.seat.number[-5:]}/{ticket.seat.place}",
                says=_told(ticket, language) if row.is_slot else ticket.customer,
                start=start,
                end=end,
                kind=kind,
                change=_change(row, ticket),
                state=_state(ticket),
            )


def _stock(plan: ShopCalendar, row: Row, kinds: list[str], language: str) -> Iterator[PlanTicket]:
    says = sentences(language)["plan.for-stock"]
    for one in plan.stock:
        for start, end, kind in _seen(plan, row, one.visits, kinds):
            yield PlanTicket(one.shell.number, says, start, end, kind, 0, "begun" if one.begun else "planned")


def _seen(plan: ShopCalendar, row: Row, visits: Iterable[Visit], kinds: list[str]) -> Iterator[tuple[int, int, int]]:
    """What the sheet shows of the visits to the row's stage: first column, the one behind the last, place of kind."""
    for visit in visits:
        start, end = _span(plan, visit)
        if visit.stage == row.stage.id and start < 5 * len(plan.weeks) and end > 0:
            yield start, end, kinds.index(visit.kind) if visit.kind in kinds else 0


def _span(plan: ShopCalendar, visit: Visit) -> tuple[int, int]:
    start = _column(plan, visit.start)
    return start, max(_column(plan, visit.end), start + 1)


def _change(row: Row, ticket: Ticket) -> int:
    sides = [1 if change.behind else -1 for change in row.changes if change.seat == ticket.seat]
    return sides[0] if sides else 0


def _state(ticket: Ticket) -> str:
    if ticket.late:
        return "late"
    return "waits" if ticket.waits else "begun" if ticket.begun else "planned"


def _told(ticket: Ticket, language: str) -> str:
    """Its body, or what it is told by where the book has none."""
    pairs = list(ticket.what.items())
    option, choice = pairs[1] if len(pairs) > 1 else pairs[0]
    return _label(ticket.book, option, choice, language)


def _label(book: Book, option: str, choice: str, language: str) -> str:
    return book.option(option).choice(choice).label[language]


def _kinds(plan: ShopCalendar) -> list[str]:
    stages = {row.stage.id for row in plan.rows if row.stage.changeover_of}
    visits = [visit for ticket in plan.tickets for visit in ticket.visits]
    visits += [visit for ticket in plan.stock for visit in ticket.visits]
    return sorted({visit.kind for visit in visits if visit.stage in stages and visit.kind})


def _down(plan: ShopCalendar, language: str) -> Iterator[str]:
    labels = {tool.id: tool.label for tool in plan.book.tools}
    for one in plan.down:
        key = "date.tool-until" if one.until else "date.tool-open"
        day = Figures(locale_for(language), "").day(one.until) if one.until else ""
        yield sentences(language)[key].format(tool=labels[one.tool][language], day=day)


def _column(plan: ShopCalendar, day: date) -> int:
    weeks, rest = divmod((day - plan.weeks[0]).days, 7)
    return 5 * weeks + min(rest, 5)

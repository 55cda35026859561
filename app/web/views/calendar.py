"""The shop's calendar as plain data. Shaping only."""

from __future__ import annotations

from typing import Any

from app.services.planning.shop_calendar import Change, Closed, Row, ShopCalendar, StockTicket, Ticket
from app.web import here
from app.web.views.dated import due_view, promise_view
from app.web.views.things import decimal_text, slots, week_text
from app.wording import say
from rules.model import Book
from rules.schedule.capacity import Visit, WeekLoad


def calendar_view(shown: ShopCalendar) -> dict[str, Any]:
    labels = {tool.id: tool.label for tool in shown.book.tools}
    return {
        "today": shown.today,
        "percent": decimal_text(shown.book.calendar.load_percent),
        "over_weeks": shown.book.calendar.load_weeks,
        "weeks": [
            {
                "monday": monday,
                "week": week_text(monday),
                "closed": [_closed(one) for one in shown.closed if 0 <= (one.day - monday).days < 7],
            }
            for monday in shown.weeks
        ],
        "rows": [_row(row) for row in shown.rows],
        "tickets": [_ticket(ticket) for ticket in shown.tickets],
        "stock": [_stock(one) for one in shown.stock],
        "down": [{"tool": one.tool, "label": labels.get(one.tool, {}), "until": one.until} for one in shown.down],
    }


def _closed(one: Closed) -> dict[str, Any]:
    says = say("calendar.holiday", here.language()) if one.closure is None else here.words(one.closure.label)
    return {"day": one.day, "closure": one.closure is not None, "says": says}


def _row(row: Row) -> dict[str, Any]:
    return {
        "stage": row.stage.id,
        "label": row.stage.label,
        "is_slot": row.is_slot,
        "changes_of": row.stage.changeover_of,
        "per_week": None if row.stage.per_week is None else decimal_text(row.stage.per_week),
        "bays": row.stage.bays,
        "weeks": [_load(load) for load in row.loads],
        "changes": [_change(change) for change in row.changes],
    }


def _load(load: WeekLoad) -> dict[str, Any]:
    amounts = {name: decimal_text(getattr(load, name)) for name in ("used", "takes", "line")}
    return {"monday": load.week, "over": load.over, **amounts}


def _change(change: Change) -> dict[str, Any]:
    of = {"number": change.seat.number, "shell": change.seat.place, "behind": change.behind}
    return {"monday": change.week, "slots": decimal_text(change.slots), **of}


def _ticket(ticket: Ticket) -> dict[str, Any]:
    return {
        "number": ticket.seat.number,
        "shell": ticket.seat.place,
        "customer": ticket.customer,
        "what": [_label(ticket.book, *pair) for pair in ticket.what.items()],
        "promise": promise_view(ticket.book, ticket.promise),
        "visits": [_visit(visit) for visit in ticket.visits],
        "waits": [due_view(due) for due in ticket.waits],
        "begun": ticket.begun,
        "late": ticket.late,
    }


def _stock(one: StockTicket) -> dict[str, Any]:
    return {
        "number": one.shell.number,
        "what": [_label(one.book, *pair) for pair in one.what.items()],
        "promise": promise_view(one.book, one.shell.plan),
        "visits": [_visit(visit) for visit in one.visits],
        "begun": one.begun,
    }


def _visit(visit: Visit) -> dict[str, Any]:
    return slots(visit, "stage", "start", "end", "kind")


def _label(book: Book, option: str, choice: str) -> Any:
    return book.option(option).choice(choice).label

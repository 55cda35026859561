"""The calendar of the shop: weeks, stages, shells."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.services.planning.drawing_up_plan import calendar_pdf
from app.services.planning.shop_calendar import shop_calendar
from app.web import here
from app.web.blueprint import resource
from app.web.files import PDF, pdf
from app.web.guard import does
from app.web.schemas.calendar import CalendarIn, CalendarOut, CalendarPaperIn
from app.web.views.calendar import calendar_view

blp = resource("calendar", "The plan of the shop, week by week, for whoever works by it. No amount is in it.")


@blp.route("/calendar", methods=["GET"])
@does(Action.READ, Sort.SLOT)
@blp.arguments(CalendarIn, location="query")
@blp.response(200, CalendarOut)
def the_calendar(query: dict[str, Any]) -> Any:
    """Every shell at a stage in these weeks, how full each stage is, closures, and tools that are down."""
    told = shop_calendar(here.store(), here.me(), query["first"], query["weeks"], calendar.around, here.now())
    return calendar_view(told)


@blp.route("/calendar/paper", methods=["GET"])
@does(Action.READ, Sort.SLOT)
@blp.arguments(CalendarPaperIn, location="query")
@blp.response(200, **PDF)
def the_calendar_on_paper(query: dict[str, Any]) -> Any:
    """The same on one A3 sheet, landscape."""
    language = query["language"] or here.language()
    wanted = (query["first"], query["weeks"], language)
    content = calendar_pdf(here.store(), here.me(), *wanted, calendar.around, here.now())
    return pdf(content, "calendar", language)

"""Open orders with how their shells stand and when they are ready."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.services.orders import following
from app.services.orders.following import Followed
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.schemas.following import OpenOrdersOut
from app.web.schemas.paging import PagedIn
from app.web.views.dated import when_view
from app.web.views.ordered import shell_name
from app.web.views.paged import next_of, turn_after
from app.web.views.things import slots

PAGE_SIZE = 10

blp = resource("following", "Open orders as whoever waits for them follows them.")


@blp.route("/open-orders", methods=["GET"])
@does(Action.READ, Sort.ORDER)
@blp.arguments(PagedIn, location="query")
@blp.response(200, OpenOrdersOut)
def open_orders(query: dict[str, Any]) -> Any:
    """Those with a shell still to come, the last made first: states, dates and what binds, without any money."""
    asked = (here.store(), here.me(), calendar.around, here.now())
    found = following.open_orders(*asked, after=turn_after(query), size=PAGE_SIZE)
    return {"orders": [_view(one) for one in found.rows], "next": next_of(found, query)}


def _view(one: Followed) -> dict[str, Any]:
    order = one.dates.order
    return {
        **slots(one.row, "number", "quotation", "letter", "customer", "dealer", "made_at"),
        "shells": [
            {"count": len(line.shells), "name": shell_name(one.dates.book, line.line.frozen.settled)}
            for line in order.lines
            if line.line.frozen is not None
        ],
        "states": [{"state": state.value, "count": count} for state, count in one.states],
        "when": when_view(one.dates),
    }

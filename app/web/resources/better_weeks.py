"""A better order of the slots of the next weeks: shown with all that moves, and done as it was shown."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.services.planning import bettering
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.schemas.better_weeks import BetterWeeksAgreedIn, BetterWeeksIn, BetterWeeksOut
from app.web.views.better_weeks import better_weeks_view

blp = resource("better-weeks", "A better order of the next weeks' slots, that keeps every promise. A person decides.")


@blp.route("/better-weeks", methods=["GET"])
@does(Action.READ, Sort.SLOT)
@blp.arguments(BetterWeeksIn, location="query")
@blp.response(200, BetterWeeksOut)
def better_weeks(query: dict[str, Any]) -> Any:
    """Fewest changeovers, then least lateness, then order of deposit; each promise before and after. Writes nothing."""
    return _proposed(query["weeks"])


@blp.route("/better-weeks", methods=["POST"])
@does(Action.CHANGE, Sort.ORDER)
@creates
@blp.arguments(BetterWeeksAgreedIn)
@blp.response(201, BetterWeeksOut)
def take_better_weeks(body: dict[str, Any]) -> Any:
    """Move what was shown, if it is still that: the token of the list says so. Answers what could be better now."""
    wanted = (body["weeks"], body["token"])
    bettering.take_better_weeks(here.store(), here.me(), *wanted, calendar.around, here.now(), once=once())
    return _proposed(body["weeks"])


def _proposed(weeks: int) -> dict[str, Any]:
    found = bettering.better_weeks(here.store(), here.me(), weeks, calendar.around, here.now())
    return better_weeks_view(weeks, found)

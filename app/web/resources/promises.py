"""Dates: when a specification or an order's shells would be ready and why, the gates, and the slots that are moved."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.services.despatch import exporting
from app.services.planning import dating, giving_back, promising
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.resources.asking import asked_of
from app.web.schemas.asking import AnswersIn
from app.web.schemas.promises import (
    GateDayIn,
    MoveAgreedIn,
    MoveIn,
    OrderDatesOut,
    ProposalOut,
    SpecificationDateOut,
)
from app.web.views.dated import order_dates_view, proposal_view, specification_date_view

ONE = "/orders/<string(maxlength=40):number>"

blp = resource("promises", "When shells are ready and why not sooner; gates and slots. A quotation reserves nothing.")


@blp.route("/promises", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(AnswersIn)
@blp.response(200, SpecificationDateOut)
def date_of_a_specification(body: dict[str, Any]) -> Any:
    """When it would be ready with the slots of this moment. Nothing is reserved, and nothing written."""
    asked = asked_of(body)
    return specification_date_view(
        dating.date_specification(here.store(), here.me(), asked, calendar.around, here.now())
    )


@blp.route(f"{ONE}/promises", methods=["GET"])
@does(Action.READ, Sort.ORDER)
@blp.response(200, OrderDatesOut)
def dates_of_an_order(number: str) -> Any:
    """What was promised of each shell, what would be today, and the gates."""
    return _dates(number)


@blp.route(f"{ONE}/gates", methods=["POST"])
@does(Action.CHANGE, Sort.ORDER)
@creates
@blp.arguments(GateDayIn)
@blp.response(201, OrderDatesOut)
def date_a_gate(body: dict[str, Any], number: str) -> Any:
    """That a gate opened on a day, or is expected to. A deposit that has cleared takes a slot for every shell."""
    key = (body["gate"], body["of"])
    promising.say_gate(
        *(here.store(), here.me(), number, body["shell"], key, body["day"], calendar.around, here.now()), once=once()
    )
    return _dates(number)


@blp.route(f"{ONE}/slots/what-moves", methods=["POST"])
@does(Action.READ, Sort.SLOT)
@blp.arguments(MoveIn)
@blp.response(200, ProposalOut)
def what_would_move(body: dict[str, Any], number: str) -> Any:
    """Every promise that the move would move, before and after. Nothing is written."""
    wanted = (body["shell"], body["day"], body["swap"])
    return proposal_view(promising.propose(here.store(), here.me(), number, *wanted, calendar.around, here.now()))


@blp.route(f"{ONE}/slots/what-falls", methods=["GET"])
@does(Action.CHANGE, Sort.ORDER)
@blp.response(200, ProposalOut)
def what_would_fall(number: str) -> Any:
    """The slots that the order gives back once its deposit no longer stands. Nothing is written."""
    return proposal_view(giving_back.what_falls(here.store(), here.me(), number, here.now()))


@blp.route(f"{ONE}/slots", methods=["POST"])
@does(Action.CHANGE, Sort.ORDER)
@creates
@blp.arguments(MoveAgreedIn)
@blp.response(201, OrderDatesOut)
def move_a_slot(body: dict[str, Any], number: str) -> Any:
    """Move what was shown, if it is still that: the token of the list says so."""
    wanted = (body["shell"], body["day"], body["swap"], body["token"])
    promising.move(here.store(), here.me(), number, *wanted, calendar.around, here.now(), once=once())
    return _dates(number)


def _dates(number: str) -> dict[str, Any]:
    dates = promising.order_dates(here.store(), here.me(), number, calendar.around, here.now())
    return order_dates_view(dates, exporting.export_limit(here.store(), here.me(), dates))

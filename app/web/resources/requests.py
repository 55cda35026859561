"""Formal quotations that dealers ask for, and copies of what was quoted."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.quotations.request import AskedLine, Request
from app.services.quotations import copying, requesting
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.resources.quotations import REVISION
from app.web.schemas.quotations import QuotationOut
from app.web.schemas.requests import CopyIn, RequestIn, RequestOut, RequestsIn, RequestsOut, TakeOffIn
from app.web.views.paged import after, next_of
from app.web.views.quoted import quotation_view
from app.web.views.things import slots
from rules.specification import Origin

blp = resource("requests", "Formal quotations that dealers ask for; copies.")


@blp.route(f"{REVISION}/copies", methods=["POST"])
@does(Action.CREATE, Sort.QUOTATION)
@creates
@blp.arguments(CopyIn)
@blp.response(201, QuotationOut)
def copy(body: dict[str, Any], number: str, letter: str) -> Any:
    """A new quotation of the same specification, priced by what is in force; for the dealer's own stock, if wanted."""
    return quotation_view(copying.copy(here.store(), here.me(), number, letter, here.now(), **body, once=once()))


@blp.route(f"{REVISION}/requests", methods=["POST"])
@does(Action.ASK, Sort.REQUEST)
@creates
@blp.arguments(RequestIn)
@blp.response(201, RequestOut)
def ask_formally(body: dict[str, Any], number: str, letter: str) -> Any:
    """Ask the office for a formal quotation of this draft."""
    asked = requesting.ask(here.store(), here.me(), number, letter, body["note"], here.now(), once=once())
    return _view(asked)


@blp.route("/requests", methods=["GET"])
@does(Action.READ, Sort.REQUEST)
@blp.arguments(RequestsIn, location="query")
@blp.response(200, RequestsOut)
def every_request(query: dict[str, Any]) -> Any:
    """What waits first, the oldest at the top; a dealer sees his own."""
    ended = after(query, int, int)
    at = None if ended is None else (bool(ended[0]), int(ended[1]))
    found = requesting.requests(here.store(), here.me(), waiting=bool(query["waiting"]), after=at)
    return {"requests": [_view(one) for one in found.rows], "next": next_of(found, query)}


@blp.route("/quotations/<string(maxlength=40):number>/requests", methods=["GET"])
@does(Action.READ, Sort.REQUEST)
@blp.response(200, RequestsOut)
def requests_of_a_quotation(number: str) -> Any:
    """All that was asked for of one quotation, the oldest first."""
    found = requesting.of_quotation(here.store(), here.me(), number, here.now())
    return {"requests": [_view(one) for one in found], "next": None}


@blp.route(f"/requests/<{KEY}:request>/end", methods=["POST"])
@does(Action.CHANGE, Sort.REQUEST)
@creates
@blp.arguments(TakeOffIn)
@blp.response(200, RequestOut)
def end_request(body: dict[str, Any], request: int) -> Any:
    """The dealer withdraws it, the office refuses it with its reason."""
    ended = requesting.take_off(here.store(), here.me(), request, body["why"], here.now(), once=once())
    return _view(ended)


def _view(request: Request) -> dict[str, Any]:
    plain = ("id", "number", "letter", "dealer", "customer", "donor_number", "note")
    end = request.end
    return {
        **slots(request, *plain),
        "dealer_name": here.dealer_called(request.dealer),
        "lines": [_line(line) for line in request.lines],
        "stage": request.stage.value,
        "asked_at": request.at,
        "asked_by_name": here.called(request.by),
        "ended_at": None if end is None else end.at,
        "ended_by_name": None if end is None else here.called(end.by),
        "why": None if end is None else end.why,
    }


def _line(line: AskedLine) -> dict[str, Any]:
    answers = line.specification.answers
    chosen = [option for option, taken in answers.items() if taken.origin is Origin.CHOSEN]
    return {"quantity": line.quantity, "choices": line.specification.choices(), "chosen": chosen}

"""The heart of the desk: read an identity number, take the usual, ask what can be built. Nothing is saved."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.answering import specifying
from app.services.answering.specifying import Asked
from app.services.books import publishing
from app.services.people import introducing
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.schemas.asking import AnswerOut, AnswersIn, NumberIn, NumberOut, UsualIn, UsualOut
from app.web.schemas.dealers import DealersOut
from app.web.views.answering import answered_view
from app.web.views.readings import reading_view
from rules.donor.identity import read_number
from rules.specification import Donor, Specification

blp = resource("asking", "What an identity number says, what was usual, and the full answer about a specification.")


@blp.route("/donor-numbers", methods=["POST"])
@does(Action.ASK, Sort.DONOR_NUMBER)
@blp.arguments(NumberIn)
@blp.response(200, NumberOut)
def read_donor_number(body: dict[str, str]) -> Any:
    """What an identity number says; it is never mended in silence."""
    book = publishing.current_book(here.store(), here.now())
    return reading_view(read_number(body["text"], book.series), book, here.language())


@blp.route("/usual", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(UsualIn)
@blp.response(200, UsualOut)
def what_was_usual(body: dict[str, Any]) -> Any:
    """What the original car of that series, market and body had."""
    donor = body["donor"] or Donor()
    return {"values": specifying.usual(here.store(), body["series"], body["market"], body["body"], donor, here.now())}


@blp.route("/answers", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(AnswersIn)
@blp.response(200, AnswerOut)
def ask(body: dict[str, Any]) -> Any:
    """The full answer about a specification, complete or not."""
    return here.written(answered_view(specifying.answer(here.store(), here.me(), asked_of(body), here.now())))


@blp.route("/dealers", methods=["GET"])
@does(Action.READ, Sort.DEALER)
@blp.response(200, DealersOut)
def list_dealers() -> Any:
    """The dealers: all of them for the office, himself alone for a dealer."""
    return {"dealers": introducing.dealers_for(here.store(), here.me())}


def asked_of(body: dict[str, Any]) -> Asked:
    """The question that a body of AnswersIn asks."""
    customer, place = body["customer"] or {}, body["delivery_place"] or {}
    return Asked(
        Specification(body["specification"]),
        body["donor"] or Donor(),
        price_list=body["price_list"],
        trade_of=body["dealer"],
        delivery_country=place.get("country") or None,
        delivery_region=place.get("region") or None,
        customer_country=body["customer_country"] or customer.get("country") or None,
        quantity=body["quantity"],
        book=body["book"],
        tool_state=body["tool_state"],
    )

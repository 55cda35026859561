"""The heart of the desk: read an identity number, take the usual, ask what can be built. Nothing is saved."""

from __future__ import annotations

from typing import Any

from app.domain.people import Action, Sort
from app.services import introducing, publishing, specifying
from app.services.specifying import Answered, Asked
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.readings import reading_view
from app.web.schemas.asking import AnswerOut, AnswersIn, NumberIn, NumberOut, UsualIn, UsualOut
from app.web.schemas.dealers import DealersOut
from app.web.views import depends_view, price_view, totals_view, untold_view
from rules.answer import Answer, ChoiceAnswer, OptionAnswer
from rules.identity import read_number
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
    return answered_view(specifying.answer(here.store(), here.me(), asked_of(body), here.now()))


@blp.route("/dealers", methods=["GET"])
@does(Action.READ, Sort.DEALER)
@blp.response(200, DealersOut)
def list_dealers() -> Any:
    """The dealers: all of them for the office, himself alone for a dealer."""
    return {"dealers": introducing.dealers_for(here.store(), here.me())}


def answered_view(answered: Answered) -> dict[str, Any]:
    """The full answer as plain data."""
    answer = answered.answer
    return {
        "book": answered.book.number,
        "tool_state": answered.tools.number,
        "price_list": answered.price_list,
        "currency": answered.currency,
        **_verdict(answer),
        "options": [_option(option) for option in answer.options],
        "capped": answer.capped,
        "count": _digits(answer.count),
        "outright": _digits(answer.outright),
        "price_from": answer.price_from,
        "settled": answer.settled,
        "price": price_view(answered.book, answered.price) if answered.price else None,
        "totals": totals_view(answered.totals, answered.currency, here.language()),
        "untold": untold_view(answered.untold, here.language()),
        "ready": answered.ready,
    }


def _digits(count: int | None) -> str | None:
    """None: not counted."""
    return None if count is None else str(count)


def _verdict(answer: Answer) -> dict[str, Any]:
    return {
        "verdict": answer.verdict.value,
        "verdicts": [verdict.value for verdict in answer.verdicts],
        "complete": answer.complete,
        "open_questions": answer.open_questions,
        "causes": answer.causes,
        "depends": depends_view(answer.depends),
    }


def _option(option: OptionAnswer) -> dict[str, Any]:
    return {"option": option.option, "settled": option.settled, "choices": [_choice(c) for c in option.choices]}


def _choice(choice: ChoiceAnswer) -> dict[str, Any]:
    return {
        "choice": choice.choice,
        "state": choice.state.value,
        "answered": choice.answered,
        "usual": choice.usual,
        "price_from": choice.price_from,
        "difference": choice.difference,
        "depends": depends_view(choice.depends),
        "causes": choice.causes,
    }


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

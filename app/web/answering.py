"""The full answer, written straight as it goes over the wire: every click waits for it.

A schema in between would take longer than the answer itself. `schemas.asking.AnswerOut` says what is written here,
and a test holds the two together, with amounts and without. Whoever may see no amount is written none: see `prices`.
"""

from __future__ import annotations

from typing import Any

from app.services.answering.specifying import Answered
from app.web import here
from app.web.views import depends_view, price_view, totals_view, untold_view
from rules.answer import Answer, ChoiceAnswer, PriceFrom


def answered_view(answered: Answered) -> dict[str, Any]:
    """The full answer as data that `here.written` writes (dataclasses by their fields, enums by their values).

    No amount where the reader sees none.
    """
    answer, prices = answered.answer, here.prices_visible()
    return {
        "book": answered.book.number,
        "tool_state": answered.tools.number,
        **_verdict(answer),
        "options": _options(answer, prices),
        "causes": answer.causes,
        "capped": answer.capped,
        "count": _digits(answer.count),
        "outright": _digits(answer.outright),
        "price_from": _price_from(answer.price_from) if prices else None,
        "depends": answer.depends,
        "tools_down": [_tool_down(tool, answered) for tool in answer.depends.tools],
        "settled": answer.settled,
        "price_list": answered.price_list,
        "currency": answered.currency,
        "price": price_view(answered.book, answered.price) if prices and answered.price else None,
        "totals": totals_view(answered.totals, answered.currency, here.language()) if prices else None,
        "untold": untold_view(answered.untold, here.language()),
        "ready": _ready(answered),
    }


def _verdict(answer: Answer) -> dict[str, Any]:
    return {
        "verdict": answer.verdict.value,
        "verdicts": [verdict.value for verdict in answer.verdicts],
        "complete": answer.complete,
        "open_questions": answer.open_questions,
    }


def _options(answer: Answer, prices: bool) -> list[dict[str, Any]]:
    """What a choice depends on many share: it is told once, and known again by its identity while `answer` holds it."""
    held = {id(choice.depends): choice.depends for option in answer.options for choice in option.choices}
    told = {identity: depends_view(depends) for identity, depends in held.items()}
    return [
        {
            "option": option.option,
            "settled": option.settled,
            "choices": [_choice(choice, told[id(choice.depends)], prices) for choice in option.choices],
        }
        for option in answer.options
    ]


def _choice(choice: ChoiceAnswer, depends: dict[str, Any], prices: bool) -> dict[str, Any]:
    return {
        "choice": choice.choice,
        "state": choice.state._value_,  # `value` is a property, and there are a hundred
        "answered": choice.answered,
        "usual": choice.usual,
        "price_from": _price_from(choice.price_from) if prices and choice.price_from else None,
        "difference": choice.difference if prices else None,
        "depends": depends,
        "causes": choice.causes,
    }


def _price_from(price: PriceFrom) -> dict[str, Any]:
    return {"amount": price.amount, "outright": price.outright, "worked_out": price.worked_out}


def _tool_down(tool: str, answered: Answered) -> dict[str, Any]:
    state = answered.tools.states.get(tool)
    back = state.until if state else None
    return {"tool": tool, "until": back.isoformat() if back else None}


def _digits(count: int | None) -> str | None:
    """None: not counted."""
    return None if count is None else str(count)


def _ready(answered: Answered) -> dict[str, Any] | None:
    ready = answered.ready
    if ready is None:
        return None
    return {
        "from_days": ready.from_days,
        "to_days": ready.to_days,
        "gates": ready.gates,
        "additions": ready.additions,
    }

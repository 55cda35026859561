"""The full answer, written straight as it goes over the wire: every click waits for it.

A schema in between would take longer than the answer itself, so the engine's own types are what is written of options
and choices. `schemas.asking.AnswerOut` says what that is, and a test holds the two together, with amounts and without.
Whoever may see no amount is written none: see `prices`.
"""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from app.services.answering.specifying import Answered
from app.web import here
from app.web.views.things import price_view, totals_view, untold_view
from rules.answer import Answer, OptionAnswer


def answered_view(answered: Answered) -> dict[str, Any]:
    """The full answer as data that `here.written` writes (structs and dataclasses by their fields).

    No amount where the reader sees none.
    """
    answer, prices = answered.answer, here.prices_visible()
    return {
        "book": answered.book.number,
        "tool_state": answered.tools.number,
        **_verdict(answer),
        "options": answer.options if prices else [_without_amounts(option) for option in answer.options],
        "causes": answer.causes,
        "capped": answer.capped,
        "count": _digits(answer.count),
        "outright": _digits(answer.outright),
        "price_from": answer.price_from if prices else None,
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


def _without_amounts(option: OptionAnswer) -> OptionAnswer:
    return replace(option, choices=tuple(replace(c, price_from=None, difference=None) for c in option.choices))


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

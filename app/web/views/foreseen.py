"""What follows from a tool's state as plain data for the schemas.

Shaping only, but that drafts are counted and not shown to a reader whose they are not to read.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from app.domain.asking.people import Action, Sort, reach
from app.services.books.consequences import Consequences, Touched
from app.services.floor.overseeing import OnFloor
from app.store.promises import Promise
from app.web import here
from app.web.views.things import slots
from rules.model import Tool
from rules.proof.reliance import Reliance
from rules.tools import Effect


def consequences_view(found: Consequences) -> dict[str, Any]:
    """What is promised first, as it has to be dealt with in that order; drafts last."""
    groups = (("accepted", found.accepted), ("issued", found.issued), ("draft", found.drafts))
    return {
        "tool": found.tool.id,
        "number": found.number,
        "was": found.was.value,
        "becomes": found.becomes.value,
        **effect_view(found.tool, found.effect),
        "relies": None if found.reliance is None else _relies(found.reliance),
        "in_build": {"stopped": [_shell(one) for one in found.stopped], "past": [_shell(one) for one in found.past]},
        "touched": [group_view(sort, touched) for sort, touched in groups],
        "stale_drafts": found.stale,
    }


def _shell(one: OnFloor) -> dict[str, Any]:
    stage = one.shell.progress.stage
    label = next((each.label for each in one.book.stages if each.id == stage), None)
    return {"serial": one.shell.serial, "order": one.order.number, "shell": one.seat.place, "stage_label": label}


def effect_view(tool: Tool, follows: Effect) -> dict[str, Any]:
    """What follows for shells made with the tool, with the rule that says so."""
    return {
        "effect": follows.value,
        "part": tool.stands_in if follows is Effect.PART else None,
        "rule": tool.speaks_as if follows is Effect.RULE else None,
    }


def _relies(reliance: Reliance) -> dict[str, Any]:
    return {
        "structures": reliance.structures,
        "using": reliance.using,
        "percent": reliance.percent,
        "everything": reliance.everything,
        "choices": [{"option": option, "choice": choice} for option, choice in reliance.choices],
    }


def group_view(sort: str, touched: Sequence[Touched]) -> dict[str, Any]:
    """Drafts are counted, and not shown to whoever reads none."""
    return {
        "sort": sort,
        "count": len(touched),
        "shells": sum(one.shells for one in touched),
        "revisions": [_touched(one) for one in touched] if sort != "draft" or _reads_drafts() else [],
        "nets": nets_of([one.promise for one in touched]),
    }


def _reads_drafts() -> bool:
    return reach(here.me().role, Action.READ, Sort.QUOTATION) is not None


def nets_of(these: Iterable[Promise]) -> list[dict[str, Any]]:
    """What they come to before tax, for each currency; drafts come to nothing yet."""
    nets: dict[str, int] = {}
    for promise in these:
        if promise.currency is not None and promise.net is not None:
            nets[promise.currency] = nets.get(promise.currency, 0) + promise.net
    return [{"currency": currency, "net": net} for currency, net in nets.items()]


def promise_view(promise: Promise) -> dict[str, Any]:
    """What a list says of it."""
    said = slots(promise, "number", "letter", "customer", "valid_until", "currency", "net")
    return {**said, "donor": promise.donor_text}


def _touched(touched: Touched) -> dict[str, Any]:
    return {**promise_view(touched.promise), "lines": touched.lines, "shells": touched.shells}

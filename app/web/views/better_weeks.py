"""A better order of slots as plain data, with its sentences. Shaping only."""

from __future__ import annotations

from typing import Any

from app.domain.planning.slots import Seat
from app.services.planning.bettering import BetterWeeks, Stays
from app.web import here
from app.web.views.dated import proposal_view
from app.wording import say
from rules.schedule.slot_order import MOST_DATED, Merit


def better_weeks_view(weeks: int, shown: BetterWeeks) -> dict[str, Any]:
    found = shown.found
    return {
        "weeks": weeks,
        "today": shown.today,
        "last": shown.last,
        "shells": shown.shells,
        "now": None if found is None else _merit(found.now),
        "better": None if found is None or found.best is None else _merit(found.best),
        "whole": found is not None and found.whole,
        "says": _says(shown),
        "stays": [_stays(seat, why) for seat, why in shown.stays],
        "proposal": proposal_view(shown.proposal),
    }


def _merit(merit: Merit) -> dict[str, int]:
    return {"changeovers": merit.changeovers, "late": merit.late}


def _says(shown: BetterWeeks) -> str:
    found = shown.found
    if found is None:
        return _say("far")
    bound = "" if found.whole else "-so-far"
    if found.best is None:
        return _say(f"none{bound}", shells=shown.shells, changeovers=found.now.changeovers, most=MOST_DATED)
    slots = {"was": found.now.changeovers, "now": found.best.changeovers, "late": found.best.late}
    return _say(f"found{bound}", **slots, had=found.now.late, most=MOST_DATED)


def _stays(seat: Seat, why: Stays) -> dict[str, Any]:
    own = {"number": seat.number, "shell": seat.place}
    return {**own, "why": why.value, "says": _say(f"stays-{why.value}", **own)}


def _say(key: str, **slots: Any) -> str:
    return say(f"better-weeks.{key}", here.language(), **slots)

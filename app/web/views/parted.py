"""A customer's part and the ways on from one that failed, as plain data. Shaping only."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from app.documents.saying.figures import Figures
from app.domain.part import Arrival, Finding, Verdict, length_of
from app.services.letters.writing_failed import letter_of
from app.services.parts.failing import Dates, Instead, WaysOn
from app.services.parts.taking_in import OrderedPart
from app.web import here
from app.web.views.ordered import shell_name
from app.web.views.things import slots, stage_label
from app.wording import locale_of
from rules.lengths import with_lengths
from rules.model import Remarked


def part_view(one: OrderedPart) -> dict[str, Any]:
    """All that is told of it from its arrival to its return."""
    book, rule = one.book, one.book.rule(one.tag.rule)
    shell = one.shell
    settled = {} if shell is None else one.order.lines[one.tag.line - 1].frozen_of(shell).settled
    return {
        "tag": one.tag.number,
        "order": one.order.number,
        "shell": 0 if shell is None else one.seat.place,
        "serial": shell and shell.serial,
        "name": shell_name(book, settled),
        "rule": one.tag.rule,
        "part": rule.part or rule.title,
        "before": before_label(one),
        **slots(one, "due", "needed", "doubt"),
        "stands": one.stands.value,
        "limits": list(map(_limit, one.limits)),
        "arrivals": [_arrival(one, turn, arrival) for turn, arrival in enumerate(one.arrivals, start=1)],
    }


def before_label(one: OrderedPart) -> Mapping[str, str]:
    """Of the stage before which it has to have passed."""
    return stage_label(one.book, one.book.rule(one.tag.rule).needed_before) or {}


def ways_view(ways: WaysOn) -> dict[str, Any]:
    return {
        "slot": ways.held and ways.held.promise.slot,
        "second": {"passing": ways.second.passing, "dates": _dates(ways.second.dates)},
        "instead": [_instead(ways, one) for one in ways.instead],
        "letter": slots(letter_of(here.store(), here.me(), ways)),
    }


def _limit(limit: Remarked) -> dict[str, Any]:
    length = length_of(limit)
    says = with_lengths(here.words(limit.text), _length)
    return {"says": says, "bound": limit.bound and limit.bound.value, "length": length and str(length)}


def _length(millimetres: Decimal) -> str:
    return Figures(locale_of(here.language()), "").length(millimetres, both=False)


def _arrival(one: OrderedPart, turn: int, arrival: Arrival) -> dict[str, Any]:
    at = f"/api/parts/{one.tag.number}"
    return {
        **slots(arrival, "day", "note", "at", "by_hand"),
        "by_name": here.called(arrival.by),
        "stands": arrival.stands.value,
        "verdicts": list(map(_verdict, arrival.verdicts)),
        "acts": [
            {"act": done.act.value, "day": done.day, "note": done.note, "by_name": here.called(done.by)}
            for done in arrival.acts
        ],
        "choices": [
            {**slots(chosen), "choice": chosen.choice.value, "by_name": here.called(chosen.by)}
            for chosen in arrival.choices
        ],
        "photographs": [
            {
                **slots(picture, "id", "note", "at"),
                "by_name": here.called(picture.by),
                "url": f"{at}/photographs/{picture.id}/file",
                "small_url": f"{at}/photographs/{picture.id}/file?size=small",
            }
            for picture in arrival.photographs
        ],
        "receipt": None if arrival.by_hand else f"{at}/receipt?turn={turn}",
    }


def _verdict(verdict: Verdict) -> dict[str, Any]:
    findings = list(map(_finding, verdict.findings))
    return {**slots(verdict, "passed", "why", "day"), "findings": findings, "signed_name": here.called(verdict.signed)}


def _finding(one: Finding) -> dict[str, Any]:
    return {"met": one.met, "measured": None if one.measured is None else str(one.measured)}


def _instead(ways: WaysOn, one: Instead) -> dict[str, Any]:
    label = ways.part.book.option(one.option).choice(one.choice).label
    return {**slots(one), "label": label, "dates": _dates(one.dates)}


def _dates(dates: Dates | None) -> dict[str, Any] | None:
    if dates is None:
        return None
    made = dates.promise
    told = {name: made and getattr(made, name) for name in ("slot", "ready", "ready_by")}
    return {**slots(dates, "earliest", "keeps"), **told}

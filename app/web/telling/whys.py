"""Why an option stands as it does, in a sentence."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.services.answering.advising import Grounded
from app.web.telling.reasons import against_view, given_view
from app.web.telling.speech import Speech
from app.wording import knows
from rules.condition import DonorGearbox, DonorNumber, DonorSeries
from rules.explain.why import DonorTold, Grounds, Original, Why
from rules.model import Role
from rules.specification import Origin


def why_view(grounded: Grounded, language: str) -> dict[str, Any]:
    """The chain as plain data and as a sentence."""
    grounds = grounded.grounds
    return {
        "option": grounds.option,
        "choice": grounds.choice,
        "sort": grounds.why.value,
        "answers": given_view(grounds.answers),
        "rules": against_view(grounds.against),
        "usual": None if grounds.original is None else _original_view(grounds.original),
        "sentence": sentence(grounds, Speech(grounded.book, language)),
    }


def sentence(grounds: Grounds, speech: Speech) -> str:
    """The chain as it is read out: what made it usual, and what leaves nothing else."""
    if grounds.choice is None:
        return speech.say("why.open")
    told = [_as_had(grounds, speech)] if _is_told(grounds) else []
    if grounds.answers or grounds.against or grounds.why is Why.FORCED:
        told.append(_left(grounds, speech, besides=bool(told)))
    return " ".join(told)


def _is_told(grounds: Grounds) -> bool:
    """Before the table can be asked, what leaves nothing else is all there is to say, if anything does."""
    if grounds.why is Why.USUAL:
        return grounds.original is not None or not (grounds.answers or grounds.against)
    return grounds.why is Why.CHOSEN


def _as_had(grounds: Grounds, speech: Speech) -> str:
    facts = "" if grounds.original is None else speech.list(_original(grounds.original, speech))
    return speech.say(f"why.{_usual_key(grounds)}", clause=_clause(grounds, speech), facts=facts)


def _left(grounds: Grounds, speech: Speech, *, besides: bool) -> str:
    sort = "" if grounds.answers else "-always" if grounds.against else "-alone"
    facts, rules = speech.facts(grounds.answers), speech.rules(grounds.against)
    key = f"why.{'besides' if besides else 'forced'}{sort}"
    return speech.say(key, clause=_clause(grounds, speech), facts=facts, rules=rules)


def _clause(grounds: Grounds, speech: Speech) -> str:
    assert grounds.choice is not None
    return speech.clause(grounds.option, grounds.choice)


def _usual_key(grounds: Grounds) -> str:
    original = grounds.original
    if grounds.why is Why.CHOSEN:
        return "chosen"
    if original is None:
        return "usual-untold"
    if grounds.option in dict(original.keys):
        return "usual-key"
    return "usual" if original.keys or original.donor else "usual-always"


def _original(original: Original, speech: Speech) -> Iterator[str]:
    yield from (speech.clause(option, choice) for option, choice in original.keys)
    yield from (_fact(told, speech) for told in original.donor)


def _fact(told: DonorTold, speech: Speech) -> str:
    match told.atom:
        case DonorNumber():
            return _number(told.atom, told.holds, speech)
        case DonorSeries(series):
            names = [_series(each, speech) for each in sorted(series)]
            return speech.say(_donor_key("series", told.holds), series=names)
        case DonorGearbox(gearboxes):
            names = [_gearbox(each, speech) for each in sorted(gearboxes)]
            return speech.say(_donor_key("gearbox", told.holds), gearbox=names)


def _donor_key(fact: str, holds: bool | None) -> str:
    return f"donor.no-{fact}" if holds is None else f"donor.{'' if holds else 'not-'}{fact}"


def _number(atom: DonorNumber, holds: bool | None, speech: Speech) -> str:
    if holds is None:
        return speech.say("donor.no-number")
    ends = "to" if atom.low is None else "from" if atom.high is None else "between"
    numbers = {"low": _written(atom.series, atom.low, speech), "high": _written(atom.series, atom.high, speech)}
    return speech.say(_donor_key(f"number-{ends}", holds), **numbers)


def _written(series: str, number: int | None, speech: Speech) -> str | None:
    known = next((each for each in speech.book.series if each.choice == series), None)
    if number is None or known is None:
        return None if number is None else str(number)
    return f"{known.prefix}-{number:0{known.width}}"


def _series(series: str, speech: Speech) -> str:
    option = speech.book.roles.get(Role.SERIES)
    return series if option is None else speech.label(option, series)


def _gearbox(gearbox: str, speech: Speech) -> str:
    key = f"gearbox.{gearbox}"
    return speech.say(key) if knows(f"advice.{key}") else gearbox


def _original_view(original: Original) -> dict[str, Any]:
    return {
        "answers": [
            {"option": option, "choice": choice, "origin": Origin.CHOSEN.value} for option, choice in original.keys
        ],
        "donor": [_told_view(told) for told in original.donor],
    }


def _told_view(told: DonorTold) -> dict[str, Any]:
    view: dict[str, Any] = {"holds": told.holds, "series": [], "low": None, "high": None, "gearboxes": []}
    match told.atom:
        case DonorNumber(series, low, high):
            return view | {"fact": "number", "series": [series], "low": low, "high": high}
        case DonorSeries(series):
            return view | {"fact": "series", "series": sorted(series)}
        case DonorGearbox(gearboxes):
            return view | {"fact": "gearbox", "gearboxes": sorted(gearboxes)}

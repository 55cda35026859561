"""The nearest shells that can be built, in a few sentences each. What it costs stands apart: it may be hidden."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.services.advising import Offer, Offered, Worth
from app.web.telling.reasons import wish_view
from app.web.telling.speech import Speech
from app.web.views import depends_view
from rules.answer import Depends, Verdict
from rules.suggest import Beside, Change

#: What is told of what a shell depends on, in this order. Cautions are told when they come, never when they go.
_GATES = ("parts", "approvals", "holds", "tools")


def offers_view(offered: Offered, language: str) -> dict[str, Any]:
    """All that is offered, as plain data and in sentences."""
    speech = Speech(offered.book, language)
    return {
        "wish": wish_view(offered.wish),
        "verdict": offered.asked.verdict.value,
        "verdicts": [verdict.value for verdict in offered.asked.verdicts],
        "currency": offered.currency,
        "sentence": summary(offered, speech),
        "alternatives": [_view(offer, offered, speech, keep=False) for offer in offered.offers],
        "keep": [_view(offer, offered, speech, keep=True) for offer in offered.keep],
    }


def summary(offered: Offered, speech: Speech) -> str:
    """How many there are, in one sentence."""
    count = len(offered.offers)
    if offered.asked.verdict not in (Verdict.CANT, Verdict.ONCE):
        return speech.say("offers.not-needed")
    if not count:
        return speech.say("offers.none" if offered.asked.verdict is Verdict.CANT else "offers.none-sooner")
    return speech.say("offers.one" if count == 1 else "offers.several", count=count)


def sentence(offer: Offer, speech: Speech, *, keep: bool) -> str:
    """What is offered, without what it costs."""
    told = [_built(offer, speech, keep), *_days(offer.suggestion.days_difference, speech)]
    told += [*_depends("gains", offer.suggestion.gains, speech), *_depends("sheds", offer.suggestion.sheds, speech)]
    if offer.cautions:
        told.append(speech.say("offer.gains-cautions", names=speech.list(map(speech.name, offer.cautions))))
    return " ".join([*told, *(_beside(beside, speech) for beside in offer.suggestion.beside)])


def price_sentence(difference: Worth, currency: str, speech: Speech) -> str:
    """What it costs more or less, with tax where that is decided."""
    amount = difference.net if difference.with_tax is None else difference.with_tax
    if amount is None:
        return speech.say("price.not-priced")
    way = "less" if amount < 0 else "more" if amount else "same"
    key = f"price.{way}{'-before-tax' if difference.with_tax is None else ''}"
    return speech.say(key, amount=speech.money(amount, currency))


def _view(offer: Offer, offered: Offered, speech: Speech, *, keep: bool) -> dict[str, Any]:
    suggestion, answers = offer.suggestion, offer.suggestion.specification.answers
    difference = {"net": offer.difference.net, "with_tax": offer.difference.with_tax}
    return {
        "changes": [_change(change) for change in suggestion.changes],
        "also_changes": [{"beside": b.place, "options": b.also, "sheds": b.sheds} for b in suggestion.beside],
        "fills": offer.fills,
        "verdict": suggestion.answer.verdict.value,
        "verdicts": [verdict.value for verdict in suggestion.answer.verdicts],
        "price": {"net": offer.price.net, "with_tax": offer.price.with_tax},
        "difference": difference | {"sentence": price_sentence(offer.difference, offered.currency, speech)},
        "days_difference": suggestion.days_difference,
        "gains": depends_view(suggestion.gains),
        "sheds": depends_view(suggestion.sheds),
        "sentence": sentence(offer, speech, keep=keep),
        "specification": {o: {"choice": taken.choice, "origin": taken.origin.value} for o, taken in answers.items()},
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "option": change.option,
        "from": change.was,
        "to": change.now,
        "origin": change.origin.value,
        "forced": change.forced,
    }


def _built(offer: Offer, speech: Speech, keep: bool) -> str:
    """Where everything follows from what stays, nothing is left to be said as a condition: then all of it is."""
    changes = offer.suggestion.changes
    free = [change for change in changes if not change.forced] or list(changes)
    forced = [change for change in changes if change not in free]
    stands = "once" if offer.suggestion.answer.verdict is Verdict.ONCE else "built"
    key = {"built": "keep", "once": "keep-once"}[stands] if keep else f"{stands}{'-forced' if forced else ''}"
    return speech.say(f"offer.{key}", clauses=_clauses(free, speech), forced=_clauses(forced, speech))


def _clauses(changes: list[Change], speech: Speech) -> str:
    return speech.list(speech.clause(change.option, change.now) for change in changes)


def _days(days: int, speech: Speech) -> Iterator[str]:
    if days:
        way = "later" if days > 0 else "sooner"
        yield speech.say(f"offer.{way}{'-one' if abs(days) == 1 else ''}", days=abs(days))


def _depends(way: str, depends: Depends, speech: Speech) -> Iterator[str]:
    for kind in _GATES:
        ids: tuple[str, ...] = getattr(depends, kind)
        if ids:
            yield speech.say(f"offer.{way}-{kind}", names=speech.list(map(speech.name, ids)))


def _beside(beside: Beside, speech: Speech) -> str:
    spares, plain = ("also-spares", "also") if beside.also else ("other-values-spare", "other-values")
    options, sheds = speech.list(map(speech.option, beside.also)), speech.list(map(speech.name, beside.sheds))
    key = f"offer.{spares if beside.sheds else plain}"
    return speech.say(key, number=beside.place + 1, options=options, sheds=sheds)

"""The nearest shells that can be built, in a few sentences each. What it costs stands apart: it may be hidden."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from app.services.answering.advising import Offer, Offered, Worth
from app.web.telling.reasons import wish_view
from app.web.telling.speech import Speech
from app.web.views.things import depends_view, range_view
from rules.answer import Depends, Verdict
from rules.schedule.promise import Promise
from rules.specification import Origin
from rules.suggest import Beside, Change

#: What is told of what a shell depends on, in this order. Cautions are told when they come, never when they go.
_GATES = ("parts", "approvals", "holds", "tools")


def offers_view(offered: Offered, dates: Sequence[Promise | None], language: str) -> dict[str, Any]:
    """All that is offered, as plain data and in sentences. `dates`: of the offers, then of what else may be kept."""
    speech = Speech(offered.book, language)
    told = [*_told(offered), *(_Told(offer, offered.held, keep=True) for offer in offered.keep)]
    views = [_view(replace(one, date=date), offered, speech) for one, date in zip(told, dates, strict=True)]
    return {
        "wish": wish_view(offered.wish),
        "verdict": offered.asked.verdict.value,
        "verdicts": [verdict.value for verdict in offered.asked.verdicts],
        "currency": offered.currency,
        "held": offered.held,
        "sentence": summary(offered, speech),
        "alternatives": views[: len(offered.offers)],
        "keep": views[len(offered.offers) :],
    }


def summary(offered: Offered, speech: Speech) -> str:
    """How many there are, in one sentence."""
    count = len(offered.offers)
    if offered.asked.verdict not in (Verdict.CANT, Verdict.ONCE):
        return speech.say("offers.not-needed")
    if not count:
        return speech.say(f"offers.{_nothing(offered)}")
    return speech.say("offers.one" if count == 1 else "offers.several", count=count)


def _nothing(offered: Offered) -> str:
    """A wish that no shell near it can have no shell can have: nearness has no bound."""
    if offered.asked.verdict is Verdict.ONCE:
        return "none-sooner"
    if offered.wish is None:
        return "none"
    kept = "stands" if any(offer.stands for offer in offered.keep) else "keep" if offered.keep else ""
    return f"dead-{kept}" if kept else "dead"


@dataclass(frozen=True, slots=True)
class _Told:
    """An offer as it is told. `first`: number 1, where what was asked can't be built and is nothing to compare with.

    `date`: when it would be ready with the slots of this moment; None where no day can be named.
    """

    offer: Offer
    held: bool
    keep: bool = False
    first: Offer | None = None
    date: Promise | None = None

    @property
    def difference(self) -> Worth | None:
        """None where there is nothing to hold it against."""
        if self.held:
            return self.offer.difference
        return None if self.first is None else _beyond(self.offer.price, self.first.price)

    @property
    def days(self) -> int:
        """Working days more or less than what it is held against; 0 where there is nothing."""
        there = self.offer.suggestion
        if self.held:
            return there.days_difference
        return 0 if self.first is None else there.days - self.first.suggestion.days


def _told(offered: Offered) -> Iterator[_Told]:
    for place, offer in enumerate(offered.offers):
        yield _Told(offer, offered.held, first=None if offered.held or not place else offered.offers[0])


def _beyond(there: Worth, here: Worth) -> Worth:
    net = None if there.net is None or here.net is None else there.net - here.net
    with_tax = None if there.with_tax is None or here.with_tax is None else there.with_tax - here.with_tax
    return Worth(net, with_tax)


def sentence(told: _Told, speech: Speech) -> str:
    """What is offered, without what it costs."""
    offer = told.offer
    parts = [_built(told, speech)]
    parts += [*_depends("gains", offer.suggestion.gains, speech), *_depends("sheds", offer.suggestion.sheds, speech)]
    parts += [*_days(told, speech), *_ready(told, speech)]
    parts += [_beside(beside, speech) for beside in offer.suggestion.beside]
    if offer.cautions:
        parts.append(speech.say("offer.gains-cautions", names=speech.list(map(speech.name, offer.cautions))))
    return " ".join(parts)


def price_sentence(told: _Told, currency: str, speech: Speech) -> str:
    """What it comes to, with tax where that is decided, and how far that is from what it is held against."""
    price, difference = told.offer.price, told.difference
    if price.net is None:
        return speech.say("price.not-priced")
    taxed = price.with_tax is not None
    total = price.net if price.with_tax is None else price.with_tax
    gap = None if difference is None else difference.with_tax if taxed else difference.net
    way = "total" if gap is None else "less" if gap < 0 else "more" if gap else "same"
    against = "-first" if told.first is not None and gap is not None else ""
    slots = {"total": speech.money(total, currency), "amount": speech.money(gap or 0, currency)}
    return speech.say(f"price.{way}{against}{'' if taxed else '-before-tax'}", **slots)


def _view(told: _Told, offered: Offered, speech: Speech) -> dict[str, Any]:
    offer, suggestion = told.offer, told.offer.suggestion
    answers = suggestion.specification.answers
    difference = {"net": offer.difference.net, "with_tax": offer.difference.with_tax}
    return {
        "changes": [_change(change) for change in suggestion.changes],
        "also_changes": [{"beside": b.place, "options": b.also, "sheds": b.sheds} for b in suggestion.beside],
        "fills": offer.fills,
        "stands": offer.stands,
        "verdict": suggestion.answer.verdict.value,
        "verdicts": [verdict.value for verdict in suggestion.answer.verdicts],
        "price": {"net": offer.price.net, "with_tax": offer.price.with_tax},
        "difference": difference | {"sentence": price_sentence(told, offered.currency, speech)},
        "beside_first": _beside_first(told),
        "days_difference": suggestion.days_difference,
        "days_beside_first": None if told.first is None else told.days,
        "ready": offer.ready,
        "date": told.date and range_view(told.date),
        "gains": depends_view(suggestion.gains),
        "sheds": depends_view(suggestion.sheds),
        "sentence": sentence(told, speech),
        "specification": {o: {"choice": taken.choice, "origin": taken.origin.value} for o, taken in answers.items()},
    }


def _beside_first(told: _Told) -> dict[str, int | None] | None:
    difference = told.difference
    if told.first is None or difference is None:
        return None
    return {"net": difference.net, "with_tax": difference.with_tax}


def _change(change: Change) -> dict[str, Any]:
    return {
        "option": change.option,
        "from": change.was,
        "to": change.now,
        "origin": change.origin.value,
        "forced": change.forced,
    }


def _built(told: _Told, speech: Speech) -> str:
    """What follows from an answer of the reader's own that changes is told apart; else all of it is one condition."""
    changes = sorted(told.offer.suggestion.changes, key=lambda change: not change.forced)
    follows = any(change.origin is Origin.CHOSEN for change in changes)
    free = [change for change in changes if not (follows and change.forced)]
    forced = [change for change in changes if follows and change.forced]
    once = told.offer.suggestion.answer.verdict is Verdict.ONCE
    kept = "stands" if told.offer.stands else "keep"
    plain = f"{'once' if once else 'built'}{'-forced' if forced else ''}"
    key = f"{kept}{'-once' if once else ''}" if told.keep else plain
    return speech.say(f"offer.{key}", clauses=_clauses(free, speech), forced=_clauses(forced, speech))


def _clauses(changes: list[Change], speech: Speech) -> str:
    return speech.list(speech.clause(change.option, change.now) for change in changes)


def _days(told: _Told, speech: Speech) -> Iterator[str]:
    if told.days:
        way = "more-work" if told.days > 0 else "less-work"
        one = "-one" if abs(told.days) == 1 else ""
        yield speech.say(f"offer.{way}{one}{'' if told.first is None else '-first'}", days=abs(told.days))


def _ready(told: _Told, speech: Speech) -> Iterator[str]:
    ready = told.offer.ready
    if ready is not None:
        whole = "ready" if told.offer.suggestion.answer.complete else "ready-so-far"
        yield speech.say(f"offer.{whole}", least=ready.from_days, most=ready.to_days)
    if told.date is not None:
        yield speech.say("offer.date", least=speech.day(told.date.ready), most=speech.day(told.date.ready_by))


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

"""The letter about a customer's part that failed: what was found and what can be done, with money and dates.

A whole text in the customer's language, to be copied and sent by a person. It names sums: it is for
whoever may see them.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from app.documents.saying.figures import Figures, locale_for
from app.domain.asking.actor import Actor
from app.domain.part import Arrival, Finding
from app.services.letters.writing import day_in_words, language_of, sender_of
from app.services.letters.writing_moved import MovedLetter
from app.services.parts.failing import Dates, Instead, WaysOn
from app.services.quotations.papering import ON_LETTER
from app.store.db import Store
from app.wording import say
from rules.lengths import with_lengths
from rules.model import Remarked


def letter_of(store: Store, actor: Actor, ways: WaysOn) -> MovedLetter:
    """Only of a part that failed."""
    order, arrival = ways.part.order, ways.part.last
    if arrival is None or arrival.verdict is None:
        raise ValueError("Only of a part that was inspected.")
    customer = order.frozen.customer
    speaks = _Speaking(ways, language_of(customer.language), customer.country)
    with store.reading() as db:
        sender = sender_of(db, actor)
    text = speaks.say(
        "part-failed",
        name=customer.name,
        number=order.number,
        shell=ways.part.seat.place,
        tag=ways.part.tag.number,
        part=speaks.part(),
        came=speaks.day(arrival.day),
        inspected=speaks.day(arrival.verdict.day),
        found="\n".join(speaks.found(arrival)),
        slot=speaks.slot(),
        ways="\n".join(speaks.ways_on()),
        author=actor.display_name,
        sender=sender,
    )
    return MovedLetter(speaks.language, speaks.say("part-failed-subject", number=order.number), text.strip())


class _Speaking:
    """To one customer."""

    def __init__(self, ways: WaysOn, language: str, country: str) -> None:
        self.ways, self.language, self.country = ways, language, country
        self.figures = Figures(locale_for(language, country), ways.part.order.frozen.currency)

    def say(self, key: str, **slots: object) -> str:
        return say(f"letter.{key}", self.language, **slots)

    def day(self, day: date) -> str:
        return day_in_words(day, self.language, self.country)

    def part(self) -> str:
        rule = self.ways.part.book.rule(self.ways.part.tag.rule)
        return (rule.part or rule.title)[self.language]

    def found(self, arrival: Arrival) -> Iterator[str]:
        """Every limit that was missed, and what was said besides."""
        assert arrival.verdict is not None
        for limit, one in zip(self.ways.part.limits, arrival.verdict.findings, strict=False):
            if one.met is False:
                yield self._missed(limit, one)
        if arrival.verdict.why:
            yield self.say("part-why", why=arrival.verdict.why)

    def slot(self) -> str:
        held = self.ways.held
        return self.say("part-no-slot") if held is None else self.say("part-slot", day=self.day(held.promise.slot))

    def ways_on(self) -> Iterator[str]:
        yield self._second()
        yield from map(self._instead, self.ways.instead)
        yield self.say("part-cancel")

    def _missed(self, limit: Remarked, one: Finding) -> str:
        told = with_lengths(limit.text[self.language], self._length)
        if one.measured is None:
            return self.say("part-found", limit=told)
        return self.say("part-measured", limit=told, measured=self._length(one.measured))

    def _length(self, millimetres: Decimal) -> str:
        return self.figures.length(millimetres, self.country in ON_LETTER)

    def _second(self) -> str:
        second = self.ways.second
        days = self._days(second.dates)
        if second.dates is None or not days:
            return self.say("part-second-undated")
        key = "part-second-keeps" if second.dates.keeps else "part-second"
        return self.say(key, passing=self.day(second.passing), earliest=self.day(second.dates.earliest), **days)

    def _instead(self, one: Instead) -> str:
        option = self.ways.part.book.option(one.option)
        choice = f"{option.label[self.language]}: {option.choice(one.choice).label[self.language]}"
        dates = self._dates(one.dates)
        if one.payable is None or one.net is None or one.tax is None:
            return self.say("part-unpriced", choice=choice, dates=dates)
        key = "part-less" if one.payable < 0 else "part-more" if one.payable else "part-same"
        sums = {"payable": one.payable, "net": one.net, "tax": one.tax}
        told = {name: self.figures.money(abs(sum_)) for name, sum_ in sums.items()}
        return self.say(key, choice=choice, dates=dates, **told)

    def _dates(self, dates: Dates | None) -> str:
        days = self._days(dates)
        if dates is None or not days:
            return self.say("part-undated")
        return self.say("part-keeps" if dates.keeps else "part-moves", **days)

    def _days(self, dates: Dates | None) -> dict[str, str]:
        made = None if dates is None else dates.promise
        told = {} if made is None else {"slot": made.slot, "from": made.ready, "to": made.ready_by}
        return {name: self.day(day) for name, day in told.items()}

"""A rule's condition in words of the book: labels in quotation marks, joined as the reader's language joins them.

Parts are put together from whole phrases with named slots; brackets say what belongs together. Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from babel.lists import format_list

from app.web.telling.findings import gearbox_named
from app.web.telling.speech import Speech
from app.wording import say
from rules.condition import (
    ALWAYS,
    All,
    Among,
    Any,
    Condition,
    DonorGearbox,
    DonorNumber,
    DonorSeries,
    Is,
    IsUsual,
    Not,
    SeriesAsDonor,
)
from rules.donor.identity import write_number
from rules.model import Book, Kind, Role, Rule

Style = Literal["standard", "or"]


#: Combinations of a table that are spelled out; of a longer one only their number is told.
ROWS = 6


def rule_condition(book: Book, rule: Rule, language: str) -> str:
    """When the rule speaks, and for one that needs something what that is."""
    tell = _Teller(Speech(book, language))
    if Kind.NEEDS not in rule.kinds or rule.needs is None:
        return tell.whole(rule.when)
    if rule.when == ALWAYS:
        return tell.say("needs-always", needs=tell.whole(rule.needs))
    return tell.say("needs", when=tell.whole(rule.when), needs=tell.whole(rule.needs))


def condition_said(book: Book, condition: Condition, language: str) -> str:
    """A condition by itself."""
    return _Teller(Speech(book, language)).whole(condition)


@dataclass(frozen=True, slots=True)
class _Teller:
    speech: Speech

    def say(self, key: str, **slots: str) -> str:
        return say(f"condition.{key}", self.speech.language, **slots)

    def whole(self, condition: Condition) -> str:
        match condition:
            case All(()):
                return self.say("always")
            case Any(()):
                return self.say("never")
            case All(parts):
                return self._joined(parts, "standard")
            case Any(parts):
                return self._joined(parts, "or")
            case Not(part):
                return self._not(part)
            case Among():
                return self._table(condition)
            case _:
                return self._plain(condition)

    def _joined(self, parts: tuple[Condition, ...], style: Style) -> str:
        if len(parts) == 1:
            return self.whole(parts[0])
        return self._list((self._within(part) for part in parts), style)

    def _within(self, part: Condition) -> str:
        """As a part of something longer: bracketed where it would run into its neighbours."""
        text = self.whole(part)
        joins = (isinstance(part, All | Any) and len(part.parts) > 1) or isinstance(part, Among)
        return self.say("bracketed", text=text) if joins else text

    def _not(self, part: Condition) -> str:
        match part:
            case Is(option, _):
                return self.say("is-not", option=self.speech.option(option), choices=self._choices(part))
            case IsUsual(option):
                return self.say("usual-not", option=self.speech.option(option))
            case SeriesAsDonor():
                return self.say("series-not-as-donor")
            case _:
                return self.say("not", text=self.say("bracketed", text=self.whole(part)))

    def _plain(self, condition: Condition) -> str:
        match condition:
            case Is(option, _):
                return self.say("is", option=self.speech.option(option), choices=self._choices(condition))
            case IsUsual(option):
                return self.say("usual", option=self.speech.option(option))
            case DonorSeries(series):
                return self.say("donor-series", series=self._list(sorted(map(self._series, series)), "or"))
            case DonorNumber():
                return self._number(condition)
            case DonorGearbox(gearboxes):
                named = (gearbox_named(gearbox, self.speech.language) for gearbox in sorted(gearboxes))
                return self.say("donor-gearbox", gearbox=self._list(named, "or"))
            case SeriesAsDonor():
                return self.say("series-as-donor")
        raise TypeError(f"{condition!r} is no condition that is told here")

    def _choices(self, condition: Is) -> str:
        """In the book's order, however they were written."""
        chosen = (c.id for c in self.speech.book.option(condition.option).choices if c.id in condition.choices)
        return self._list((self._quoted(condition.option, choice) for choice in chosen), "or")

    def _table(self, table: Among) -> str:
        options = self._list(map(self.speech.option, table.options), "standard")
        if len(table.rows) > ROWS:
            return self.say("table-long", options=options, count=str(len(table.rows)))
        rows = (" · ".join(map(self._quoted, table.options, row)) for row in sorted(table.rows))
        return self.say("table", options=options, rows=self._list(rows, "or"))

    def _number(self, number: DonorNumber) -> str:
        series = next((one for one in self.speech.book.series if one.choice == number.series), None)
        if series is None:
            return self.say("donor-series", series=number.series)
        low, high = (series.first if number.low is None else number.low), number.high
        ends = (write_number(series, low), write_number(series, series.last if high is None else high))
        return self.say("donor-number", low=ends[0], high=ends[1])

    def _series(self, series: str) -> str:
        return self.speech.label(self.speech.book.roles[Role.SERIES], series)

    def _quoted(self, option: str, choice: str) -> str:
        return say("proof.quoted", self.speech.language, name=self.speech.label(option, choice))

    def _list(self, parts: Iterable[str], style: Style) -> str:
        return format_list(list(parts), style=style, locale=self.speech.locale)

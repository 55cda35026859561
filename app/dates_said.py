"""What binds a promise, as whole sentences: the screen, the papers and the calendar all say it in these words.

It says what was found and works nothing out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from babel.dates import format_date

from app.domain.planning.slots import Due
from app.wording import locale_of, say
from rules.model import Book, Words
from rules.schedule.promise import Binding, Binds


@dataclass(frozen=True, slots=True)
class DatesSaid:
    """In `language`, days as `locale` writes them; else as that language usually does. `today`: when it is said."""

    book: Book
    language: str
    locale: str = ""
    today: date | None = None

    def say(self, key: str, **slots: Any) -> str:
        """The service's sentence, days in its slots written out."""
        spoken = {name: self.day(value) if isinstance(value, date) else value for name, value in slots.items()}
        return say(key, self.language, **spoken)

    def day(self, day: date) -> str:
        return str(format_date(day, "long", locale=self.locale or locale_of(self.language)))

    def why(self, bindings: Iterable[Binding], due: Iterable[Due] = ()) -> str:
        """The constraint that binds; where none does, the part that has to come, or that it is the work itself."""
        first = next(iter(bindings), None)
        if first is not None:
            return self.binding(first)
        part = awaited_part(due)
        return self.say("promise.work") if part is None else self.part(part.gate.of, part.by)

    def part(self, rule: str, by: date | None) -> str:
        """By when the customer's part must have passed. Nobody can be asked for it by today: that is taken as done."""
        if by is not None and self.today is not None and by <= self.today:
            return self.say("promise.part-today", of=self.thing(rule), by=by)
        return self.say("promise.part-by", of=self.thing(rule), by=by)

    def binding(self, one: Binding) -> str:
        days = self.say("promise.days-one") if one.days == 1 else self.say("promise.days", count=one.days)
        if one.kind is Binds.CAPACITY:
            label = next((stage.label for stage in self.book.stages if stage.id == one.what), {})
            return self.say("promise.full", stage=self.words(label), until=one.until, days=days)
        if one.kind is Binds.CLOSURE:
            closure = self.book.calendar.closures[int(one.what)]
            return self.say("promise.closed", closure=self.words(closure.label), days=days)
        return self.say(f"promise.gate-{one.what}", of=self.thing(one.of), until=one.until, days=days)

    def thing(self, id_: str) -> str:
        """A tool by its name; a rule by its short name with its id, where it has one."""
        tool = next((tool for tool in self.book.tools if tool.id == id_), None)
        if tool is not None:
            return self.words(tool.label)
        title = next((rule.title for rule in self.book.rules if rule.id == id_), {})
        return f"{id_}, {self.words(title)}" if title else id_

    def words(self, text: Words) -> str:
        """A text of the book in the language, else in the first it has."""
        return text.get(self.language) or next(iter(text.values()), "")


def awaited_part(due: Iterable[Due]) -> Due | None:
    """The first part of the customer's that has not passed and says by when it must."""
    return next((one for one in due if one.gate.name == "parts" and not one.gate.opened and one.by), None)

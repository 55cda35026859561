"""What the book's ids are called within a sentence: its own phrases, else its labels in quotation marks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import reduce
from typing import Any

from babel import Locale
from babel.dates import format_date
from babel.lists import format_list
from babel.numbers import format_currency, get_currency_precision

from app.wording import say
from rules.explain.refusal import Against, Given
from rules.model import Book, Kind, Words

_LOCALES = {"en": "en_GB", "de": "de_DE"}


def money_text(minor: int, currency: str, locale: Locale | str) -> str:
    """Whole minor units with the currency's sign, as the locale writes them."""
    return format_currency(Decimal(minor).scaleb(-get_currency_precision(currency)), currency, locale=locale)


@dataclass(frozen=True, slots=True)
class Speech:
    """One book in one language; where the book lacks the language, in its first."""

    book: Book
    language: str

    def say(self, key: str, **slots: Any) -> str:
        """The sentence under `advice.` and the key."""
        return say(f"advice.{key}", self.language, **slots)

    def clause(self, option: str, choice: str) -> str:
        """That a shell has the choice, as it goes on after *because*, *if* and *that*."""
        clause = self._words(self.book.option(option).choice(choice).clause)
        return clause or self.say("clause", **self._labels(option, choice))

    def shell(self, option: str, choice: str) -> str:
        """What a shell with the choice is called."""
        shell = self._words(self.book.option(option).choice(choice).shell)
        return shell or self.say("shell", **self._labels(option, choice))

    def facts(self, answers: Iterable[Given]) -> str:
        """Answers as one list of clauses; those that the original car had, and nobody chose, say so."""
        return self.list(self._fact(each) for each in answers)

    def rules(self, against: Iterable[Against]) -> str:
        """Rules and lost tools as clauses, one after another."""
        *others, last = [self._tool(each.id) if each.tool else self._rule(each.id) for each in against] or [""]
        return reduce(lambda said, one: self.say("rules-and", one=one, more=said), reversed(others), last)

    def option(self, option: str) -> str:
        """An option by its label."""
        return self._words(self.book.option(option).label)

    def label(self, option: str, choice: str) -> str:
        """A choice by its label."""
        return self._words(self.book.option(option).choice(choice).label)

    def name(self, id_: str) -> str:
        """A rule by the part that it asks for, or its title; a tool by its label."""
        rule = next((rule for rule in self.book.rules if rule.id == id_), None)
        if rule is None:
            return self._words(next(tool for tool in self.book.tools if tool.id == id_).label)
        part = self._words(rule.part) if Kind.PART in rule.kinds else ""
        return part or self._words(rule.title) or rule.id

    def list(self, parts: Iterable[str]) -> str:
        """A, B and C."""
        return format_list(list(parts), locale=self.locale)

    def money(self, minor: int, currency: str) -> str:
        """Whole minor units with the currency's sign, without a minus."""
        return money_text(abs(minor), currency, self.locale)

    def day(self, day: date) -> str:
        """A day with its month in letters."""
        return str(format_date(day, "long", locale=self.locale))

    @property
    def locale(self) -> str:
        """By which lists and sums are written."""
        return _LOCALES.get(self.language, "en_GB")

    def _fact(self, given: Given) -> str:
        clause = self.clause(given.option, given.choice)
        return self.say("taken-over", clause=clause) if given.as_had else clause

    def _rule(self, id_: str) -> str:
        rule = self.book.rule(id_)
        if clause := self._words(rule.clause):
            return self.say("rule", id=id_, clause=clause)
        return self.say("rule-quoted", id=id_, reason=self._words(rule.reason))

    def _tool(self, id_: str) -> str:
        tool = next(tool for tool in self.book.tools if tool.id == id_)
        return self._words(tool.clause) or self.say("tool-quoted", reason=self._words(tool.reason))

    def _labels(self, option: str, choice: str) -> dict[str, str]:
        return {"option": self.option(option), "choice": self.label(option, choice)}

    def _words(self, words: Words) -> str:
        return words.get(self.language) or next(iter(words.values()), "")

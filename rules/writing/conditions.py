"""Conditions → text, in the language that `rules.reading.conditions` reads."""

from __future__ import annotations

from rules.condition import (
    ALWAYS,
    All,
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
from rules.model import Book, Role


class Sayer:
    """Says the conditions of one book, choices in the book's own order."""

    def __init__(self, book: Book) -> None:
        self.roles = book.roles
        self.widths = {series.choice: series.width for series in book.series}
        self.order = {option.id: [choice.id for choice in option.choices] for option in book.options}

    def said(self, condition: Condition) -> str:
        """The condition in the language of conditions."""
        match condition:
            case Is(option, choices):
                return f"{option} is {self._or(option, choices)}"
            case Not(Is(option, choices)):
                return f"{option} is not {self._or(option, choices)}"
            case IsUsual(option):
                return f"{option} is usual"
            case Not(IsUsual(option)):
                return f"{option} is not usual"
            case SeriesAsDonor():
                return f"{self.roles[Role.SERIES]} is the donor's"
            case Not(SeriesAsDonor()):
                return f"{self.roles[Role.SERIES]} is not the donor's"
            case _:
                return self._said_joined(condition)

    def _said_joined(self, condition: Condition) -> str:
        match condition:
            case Not(DonorSeries() | DonorGearbox() as fact):
                return self.said(fact).replace(" is ", " is not ", 1)
            case Not(part):
                return f"not ({self.said(part)})"
            case All(()):
                return "always"
            case All(parts):
                return " and ".join(map(self._bracketed, parts))
            case Any(parts) if parts:
                return " or ".join(map(self._bracketed, parts))
            case _:
                return self._said_of_donor(condition)

    def _said_of_donor(self, condition: Condition) -> str:
        match condition:
            case DonorSeries(series):
                return f"donor series is {' or '.join(sorted(series))}"
            case DonorGearbox(gearboxes):
                return f"donor gearbox is {' or '.join(sorted(gearboxes))}"
            case DonorNumber(series, low, high):
                width = self.widths.get(series, 1)
                low_said = "" if low is None else f" from {low:0{width}}"
                return f"donor number {series}{low_said}{'' if high is None else f' to {high:0{width}}'}"
            case _:
                raise ValueError(f"the text of a rule book has no words for {condition!r}")

    def _bracketed(self, part: Condition) -> str:
        compound = isinstance(part, All | Any) and part != ALWAYS
        return f"({self.said(part)})" if compound else self.said(part)

    def _or(self, option: str, choices: frozenset[str]) -> str:
        return " or ".join(choice for choice in self.order[option] if choice in choices)

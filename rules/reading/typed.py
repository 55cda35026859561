"""One condition by itself, as it is typed, against the names that a book's text declares, whatever its mistakes."""

from __future__ import annotations

from dataclasses import dataclass

from rules.condition import Condition
from rules.reading.blocks import blocks_of
from rules.reading.conditions import condition_in
from rules.reading.mistakes import Enough, Ledger, Mistake
from rules.reading.names import Names, names_of


@dataclass(frozen=True, slots=True)
class Typed:
    """`condition` None: it has `mistakes`. `series_option`: the option that plays the series, empty where none does."""

    condition: Condition | None
    mistakes: tuple[Mistake, ...]
    series_option: str


def condition_typed(text: str, book: str) -> Typed:
    """What `text` says where `book` is the book's text."""
    names, ledger = _names(book), Ledger("condition")
    try:
        condition = condition_in(text, 1, names, ledger)
    except Enough:
        condition = None
    return Typed(condition, tuple(ledger.found), names.series_option or "")


def _names(book: str) -> Names:
    ledger = Ledger("book")
    try:
        return names_of(blocks_of(book, ledger), ledger)
    except Enough:
        return Names()

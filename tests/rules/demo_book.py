"""The demo firm's rule book for tests of the engine: read once, whole and with its structure alone."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from rules.answer import Answer
from rules.condition import Condition, options_of
from rules.donor.resolve import resolve
from rules.engine.ask import Prepared, ask, prepare
from rules.model import Book, Role, Rule, ToolCondition
from rules.money.price import Tariff
from rules.reading import read_book
from rules.specification import Donor, Origin, Specification, Taken

FILE = Path(__file__).parents[2] / "demo" / "skerry.book"
NO_DONOR = Donor()
PRIVATE = Tariff("GBP")
#: The state of the tools as the scenario has it.
STATES = dict.fromkeys(
    ("vented-scuttle-press", "narrow-tunnel-press", "small-window-press", "bulkhead-r-na"), ToolCondition.LOST
)


@cache
def whole() -> Book:
    return read_book(FILE.read_text("utf-8"), "demo/skerry.book")


@cache
def structure() -> Book:
    """The book with its structural options and what names only those."""
    book = whole()
    kept = frozenset(option.id for option in book.options if option.structural)

    def within(*conditions: Condition | None) -> bool:
        return all(options_of(resolve(each, book, NO_DONOR)) <= kept for each in conditions if each is not None)

    return replace(
        book,
        options=tuple(option for option in book.options if option.id in kept),
        rules=tuple(rule for rule in book.rules if within(rule.when, rule.needs)),
        lines=tuple(line for line in book.lines if within(line.when)),
        adjustments=tuple(adjustment for adjustment in book.adjustments if within(adjustment.when)),
        tools=tuple(tool for tool in book.tools if within(tool.needed_for)),
        roles={role: option for role, option in book.roles.items() if role is not Role.DELIVERY},
        usual=tuple(replace(r, values={o: c for o, c in r.values.items() if o in kept}) for r in book.usual),
    )


@cache
def prepared(of_structure: bool = False, donor: Donor = NO_DONOR) -> Prepared:
    return prepare(structure() if of_structure else whole(), STATES, donor)


def asked(made: dict[str, str] | None = None, of_structure: bool = False, donor: Donor = NO_DONOR) -> Answer:
    """The full answer to choices made, all the reader's own, for a private customer in GBP."""
    return ask(prepared(of_structure, donor), chosen(made or {}), PRIVATE)


def chosen(made: dict[str, str], usual: dict[str, str] | None = None) -> Specification:
    """`made`: the reader's own answers, over usual values taken over."""
    own = {option: Taken(choice) for option, choice in made.items()}
    return Specification({o: Taken(c, Origin.USUAL) for o, c in (usual or {}).items()} | own)


def without(book: Book, rule: Rule) -> Book:
    return replace(book, rules=tuple(other for other in book.rules if other.id != rule.id))

"""Two rule books, or two states of the tools, compared: what can be built no longer, what newly, and what prices moved.

Compared are variants over the options that both books have. An option that only one of them has plays no part: a
variant of that book counts where some choice of that option completes it. A choice that only one of them has can't be
built in the other. Both diagrams are walked together, in one order, so that every count is exact.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from rules.donor.resolve import domains_of
from rules.engine.diagram import Diagram, TooLarge
from rules.engine.prepare import LIMIT, prepare
from rules.model import Adjustment, Book, Line, ToolCondition
from rules.proof.together import Together
from rules.proof.variants import variants
from rules.specification import Donor

#: Nothing is known of the donor car.
UNKNOWN = Donor()
#: Examples of what is lost and of what is gained, at most.
EXAMPLES = 3


@dataclass(frozen=True, slots=True)
class Side:
    """One book with the state of its tools."""

    book: Book
    states: Mapping[str, ToolCondition] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ChoiceMoved:
    """Variants with this choice that are lost and gained."""

    option: str
    choice: str
    lost: int
    gained: int


@dataclass(frozen=True, slots=True)
class Moved:
    """Variants over the options `over`: `old` and `new` in all, `kept` by both; lost = old − kept, gained = new − kept.

    `choices`: all choices of those options, the old book's first. Examples are option → choice.
    """

    over: tuple[str, ...]
    old: int
    new: int
    kept: int
    choices: tuple[ChoiceMoved, ...]
    lost_examples: tuple[Mapping[str, str], ...]
    gained_examples: tuple[Mapping[str, str], ...]

    @property
    def lost(self) -> int:
        return self.old - self.kept

    @property
    def gained(self) -> int:
        return self.new - self.kept


@dataclass(frozen=True, slots=True)
class PriceMoved:
    """An amount of a line, whole minor units of the list. None: not priced there, or no such line or list."""

    line: str
    list: str
    was: int | None
    now: int | None


@dataclass(frozen=True, slots=True)
class Comparison:
    """`whole`: over all options of both books; `structure`: over those of them that are structural in either.

    `structure` is None where that was too large to count. `old_options`, `old_lines` (price lines): what only the old
    book has; `new_options`, `new_lines`: only the new one. `prices`: amounts of lines that both have. `terms`: lines
    and adjustments of both that hold, multiply, waive or are discounted otherwise, and adjustments that only one has.
    """

    whole: Moved
    structure: Moved | None
    old_options: tuple[str, ...]
    new_options: tuple[str, ...]
    old_lines: tuple[str, ...]
    new_lines: tuple[str, ...]
    prices: tuple[PriceMoved, ...]
    terms: tuple[str, ...]


def compare(old: Side, new: Side, donor: Donor = UNKNOWN, limit: int = LIMIT) -> Comparison:
    """What a change does, for one donor car; TooLarge where a diagram would pass `limit` raw states."""
    were, are = (tuple(option.id for option in side.book.options) for side in (old, new))
    common = tuple(option for option in were if option in are)
    order = _order(old, new, donor, limit)
    return Comparison(
        whole=_moved(old, new, donor, common, order, limit),
        structure=_structure(old, new, donor, _structural(old.book, new.book, common), order, limit),
        old_options=_only(were, are),
        new_options=_only(are, were),
        old_lines=_only(_lines(old.book), _lines(new.book)),
        new_lines=_only(_lines(new.book), _lines(old.book)),
        prices=tuple(_prices(old.book, new.book)),
        terms=tuple(_terms(old.book, new.book)),
    )


def _only(ids: Collection[str], others: Collection[str]) -> tuple[str, ...]:
    return tuple(id_ for id_ in ids if id_ not in others)


def _structural(old: Book, new: Book, common: tuple[str, ...]) -> tuple[str, ...]:
    structural = {option.id for book in (old, new) for option in book.options if option.structural}
    return tuple(option for option in common if option in structural)


def _order(old: Side, new: Side, donor: Donor, limit: int) -> tuple[str, ...]:
    """The new book's best order, the options that only the old one has below."""
    order = prepare(new.book, new.states, donor, limit).order
    return (*order, *(option.id for option in old.book.options if option.id not in order))


def _moved(old: Side, new: Side, donor: Donor, over: tuple[str, ...], order: Sequence[str], limit: int) -> Moved:
    pair = [_variants(side, donor, over, order, limit) for side in (old, new)]
    together = Together(pair[0], domains_of(old.book), pair[1], domains_of(new.book))
    lost, gained, kept = together.ways()
    moved = together.by_choice()
    named = [(option, choice) for option in over for choice in together.choices[option]]
    return Moved(
        over=over,
        old=lost + kept,
        new=gained + kept,
        kept=kept,
        choices=tuple(ChoiceMoved(*name, *moved.get(name, (0, 0))) for name in named),
        lost_examples=_in_order(together.first(0, EXAMPLES), over),
        gained_examples=_in_order(together.first(1, EXAMPLES), over),
    )


def _structure(
    old: Side, new: Side, donor: Donor, over: tuple[str, ...], order: Sequence[str], limit: int
) -> Moved | None:
    try:
        return _moved(old, new, donor, over, order, limit)
    except TooLarge:
        return None


def _variants(side: Side, donor: Donor, over: Collection[str], order: Sequence[str], limit: int) -> Diagram:
    has = {option.id for option in side.book.options}
    return variants(side.book, side.states, donor, over, [option for option in order if option in has], limit)


def _in_order(shells: list[dict[str, str]], over: tuple[str, ...]) -> tuple[Mapping[str, str], ...]:
    return tuple({option: shell[option] for option in over} for shell in shells)


def _prices(old: Book, new: Book) -> Iterator[PriceMoved]:
    lists = tuple(dict.fromkeys(list_.id for book in (old, new) for list_ in book.lists))
    now = {line.id: line for line in new.lines}
    for line in old.lines:
        if line.id in now:
            amounts = ((list_, line.amounts.get(list_), now[line.id].amounts.get(list_)) for list_ in lists)
            yield from (PriceMoved(line.id, *amount) for amount in amounts if amount[1] != amount[2])


def _terms(old: Book, new: Book) -> Iterator[str]:
    was, now = ({line.id: _line_terms(line) for line in book.lines} for book in (old, new))
    yield from (id_ for id_ in was if id_ in now and was[id_] != now[id_])
    were, are = ({a.id: _adjustment_terms(a) for a in book.adjustments} for book in (old, new))
    yield from (id_ for id_ in dict.fromkeys((*were, *are)) if were.get(id_) != are.get(id_))


def _line_terms(line: Line) -> tuple[object, ...]:
    return line.when, line.category, line.base


def _adjustment_terms(adjustment: Adjustment) -> tuple[object, ...]:
    return adjustment.when, frozenset(adjustment.lines), adjustment.factor, adjustment.waives


def _lines(book: Book) -> tuple[str, ...]:
    return tuple(line.id for line in book.lines)

"""What relies on one tool: the choices that can't be had without it, and how many structures are made with it.

Asked with the tool in order and all others as they stand, so the figures say what is at stake, whatever becomes of the
tool. What follows from its being down or lost is the book's: a part may stand in for it, or a rule speak already.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal

from rules.condition import Condition
from rules.donor.resolve import resolve
from rules.engine.diagram import TooLarge
from rules.engine.looking import look_up
from rules.engine.prepare import LIMIT, Prepared, prepare
from rules.model import Book, Kind, Rule, ToolCondition
from rules.proof.variants import count_variants, variants
from rules.specification import Donor

#: Nothing is known of the donor car.
UNKNOWN = Donor()


@dataclass(frozen=True, slots=True)
class Reliance:
    """`structures`: all that can be built while the tool is in order; `using`: of them those made with it.

    Both are None where that was too large to count. `choices`: (option, choice) that no shell has without the tool;
    `everything`: no shell at all is made without it.
    """

    tool: str
    structures: int | None
    using: int | None
    choices: tuple[tuple[str, str], ...]
    everything: bool

    @property
    def percent(self) -> Decimal | None:
        """The share of the structures, to one place, half up; None where it wasn't counted or there are none."""
        if not self.structures or self.using is None:
            return None
        return (Decimal(100 * self.using) / self.structures).quantize(Decimal("0.1"), ROUND_HALF_UP)


def reliance(
    book: Book,
    states: Mapping[str, ToolCondition],
    tool: str,
    order: Sequence[str] | None = None,
    limit: int = LIMIT,
) -> Reliance:
    """On a tool of the book, for a donor car that nothing is known of; TooLarge beyond `limit` raw states."""
    others = {other: state for other, state in states.items() if other != tool}
    with_it = prepare(book, others, UNKNOWN, limit, order)
    spared = _spared(book, tool)
    without = prepare(spared, others, UNKNOWN, limit, with_it.order)
    counted = _counted(book, spared, others, with_it.order, limit)
    gone = _had(with_it) & ~_had(without)
    return Reliance(tool, *counted, tuple(_named(with_it, gone)), not _had(without))


def uses(book: Book, tool: str, donor: Donor) -> Condition:
    """When a shell for this donor car is made with the tool, over choices alone; StopIteration for an unknown tool."""
    return resolve(next(each for each in book.tools if each.id == tool).needed_for, book, donor)


def _spared(book: Book, tool: str) -> Book:
    """The book as if nothing might be made with the tool."""
    needed_for = next(each for each in book.tools if each.id == tool).needed_for
    ban = Rule(id=tool, kinds=frozenset((Kind.NEVER,)), when=needed_for, needs=None, reason={})
    return replace(book, rules=(*book.rules, ban))


def _counted(
    book: Book, spared: Book, states: Mapping[str, ToolCondition], order: Sequence[str], limit: int
) -> tuple[int | None, int | None]:
    """Structures that can be built, and those of them that can't be built without the tool."""
    over = [option.id for option in book.options if option.structural]
    try:
        full, left = (count_variants(variants(b, states, UNKNOWN, over, order, limit)) for b in (book, spared))
    except TooLarge:
        return None, None
    return full, full - left


def _had(prepared: Prepared) -> int:
    """Every choice of a shell that can be built, as a set."""
    diagram = prepared.compiled.buildable
    return look_up(diagram, prepared.layout.indexes({}), [0] * len(diagram.emissions), prepared.bits)


def _named(prepared: Prepared, choices: int) -> list[tuple[str, str]]:
    layout = prepared.layout
    return [
        (option, choice)
        for option, those in layout.domains.items()
        for choice in those
        if layout.bit(option, choice) & choices
    ]

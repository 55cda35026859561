"""Price lines with all that decides them: when a line is charged and which adjustments hold for it. No feasibility."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rules.condition import Condition
from rules.donor.resolve import resolve
from rules.engine.forest import Forest, Term
from rules.engine.sweep import UNPRICED, Price
from rules.model import Adjustment, Book, Line
from rules.money.price import Tariff, line_net
from rules.specification import Donor


@dataclass(frozen=True, slots=True)
class Charge:
    """`when` the line is charged, and when each of its adjustments holds, in the book's order; over choices alone."""

    line: str
    when: Condition
    adjustments: tuple[tuple[str, Condition], ...]


def charges(book: Book, donor: Donor) -> tuple[Charge, ...]:
    """Every price line of the book."""
    adjusting = [(adjustment, resolve(adjustment.when, book, donor)) for adjustment in book.adjustments]
    return tuple(
        Charge(line.id, resolve(line.when, book, donor), tuple((a.id, w) for a, w in adjusting if line.id in a.lines))
        for line in book.lines
    )


def grow_charge(forest: Forest, charge: Charge) -> int:
    """The diagram whose leaves are the charge's terms."""
    adjustments = tuple((id_, forest.grow(when)) for id_, when in charge.adjustments)
    return forest.price(charge.line, forest.grow(charge.when), adjustments)


class Rates:
    """What terms cost by a tariff."""

    __slots__ = ("_adjustments", "_lines")

    def __init__(self, book: Book) -> None:
        self._lines: Mapping[str, Line] = {line.id: line for line in book.lines}
        self._adjustments: Mapping[str, Adjustment] = {adjustment.id: adjustment for adjustment in book.adjustments}

    def costs(self, emissions: Sequence[Sequence[Term]], tariff: Tariff) -> list[Price]:
        """For each emission the sum of its terms' nets, whole minor units; UNPRICED with any term not priced."""
        return [sum((self.cost(term, tariff) for term in terms), 0) for terms in emissions]

    def cost(self, term: Term, tariff: Tariff) -> Price:
        """One term's net, whole minor units; UNPRICED where it isn't priced."""
        line, adjustments = term
        net = line_net(self._lines[line], [self._adjustments[id_] for id_ in adjustments], tariff)
        return UNPRICED if net is None else net.net

"""A compiled diagram looked at under choices made: one pass up, one pass down, and every choice between the two."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rules.engine.diagram import Diagram
from rules.engine.sweep import UNPRICED, Price, PricedBranch, Sweep, allowed, downward, upward
from rules.engine.view import View

#: For each layer the set of each of its choices.
Bits = Sequence[Sequence[int]]


@dataclass(frozen=True, slots=True)
class Seen:
    """All completions of the choices made: how many, the least price, all that they take; and those of each choice."""

    count: int
    price: Price
    choices: int
    branches: Mapping[str, Sequence[PricedBranch]]

    def view(self) -> View:
        """The same for an answer."""
        return View(bool(self.count), self.count, self.price, self.choices, self.branches)


def look(diagram: Diagram, made: Mapping[str, int], costs: Sequence[Price], bits: Bits) -> Seen:
    """All completions of the choices made (option → index); `costs`: the price of each emission."""
    open_to = allowed(diagram, made)
    below = upward(diagram, open_to, costs, bits)
    return Seen(*_root(diagram, below[0]), downward(diagram, open_to, costs, bits, below))


def look_up(diagram: Diagram, made: Mapping[str, int], costs: Sequence[Price], bits: Bits) -> int:
    """Every choice that a completion of the choices made takes, as a set; 0 where there is none."""
    return _root(diagram, upward(diagram, allowed(diagram, made), costs, bits)[0])[2]


def _root(diagram: Diagram, top: Sweep) -> tuple[int, Price, int]:
    counts, prices, choices = top
    return (counts[0], prices[0], choices[0]) if diagram.alive else (0, UNPRICED, 0)

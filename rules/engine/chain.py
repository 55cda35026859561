"""A diagram cut wherever all its paths pass one node: a chain of links, each looked at by itself and remembered.

What is open in one link has no bearing on another: ways multiply, prices add up. So an answer that changes one link
costs nothing in the others.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from functools import reduce
from itertools import accumulate, pairwise
from math import prod
from operator import add, and_, or_
from typing import Any

from rules.engine.diagram import Diagram
from rules.engine.looking import Bits, Seen, look
from rules.engine.memory import Memory
from rules.engine.sweep import UNPRICED, Price, PricedBranch

#: Answers remembered of one link.
REMEMBERED = 200
#: A choice that can't be.
CLOSED: PricedBranch = (False, UNPRICED, 0)


class Chain:
    """`bits`: for each layer the set of each of its choices. Read from several threads."""

    __slots__ = ("_links",)

    def __init__(self, diagram: Diagram, bits: Bits) -> None:
        self._links = tuple(_Link(part, of) for part, of in _cut(diagram, bits))

    @property
    def options(self) -> tuple[tuple[str, ...], ...]:
        """Of each link, in the order of the diagram."""
        return tuple(link.options for link in self._links)

    def look(self, made: Mapping[str, int], tariff: Hashable, costs: Sequence[Price]) -> Seen:
        """All completions of the choices made (option → index); `costs`: of each emission, by a tariff."""
        return _joined([link.look(made, tariff, costs) for link in self._links])


class _Link:
    """Where a chain can't be passed at all, every way through it is still told."""

    __slots__ = ("_bits", "_diagram", "_known", "options")

    def __init__(self, diagram: Diagram, bits: Bits) -> None:
        self._diagram, self._bits = diagram, bits
        self.options = tuple(layer.option for layer in diagram.layers)
        self._known = Memory[Hashable, Seen](REMEMBERED)

    def look(self, made: Mapping[str, int], tariff: Hashable, costs: Sequence[Price]) -> Seen:
        key = (tariff, *map(made.get, self.options))
        known = self._known.get(key)
        if known is None:
            return self._known.keep(key, look(self._diagram, made, costs, self._bits))
        return known


def _cut(diagram: Diagram, bits: Bits) -> Iterator[tuple[Diagram, Bits]]:
    """Of a diagram that nothing satisfies no part says anything by itself."""
    waists = [place for place, layer in enumerate(diagram.layers) if place and layer.size == 1 and diagram.alive]
    for begin, end in pairwise((0, *waists, len(diagram.layers))):
        yield Diagram(diagram.layers[begin:end], diagram.alive, diagram.emissions, diagram.raw), bits[begin:end]


def _joined(seen: Sequence[Seen]) -> Seen:
    """Without one link's ways there are none through any other."""
    if len(seen) == 1:
        return seen[0]
    count, prices, choices = prod(s.count for s in seen), [s.price for s in seen], [s.choices for s in seen]
    can = _others([s.count > 0 for s in seen], and_, True)
    rests = zip(seen, can, _others(prices, add, 0), _others(choices, or_, 0), strict=True)
    branches = {o: _beside(found, *rest) for s, *rest in rests for o, found in s.branches.items()}
    return Seen(count, sum(prices), reduce(or_, choices) if count else 0, branches)


def _others(values: Sequence[Any], join: Callable[[Any, Any], Any], nothing: Any) -> list[Any]:
    """For each of the values all the others joined."""
    before = accumulate(values, join, initial=nothing)
    after = reversed([*accumulate(reversed(values[1:]), join, initial=nothing)])
    return [*map(join, before, after)]


def _beside(branches: Sequence[PricedBranch], can: bool, dearer: Price, others: int) -> Sequence[PricedBranch]:
    """The choices of an option of one link, completed by the others."""
    if not can:
        return [CLOSED] * len(branches)
    return [(ways, price + dearer, choices | others) if ways else CLOSED for ways, price, choices in branches]

"""Variants: combinations of some options' choices that the other options can complete. Counted and laid out exactly.

The book's diagram keeps its own good order. Options that aren't wanted are taken out of it: where the diagram asks one,
the variant goes on from every node that some choice leads to. So each path through what comes out is one variant,
however many completions it has.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace

from rules.donor.resolve import domains_of
from rules.engine.bans import bans
from rules.engine.diagram import Diagram, Edge, Layer, TooLarge, compile_diagram
from rules.engine.forest import Forest
from rules.engine.prepare import LIMIT
from rules.model import Book, ToolCondition
from rules.specification import Donor

#: Nodes of one layer that the same choices may have led to.
_Nodes = frozenset[int]
#: For each node of a layer and each choice the node below, or None.
_Children = list[list[int | None]]


def variants(
    book: Book,
    states: Mapping[str, ToolCondition],
    donor: Donor,
    over: Collection[str],
    order: Sequence[str],
    limit: int = LIMIT,
) -> Diagram:
    """The variants over the options `over`, in a good `order` of all the book's options; TooLarge beyond `limit`."""
    forest = Forest(tuple(order), domains_of(book))
    forbidden = [forest.grow(ban.when) for ban in bans(book, states, donor)]
    diagram = compile_diagram(forest, forbidden, (), limit)
    return replace(diagram, layers=tuple(_layers(diagram, over, limit)))


def count_variants(diagram: Diagram) -> int:
    """How many paths a diagram has."""
    follow = [1]
    for layer in reversed(diagram.layers):
        counts = [0] * layer.size
        for node, child, _ in (edge for edges in layer.edges for edge in edges):
            counts[node] += follow[child]
        follow = counts
    return follow[0] if diagram.alive else 0


def _layers(diagram: Diagram, over: Collection[str], limit: int) -> Iterator[Layer]:
    """The wanted layers. A node of one is the set of all nodes that may have been reached, the unwanted passed over."""
    passed = _Passing(diagram, over, limit)
    reached: dict[_Nodes, int] = {passed.from_top(): 0} if diagram.alive else {}
    for level, layer in enumerate(diagram.layers):
        if layer.option in over:
            below: dict[_Nodes, int] = {}
            yield Layer(layer.option, len(reached), passed.edges(level, reached, below))
            reached = below


class _Passing:
    """Steps from one wanted layer to the next. After the last, all that is left is the end, and that is one node."""

    def __init__(self, diagram: Diagram, over: Collection[str], limit: int) -> None:
        self._layers, self._over, self._limit, self._met = diagram.layers, over, limit, 0
        self._children = [_children(layer) for layer in diagram.layers]

    def from_top(self) -> _Nodes:
        return self._on(frozenset((0,)), 0)

    def edges(
        self, level: int, reached: Mapping[_Nodes, int], below: dict[_Nodes, int]
    ) -> tuple[tuple[Edge, ...], ...]:
        """For each choice the edges from the sets `reached`; `below` is filled with the sets they lead to."""
        self._count(len(reached))
        found: list[list[Edge]] = [[] for _ in self._layers[level].edges]
        for nodes, place in reached.items():
            for choice, edges in enumerate(found):
                led = frozenset(c for n in nodes if (c := self._children[level][n][choice]) is not None)
                if led:
                    edges.append((place, below.setdefault(self._on(led, level + 1), len(below)), 0))
        return tuple(tuple(edges) for edges in found)

    def _on(self, nodes: _Nodes, level: int) -> _Nodes:
        """Past the layers that aren't wanted."""
        while level < len(self._layers) and self._layers[level].option not in self._over:
            nodes = frozenset(c for n in nodes for c in self._children[level][n] if c is not None)
            level += 1
        return nodes

    def _count(self, met: int) -> None:
        self._met += met
        if self._met > self._limit:
            raise TooLarge(self._limit)


def _children(layer: Layer) -> _Children:
    children: _Children = [[None] * len(layer.edges) for _ in range(layer.size)]
    for choice, edges in enumerate(layer.edges):
        for node, child, _ in edges:
            children[node][choice] = child
    return children

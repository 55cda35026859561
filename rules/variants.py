"""Variants: combinations of some options' choices that the other options can complete. Counted and laid out exactly.

The wanted options come first in the order, and the diagram is cut below them: every node that is left there can be
completed, or it would be dead. So each path through what is kept is one variant, however many completions it has.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from rules.bans import bans
from rules.diagram import Diagram, Layer, compile_diagram
from rules.forest import Forest
from rules.model import Book, ToolCondition
from rules.prepare import LIMIT
from rules.resolve import domains_of
from rules.specification import Donor


def variants(
    book: Book,
    states: Mapping[str, ToolCondition],
    donor: Donor,
    over: Collection[str],
    order: Sequence[str],
    limit: int = LIMIT,
) -> Diagram:
    """The variants over the options `over`, in a good `order` of all the book's options; TooLarge beyond `limit`."""
    first = tuple(option for option in order if option in over)
    forest = Forest((*first, *(option for option in order if option not in over)), domains_of(book))
    forbidden = [forest.grow(ban.when) for ban in bans(book, states, donor)]
    return _cut(compile_diagram(forest, forbidden, (), limit), len(first))


def count_variants(diagram: Diagram) -> int:
    """How many paths a diagram has."""
    follow = [1]
    for layer in reversed(diagram.layers):
        counts = [0] * layer.size
        for node, child, _ in (edge for edges in layer.edges for edge in edges):
            counts[node] += follow[child]
        follow = counts
    return follow[0] if diagram.alive else 0


def _cut(diagram: Diagram, depth: int) -> Diagram:
    kept = diagram.layers[:depth]
    return replace(diagram, layers=(*kept[:-1], *(_ended(layer) for layer in kept[-1:])))


def _ended(layer: Layer) -> Layer:
    return replace(layer, edges=tuple(tuple((node, 0, said) for node, _, said in edges) for edges in layer.edges))

"""Passes over a compiled diagram: what can follow, how many ways, at what least price; and the same from above.

Whether something can be built is read from counts, never from a price. A price that isn't known is `UNPRICED`: it
stays so whatever is added, allowances too, and any known price is less.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf
from typing import NamedTuple

from rules.diagram import Diagram, Layer

#: Whole minor units, or UNPRICED.
Price = float
UNPRICED: Price = inf

#: For each layer the indexes of the choices that may be taken.
Allowed = Sequence[Sequence[int]]


@dataclass(frozen=True, slots=True)
class Sweep:
    """For each node of one layer: how many ways lead there, the least price of one, and every choice that one takes.

    From below, ways are complete. From above, `counts` only tells 0 from some.
    """

    counts: list[int]
    prices: list[Price]
    choices: list[int]


class Branch(NamedTuple):
    """One choice, all other answers kept. `ways`: it can be; `choices`: the set of all that its completions take.

    `price` None: not worked out.
    """

    ways: bool
    price: Price | None
    choices: int


_END = Sweep([1], [0], [0])


def allowed(diagram: Diagram, made: Mapping[str, int]) -> Allowed:
    """Only the choice made (option → index) where there is one, else all."""
    return [(made[y.option],) if y.option in made else range(len(y.edges)) for y in diagram.layers]


def upward(diagram: Diagram, open_to: Allowed, costs: Sequence[Price], bits: Sequence[Sequence[int]]) -> list[Sweep]:
    """From the bottom: a sweep for each layer and one for the end. `costs`: the price of each emission."""
    sweeps = [_END]
    for layer, choices, of in zip(reversed(diagram.layers), reversed(open_to), reversed(bits), strict=True):
        sweeps.append(_risen(layer, choices, costs, of, sweeps[-1]))
    return sweeps[::-1]


def _risen(layer: Layer, open_to: Sequence[int], costs: Sequence[Price], bits: Sequence[int], below: Sweep) -> Sweep:
    counts, prices, choices = [0] * layer.size, [UNPRICED] * layer.size, [0] * layer.size
    follow, least, sets = below.counts, below.prices, below.choices
    for choice in open_to:
        bit = bits[choice]
        for node, child, emission in layer.edges[choice]:
            if ways := follow[child]:
                counts[node] += ways
                choices[node] |= sets[child] | bit
                price = least[child] + costs[emission]
                if price < prices[node]:
                    prices[node] = price
    return Sweep(counts, prices, choices)


def downward(diagram: Diagram, open_to: Allowed, costs: Sequence[Price], bits: Sequence[Sequence[int]]) -> list[Sweep]:
    """From the root: a sweep for each layer and one for the end."""
    sweeps = [_END]
    sizes = [*(layer.size for layer in diagram.layers[1:]), 1]
    for layer, choices, of, size in zip(diagram.layers, open_to, bits, sizes, strict=True):
        sweeps.append(_fallen(layer, choices, costs, of, sweeps[-1], size))
    return sweeps


def _fallen(
    layer: Layer, open_to: Sequence[int], costs: Sequence[Price], bits: Sequence[int], above: Sweep, size: int
) -> Sweep:
    counts, prices, choices = [0] * size, [UNPRICED] * size, [0] * size
    reached, least, sets = above.counts, above.prices, above.choices
    for choice in open_to:
        bit = bits[choice]
        for node, child, emission in layer.edges[choice]:
            if reached[node]:
                counts[child] = 1
                choices[child] |= sets[node] | bit
                price = least[node] + costs[emission]
                if price < prices[child]:
                    prices[child] = price
    return Sweep(counts, prices, choices)


def branches(layer: Layer, above: Sweep, below: Sweep, costs: Sequence[Price], bits: Sequence[int]) -> list[Branch]:
    """For each choice of the layer's option, in written order; its own answer plays no part."""
    reached, arrived, taken = above.counts, above.prices, above.choices
    follow, ahead, left = below.counts, below.prices, below.choices
    found: list[Branch] = []
    for edges, choices in zip(layer.edges, bits, strict=True):
        ways, least = False, UNPRICED
        for node, child, emission in edges:
            if reached[node] and follow[child]:
                ways = True
                choices |= taken[node] | left[child]
                price = arrived[node] + costs[emission] + ahead[child]
                if price < least:
                    least = price
        found.append(Branch(ways, least, choices))
    return found

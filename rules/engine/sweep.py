"""Passes over a compiled diagram: what can follow, how many ways, at what least price; and the same from above.

Whether something can be built is read from counts, never from a price. A price that isn't known is `UNPRICED`: it
stays so whatever is added, allowances too, and any known price is less.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf

from rules.engine.diagram import Diagram, Layer

#: Whole minor units, or UNPRICED.
Price = float
UNPRICED: Price = inf

#: For each layer the indexes of the choices that may be taken.
Allowed = Sequence[Sequence[int]]


#: For each node of one layer: how many ways lead there, the least price of one, and every choice that one takes. From
#: below, ways are complete; from above, only 0 is told from some. Plain, as a branch is, for there are many of both.
Sweep = tuple[list[int], list[Price], list[int]]

#: One choice, all other answers kept: whether it can be; its least price; the set of all choices that its completions
#: take. An answer has two hundred: with names they'd take twice as long to make.
PricedBranch = tuple[bool, Price, int]


_END: Sweep = ([1], [0], [0])


def allowed(diagram: Diagram, made: Mapping[str, int]) -> Allowed:
    """Only the choice made (option → index) where there is one, else all."""
    return [(made[y.option],) if y.option in made else range(len(y.edges)) for y in diagram.layers]


def upward(diagram: Diagram, open_to: Allowed, costs: Sequence[Price], bits: Sequence[Sequence[int]]) -> list[Sweep]:
    """From the bottom: a sweep for each layer and one for the end. `costs`: the price of each emission."""
    sweeps = [_END]
    for layer, choices, of in zip(reversed(diagram.layers), reversed(open_to), reversed(bits), strict=True):
        follow, ahead, left = sweeps[-1]
        counts, prices, sets = [0] * layer.size, [UNPRICED] * layer.size, [0] * layer.size
        for choice in choices:
            bit = of[choice]
            for node, child, emission in layer.edges[choice]:
                if ways := follow[child]:
                    counts[node] += ways
                    sets[node] |= left[child] | bit
                    price = ahead[child] + costs[emission]
                    if price < prices[node]:
                        prices[node] = price
        sweeps.append((counts, prices, sets))
    return sweeps[::-1]


def downward(
    diagram: Diagram, open_to: Allowed, costs: Sequence[Price], bits: Sequence[Sequence[int]], below: Sequence[Sweep]
) -> dict[str, list[PricedBranch]]:
    """From the root: option → a branch for each of its choices, in written order. `below`: as `upward` gave it."""
    above, found = _END, dict[str, list[PricedBranch]]()
    for layer, choices, of, under in zip(diagram.layers, open_to, bits, below[1:], strict=True):
        above, found[layer.option] = _fallen(layer, choices, costs, of, above, under)
    return found


def _fallen(
    layer: Layer, open_to: Sequence[int], costs: Sequence[Price], bits: Sequence[int], above: Sweep, below: Sweep
) -> tuple[Sweep, list[PricedBranch]]:
    """What leads to the next layer by the choices that are open; and each choice, between what is above and below."""
    (reached, arrived, taken), (follow, ahead, left) = above, below
    counts, prices, sets = [0] * len(follow), [UNPRICED] * len(follow), [0] * len(follow)
    found: list[PricedBranch] = []
    for index, (edges, bit) in enumerate(zip(layer.edges, bits, strict=True)):
        is_open, ways, least, choices = index in open_to, False, UNPRICED, bit
        for node, child, emission in edges:
            if reached[node]:
                price, so_far = arrived[node] + costs[emission], taken[node] | bit
                if is_open:
                    counts[child] = 1
                    sets[child] |= so_far
                    if price < prices[child]:
                        prices[child] = price
                if follow[child]:
                    ways = True
                    choices |= so_far | left[child]
                    price += ahead[child]
                    if price < least:
                        least = price
        found.append((ways, least, choices))
    return (counts, prices, sets), found

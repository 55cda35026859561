"""How near a shell is, as one whole number: own answers changed, taken-over answers changed, price, the book's order.

Each of them is a field of the number, wide enough that no sum of a lower one reaches a higher one; so weights are added
along a path and compared as whole numbers. A line that isn't priced counts before every price, in a field of its own:
two shells with an unpriced line are compared by what is priced. Whether something can be built is never read from here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import prod

from rules.engine.sweep import UNPRICED
from rules.explain.nearest import Weights
from rules.specification import Origin, Specification

Domains = Mapping[str, tuple[str, ...]]
#: For each emission: how many of its lines aren't priced, and the sum of the others.
Sums = Sequence[tuple[int, int]]


@dataclass(frozen=True, slots=True)
class _Fields:
    """What one unit of each field weighs."""

    own: int
    usual: int
    unpriced: int
    price: int


def sum_of(nets: Sequence[float]) -> tuple[int, int]:
    """How many of the lines aren't priced, and the sum of the others."""
    return sum(net == UNPRICED for net in nets), int(sum(net for net in nets if net != UNPRICED))


def weights_of(domains: Domains, specification: Specification, wished: str | None, sums: Sums) -> Weights:
    """The weights for a diagram with these emissions; the `wished` option's answer counts as no change."""
    fields = _fields(domains, sums)
    changes = {option: 0 if option == wished else _change(specification, option, fields) for option in domains}
    places = _places(domains)
    return Weights(
        {o: _choices(domains[o], specification, o, changes[o], places[o]) for o in domains},
        [unpriced * fields.unpriced + price * fields.price for unpriced, price in sums],
    )


def _fields(domains: Domains, sums: Sums) -> _Fields:
    price = prod(len(choices) for choices in domains.values()) << len(domains)
    unpriced = price * (2 * sum(abs(amount) for _, amount in sums) + 1)
    usual = unpriced * (sum(count for count, _ in sums) + 1)
    return _Fields(usual * (len(domains) + 1), usual, unpriced, price)


def _change(specification: Specification, option: str, fields: _Fields) -> int:
    taken = specification.answers.get(option)
    if taken is None:
        return 0
    return fields.own if taken.origin is Origin.CHOSEN else fields.usual


def _places(domains: Domains) -> dict[str, tuple[int, int]]:
    """For each option what keeping its answer weighs, and its next choice: changes early in the book come first."""
    step, places = 1, dict[str, tuple[int, int]]()
    kept = prod(len(choices) for choices in domains.values())
    for option in reversed(tuple(domains)):
        places[option] = (kept, step)
        kept, step = kept * 2, step * len(domains[option])
    return places


def _choices(
    choices: tuple[str, ...], specification: Specification, option: str, change: int, place: tuple[int, int]
) -> list[int]:
    taken, (kept, step) = specification.answers.get(option), place
    answered = None if taken is None else taken.choice
    return [
        k * step + (0 if answered is None else kept if choice == answered else change)
        for k, choice in enumerate(choices)
    ]

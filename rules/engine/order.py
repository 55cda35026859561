"""Orders of the options worth trying: a diagram's size hangs on them, its answers never do.

Deterministic: the starting orders of FORCE come from a fixed generator, so the same book always gets the same order.
FORCE: Aloul, Markov, Sakallah, "FORCE: a fast and easy-to-implement variable-ordering heuristic", GLSVLSI 2003.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from math import log2

#: Sets of options that something names together.
Groups = tuple[frozenset[str], ...]


def orders(domains: Mapping[str, tuple[str, ...]], groups: Groups, seeds: Iterable[int]) -> Iterator[tuple[str, ...]]:
    """The greedy order, the written one, and one by FORCE from the written one and from each seed; none twice."""
    written = tuple(domains)
    starts = (written, *(shuffled(written, seed) for seed in seeds))
    tried = (greedy(domains, groups), written, *(force(start, groups) for start in starts))
    yield from dict.fromkeys(tried)


def greedy(domains: Mapping[str, tuple[str, ...]], groups: Groups) -> tuple[str, ...]:
    """Always next: the option that leaves the smallest frontier; ties go to the written order."""
    frontier = _Frontier(domains, groups)
    left, order = list(domains), list[str]()
    while left:
        best = min(left, key=frontier.growth)
        frontier.decide(best)
        left.remove(best)
        order.append(best)
    return tuple(order)


class _Frontier:
    """The decided options that an undecided one still asks about; its size is how many ways they can stand.

    Sizes are logarithms as whole numbers, so that ties are ties on every machine.
    """

    def __init__(self, domains: Mapping[str, tuple[str, ...]], groups: Groups) -> None:
        self.groups = groups
        self.sizes = {option: round(log2(max(len(choices), 1)) * 2**20) for option, choices in domains.items()}
        self.of = {option: [i for i, group in enumerate(groups) if option in group] for option in domains}
        self.undecided = [len(group) for group in groups]
        self.open = {option: len(of) for option, of in self.of.items()}

    def growth(self, option: str) -> int:
        """What the frontier grows by when this option is decided next."""
        closing = [i for i in self.of[option] if self.undecided[i] == 1]
        freed = Counter(other for i in closing for other in self.groups[i] if other != option)
        stays = self.sizes[option] if len(closing) < self.open[option] else 0
        return stays - sum(self.sizes[other] for other, times in freed.items() if times == self.open[other])

    def decide(self, option: str) -> None:
        for i in self.of[option]:
            self.undecided[i] -= 1
            if not self.undecided[i]:
                for other in self.groups[i]:
                    self.open[other] -= 1


def force(start: tuple[str, ...], groups: Groups, rounds: int = 200) -> tuple[str, ...]:
    """Move every option to the mean centre of its groups until the total span shrinks no more."""
    order, span = start, _span(start, groups)
    for _ in range(rounds):
        moved = _pulled(order, groups)
        shorter = _span(moved, groups)
        if shorter >= span:
            break
        order, span = moved, shorter
    return order


def _pulled(order: tuple[str, ...], groups: Groups) -> tuple[str, ...]:
    places = {option: i for i, option in enumerate(order)}
    pulls: dict[str, list[float]] = {option: [] for option in order}
    for group in groups:
        centre = sum(places[option] for option in group) / len(group)
        for option in group:
            pulls[option].append(centre)
    goals = {o: sum(pull) / len(pull) if pull else float(places[o]) for o, pull in pulls.items()}
    return tuple(sorted(order, key=lambda option: (goals[option], places[option])))


def _span(order: tuple[str, ...], groups: Groups) -> int:
    places = {option: i for i, option in enumerate(order)}
    return sum(max(places[o] for o in group) - min(places[o] for o in group) for group in groups)


def shuffled(options: tuple[str, ...], seed: int) -> tuple[str, ...]:
    """A fixed permutation for each seed, by a linear congruential generator (Knuth's MMIX constants)."""
    keys, state = [], seed
    for _ in options:
        state = (state * 6364136223846793005 + 1442695040888963407) % 2**64
        keys.append(state >> 16)
    return tuple(option for _, option in sorted(zip(keys, options, strict=True)))

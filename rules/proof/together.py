"""Two diagrams over the same options walked at once, so that what only one of them has is counted exactly.

Knows paths and choices, no book: which options, and what a difference means, is the business of who asks.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rules.engine.diagram import Diagram, Layer

#: A node of either diagram; None where it has no way on.
_Pair = tuple[int | None, int | None]
#: Ways to the end: in the old one only, in the new one only, in both.
Ways = tuple[int, int, int]
#: option → its choices, in the order in which they are tried.
Domains = Mapping[str, Sequence[str]]

_NONE: Ways = (0, 0, 0)
_ENDS: Mapping[_Pair, Ways] = {(0, None): (1, 0, 0), (None, 0): (0, 1, 0), (0, 0): (0, 0, 1)}


class Together:
    """`old` and `new` have the same options in the same order; `was`, `now`: the choices of each, in its own order."""

    def __init__(self, old: Diagram, was: Domains, new: Diagram, now: Domains) -> None:
        self._begin: _Pair = (0 if old.alive else None, 0 if new.alive else None)
        self.options = tuple(layer.option for layer in old.layers)
        self.choices = {o: tuple(dict.fromkeys((*was[o], *now[o]))) for o in self.options}
        pairs = zip(_by_node(old, was), _by_node(new, now), strict=True)
        self._steps = list(_walk(self._begin, self.choices, self.options, list(pairs)))
        self._ways = list(reversed(list(_ways(self._steps))))

    def ways(self) -> Ways:
        """Paths in all: old only, new only, both."""
        return self._ways[0].get(self._begin, _NONE)

    def by_choice(self) -> dict[tuple[str, str], tuple[int, int]]:
        """(option, choice) → paths with it that only the old one has, and only the new; not for choices never met."""
        moved: dict[tuple[str, str], tuple[int, int]] = {}
        reached = {self._begin: 1}
        for option, steps, ahead in zip(self.options, self._steps, self._ways[1:], strict=True):
            below: dict[_Pair, int] = {}
            for pair, choice, to in _taken(steps):
                lost, gained = moved.get((option, choice), (0, 0))
                moved[option, choice] = lost + reached[pair] * ahead[to][0], gained + reached[pair] * ahead[to][1]
                below[to] = below.get(to, 0) + reached[pair]
            reached = below
        return moved

    def first(self, side: int, most: int) -> list[dict[str, str]]:
        """The first paths, by the options' order, that only the old one (`side` 0) or only the new one (1) has."""
        found: list[tuple[_Pair, dict[str, str]]] = [(self._begin, {})] if self.ways()[side] else []
        for option, steps, ahead in zip(self.options, self._steps, self._ways[1:], strict=True):
            on = ((to, {**made, option: c}) for pair, made in found for c, to in steps[pair].items() if ahead[to][side])
            found = [each for each, _ in zip(on, range(most), strict=False)]
        return [made for _, made in found]


#: Pair → choice → next pair.
_Steps = dict[_Pair, dict[str, _Pair]]
#: Node → choice → next node.
_Nodes = list[dict[str, int]]


def _by_node(diagram: Diagram, domains: Domains) -> Iterator[_Nodes]:
    return (_nodes(layer, domains[layer.option]) for layer in diagram.layers)


def _nodes(layer: Layer, choices: Sequence[str]) -> _Nodes:
    nodes: _Nodes = [{} for _ in range(layer.size)]
    for choice, edges in zip(choices, layer.edges, strict=True):
        for node, child, _ in edges:
            nodes[node][choice] = child
    return nodes


def _walk(
    begin: _Pair, choices: Domains, options: Sequence[str], pairs: Sequence[tuple[_Nodes, _Nodes]]
) -> Iterator[_Steps]:
    reached = {begin: None}
    for option, (old, new) in zip(options, pairs, strict=True):
        steps = {pair: _on(pair, choices[option], old, new) for pair in reached}
        reached = {to: None for on in steps.values() for to in on.values()}
        yield steps


def _on(pair: _Pair, choices: Sequence[str], old: _Nodes, new: _Nodes) -> dict[str, _Pair]:
    was, now = ({} if node is None else nodes[node] for node, nodes in zip(pair, (old, new), strict=True))
    return {choice: (was.get(choice), now.get(choice)) for choice in choices if choice in was or choice in now}


def _ways(steps: Sequence[_Steps]) -> Iterator[dict[_Pair, Ways]]:
    """From the end to the beginning."""
    ahead: dict[_Pair, Ways] = dict(_ENDS)
    yield ahead
    for level in reversed(steps):
        ahead = {pair: _sum([ahead[to] for to in on.values()]) for pair, on in level.items()}
        yield ahead


def _sum(ways: Sequence[Ways]) -> Ways:
    return sum(w[0] for w in ways), sum(w[1] for w in ways), sum(w[2] for w in ways)


def _taken(steps: _Steps) -> Iterator[tuple[_Pair, str, _Pair]]:
    return ((pair, choice, to) for pair, on in steps.items() for choice, to in on.items())

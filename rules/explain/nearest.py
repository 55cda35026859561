"""The lightest path through a diagram that keeps clear of some shells. What weighs what is no business of this module.

Exact: paths that have come to the same node, and stand alike towards what is barred, differ only in weight from there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from rules.engine.diagram import Diagram, Layer
from rules.engine.forest import FALSE, TRUE, Forest

#: How far a path has gone with one bar: nodes that are still to hold; None: it is clear of it.
_Held = tuple[int, ...] | None
_State = tuple[int, tuple[_Held, ...]]
#: The choices taken so far, last first.
_Trail = tuple[int, "_Trail"] | tuple[()]
_Reached = dict[_State, tuple[int, _Trail]]
#: Choice, next node, emission.
_Step = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Bar:
    """Bars shells that take, for every option in `within`, one of its choices (indexes), and where all `nodes` hold."""

    within: Mapping[str, frozenset[int]] = field(default_factory=dict)
    nodes: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Weights:
    """Whole numbers. `choices`: option → weight of each choice; `emissions`: weight of each emission of the diagram.

    No two shells may weigh the same: the choices have to tell them apart.
    """

    choices: Mapping[str, Sequence[int]]
    emissions: Sequence[int]


def as_written(domains: Mapping[str, tuple[str, ...]], diagram: Diagram) -> Weights:
    """Weights by which the shell that comes first in a list of all, in written order, is the lightest."""
    step, choices = 1, dict[str, list[int]]()
    for option in reversed(tuple(domains)):
        choices[option] = [k * step for k in range(len(domains[option]))]
        step *= len(domains[option])
    return Weights(choices, [0] * len(diagram.emissions))


class Paths:
    """One diagram, made ready. `forest`: of the bars' nodes, in the diagram's order; nothing is added to it here."""

    __slots__ = ("_alive", "_forest", "_layers", "_steps")

    def __init__(self, diagram: Diagram, forest: Forest) -> None:
        self._forest, self._layers, self._alive = forest, diagram.layers, diagram.alive
        self._steps = tuple(_by_node(layer) for layer in diagram.layers)

    def lightest(self, weights: Weights, fixed: Mapping[str, int], bars: Sequence[Bar] = ()) -> dict[str, int] | None:
        """option → choice index of the lightest shell that takes the `fixed` choices; None where all are barred."""
        reached: _Reached = {(0, tuple(_begun(bar) for bar in bars)): (0, ())} if self._alive else {}
        for level in range(len(self._layers)):
            reached = self._next(level, reached, weights, fixed, bars)
        end = reached.get((0, (None,) * len(bars)))
        return None if end is None else self._walked(end[1])

    def _next(
        self, level: int, reached: _Reached, weights: Weights, fixed: Mapping[str, int], bars: Sequence[Bar]
    ) -> _Reached:
        option, below = self._layers[level].option, _Reached()
        only, of, said = fixed.get(option), weights.choices[option], weights.emissions
        turns = {held: self._turns(level, bars, held) for _, held in reached}
        for (node, held), (weight, trail) in reached.items():
            left = turns[held]
            for choice, child, emission in self._steps[level][node]:
                if only is None or choice == only:
                    _keep(below, (child, left[choice]), weight + of[choice] + said[emission], choice, trail)
        return below

    def _turns(self, level: int, bars: Sequence[Bar], held: tuple[_Held, ...]) -> list[tuple[_Held, ...]]:
        """How each choice of the level leaves the bars."""
        if not any(self._asks(level, bar, each) for bar, each in zip(bars, held, strict=True)):
            return [held] * len(self._layers[level].edges)
        pairs, choices = list(zip(bars, held, strict=True)), range(len(self._layers[level].edges))
        return [tuple(self._hold(bar, each, level, choice) for bar, each in pairs) for choice in choices]

    def _asks(self, level: int, bar: Bar, held: _Held) -> bool:
        """Whether the level's option makes a difference to the bar."""
        if held is None:
            return False
        return self._layers[level].option in bar.within or any(self._forest.levels[n] == level for n in held)

    def _hold(self, bar: Bar, held: _Held, level: int, choice: int) -> _Held:
        if held is None or choice not in bar.within.get(self._layers[level].option, (choice,)):
            return None
        forest = self._forest
        left = tuple(forest.children[n][choice] if forest.levels[n] == level else n for n in held)
        return None if FALSE in left else tuple(n for n in left if n != TRUE)

    def _walked(self, trail: _Trail) -> dict[str, int]:
        taken: dict[str, int] = {}
        for layer in reversed(self._layers):
            assert trail
            taken[layer.option], trail = trail
        return taken


def _keep(below: _Reached, state: _State, weight: int, choice: int, trail: _Trail) -> None:
    known = below.get(state)
    if known is None or weight < known[0]:
        below[state] = (weight, (choice, trail))


def _begun(bar: Bar) -> _Held:
    return None if FALSE in bar.nodes else tuple(node for node in bar.nodes if node != TRUE)


def _by_node(layer: Layer) -> tuple[tuple[_Step, ...], ...]:
    steps: list[list[_Step]] = [[] for _ in range(layer.size)]
    for choice, edges in enumerate(layer.edges):
        for node, child, emission in edges:
            steps[node].append((choice, child, emission))
    return tuple(tuple(each) for each in steps)

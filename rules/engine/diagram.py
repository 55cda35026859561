"""The layered decision diagram: every buildable specification is a path through it, one layer for each option.

Compiling multiplies the small diagrams of the forest layer by layer, then merges equal nodes from below and drops dead
ones. No layer is skipped, so that counts and additive prices need no correction. What a line costs is unknown here: an
edge only names the terms that are settled on it, and they are part of what makes two edges equal.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rules.engine.forest import FALSE, TRUE, Forest, Term

#: From node, to node (of the next layer), index of the emission.
Edge = tuple[int, int, int]


class TooLarge(Exception):
    """The diagram of a rule book would be too large; the message says what to do."""

    def __init__(self, limit: int) -> None:
        super().__init__(
            f"The rule book needs more than {limit} states under every order tried. Give options that rules name"
            " together neighbouring places in the book, split its widest tables, or raise the limit."
        )
        self.limit = limit


@dataclass(frozen=True, slots=True)
class Layer:
    """One option. `size`: how many nodes; `edges`: for each choice, in written order, its edges to the next layer."""

    option: str
    size: int
    edges: tuple[tuple[Edge, ...], ...]


@dataclass(frozen=True, slots=True)
class Diagram:
    """`layers` in the compiled order; node 0 of the first is the root. `alive`: something can be built.

    `emissions[0]` is empty. `nodes` counts those that are left, `raw` those visited.
    """

    layers: tuple[Layer, ...]
    alive: bool
    emissions: tuple[tuple[Term, ...], ...]
    raw: int

    @property
    def nodes(self) -> int:
        return sum(layer.size for layer in self.layers)


#: For each choice of a state: None where it can't be, else (index of the next state, emission).
_Row = tuple[tuple[int, int] | None, ...]
_State = tuple[int, ...]
#: For each choice of a set of nodes of one level: None where it can't be, else (nodes left over, terms said).
_Moves = tuple[tuple[_State, tuple[Term, ...]] | None, ...]


def compile_diagram(forest: Forest, forbidden: Sequence[int], prices: Sequence[int], limit: int) -> Diagram:
    """The diagram of all specifications in which none of `forbidden` holds; TooLarge beyond `limit` raw states."""
    expansion = _Expansion(forest, forbidden, prices, limit)
    rows = expansion.run() if TRUE not in forbidden else [[] for _ in forest.order]
    return _reduce(forest, rows, tuple(expansion.emissions), expansion.raw)


class _Expansion:
    """The product, from the top. A state is the set of nodes that still have something to say."""

    def __init__(self, forest: Forest, forbidden: Sequence[int], prices: Sequence[int], limit: int) -> None:
        self.forest, self.limit, self.raw = forest, limit, 0
        self.emissions: dict[tuple[Term, ...], int] = {(): 0}
        roots = frozenset((*forbidden, *prices)) - {FALSE, TRUE}
        self.begun = [tuple(sorted(r for r in roots if forest.levels[r] == i)) for i in range(len(forest.order))]
        self.always = tuple(sorted(forest.terms[root] for root in roots if root in forest.terms))

    def run(self) -> list[list[_Row]]:
        """A row for each state of each layer."""
        layers: list[list[_Row]] = []
        states: dict[_State, int] = {(): 0}
        for level in range(len(self.forest.order)):
            states, rows = self._layer(level, states)
            layers.append(rows)
        return layers

    def _layer(self, level: int, states: dict[_State, int]) -> tuple[dict[_State, int], list[_Row]]:
        below: dict[_State, int] = {}
        known: dict[_State, _Moves] = {}
        rows = [self._row(level, state, below, known) for state in states]
        return below, rows

    def _row(self, level: int, state: _State, below: dict[_State, int], known: dict[_State, _Moves]) -> _Row:
        self._count()
        levels = self.forest.levels
        active = tuple(sorted({n for n in state if levels[n] == level}.union(self.begun[level])))
        waiting = tuple(n for n in state if levels[n] != level)
        if active not in known:
            known[active] = self._moves(level, active)
        return tuple(None if move is None else self._arrive(move, waiting, below) for move in known[active])

    def _count(self) -> None:
        self.raw += 1
        if self.raw > self.limit:
            raise TooLarge(self.limit)

    def _arrive(
        self, move: tuple[_State, tuple[Term, ...]], waiting: _State, below: dict[_State, int]
    ) -> tuple[int, int]:
        left, said = move
        state = tuple(sorted({*left, *waiting}))
        return below.setdefault(state, len(below)), self.emissions.setdefault(said, len(self.emissions))

    def _moves(self, level: int, active: _State) -> _Moves:
        return tuple(self._move(level, active, choice) for choice in range(self.forest.widths[level]))

    def _move(self, level: int, active: _State, choice: int) -> tuple[_State, tuple[Term, ...]] | None:
        reached = {self.forest.children[node][choice] for node in active} - {FALSE}
        if TRUE in reached:
            return None
        said = [self.forest.terms[node] for node in reached if node in self.forest.terms]
        left = tuple(sorted(node for node in reached if node not in self.forest.terms))
        return left, tuple(sorted((*said, *(self.always if level == 0 else ()))))


def _reduce(forest: Forest, rows: list[list[_Row]], emissions: tuple[tuple[Term, ...], ...], raw: int) -> Diagram:
    """Merge equal rows from the bottom; a row with no live edge is dead. Emissions are compared with the targets."""
    layers: list[Layer] = []
    alias: list[int | None] = [0]
    for level in reversed(range(len(rows))):
        alias, layer = _merge(forest.order[level], forest.widths[level], rows[level], alias)
        layers.append(layer)
    return Diagram(tuple(reversed(layers)), bool(alias) and alias[0] is not None, emissions, raw)


def _merge(option: str, width: int, rows: list[_Row], below: list[int | None]) -> tuple[list[int | None], Layer]:
    unique: dict[_Row, int] = {}
    alias: list[int | None] = []
    for row in rows:
        live = tuple(_live(edge, below) for edge in row)
        alias.append(unique.setdefault(live, len(unique)) if any(live) else None)
    edges = tuple(
        tuple((node, *edge) for row, node in unique.items() if (edge := row[choice]) is not None)
        for choice in range(width)
    )
    return alias, Layer(option, len(unique), edges)


def _live(edge: tuple[int, int] | None, below: list[int | None]) -> tuple[int, int] | None:
    if edge is None:
        return None
    target = below[edge[0]]
    return None if target is None else (target, edge[1])

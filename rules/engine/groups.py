"""Options that chains of rules join, each group with a SAT solver of its own: no minimal clash spans two groups."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from threading import Lock

from pysat.solvers import Solver

from rules.engine.certain import Certain
from rules.engine.clash import Clash
from rules.engine.clauses import Clauses
from rules.engine.forest import FALSE, TRUE, Forest
from rules.engine.layout import Layout, bits_of


class Group:
    """`options` and `rules` in order; `reach`: the fields of the options. Safe to ask from several threads."""

    __slots__ = (
        "_bits",
        "_clauses",
        "_forest",
        "_layout",
        "_literals",
        "_lock",
        "_named",
        "_nodes",
        "_variables",
        "_warm",
        "options",
        "reach",
        "rules",
    )

    def __init__(
        self, forest: Forest, bans: Sequence[tuple[str, int]], places: Mapping[str, int], layout: Layout
    ) -> None:
        named = frozenset[str]().union(*(forest.options_of(node) for _, node in bans))
        self.options = tuple(option for option in layout.options if option in named)
        self.rules = tuple(sorted({id_ for id_, _ in bans}, key=places.__getitem__))
        self.reach = layout.fields(self.options)
        self._forest, self._nodes = forest, [forest.fold((n for i, n in bans if i == id_), TRUE) for id_ in self.rules]
        writer = Clauses(forest, self.options, self.rules)
        self._layout, self._clauses, self._variables = layout, writer.write(bans), writer.columns
        pairs = [(o, layout.bits(o), self._variables[o]) for o in self.options]
        self._literals = {bit: literal for _, bits, column in pairs for bit, literal in zip(bits, column, strict=True)}
        self._named = {bit: (o, c) for o, bits, _ in pairs for bit, c in zip(bits, layout.domains[o], strict=True)}
        self._bits = {literal: bit for bit, literal in self._literals.items()}
        self._lock = Lock()
        self._warm: Solver | None = None

    def breaches(self) -> list[Certain]:
        """For each rule, in order, when it is broken by itself."""
        return [Certain(node, self._forest, self._layout) for node in self._nodes]

    def switches(self) -> list[int]:
        """A literal for each rule, in order."""
        return list(range(1, len(self.rules) + 1))

    def answers(self, made: int) -> dict[int, tuple[str, str]]:
        """Literals of the choices of a set of choices that stand alone → (option, choice); only of this group."""
        return {self._literals[bit]: self._named[bit] for bit in bits_of(made & self.reach)}

    def literals(self, made: int) -> list[int]:
        """Those of `answers` alone."""
        return [self._literals[bit] for bit in bits_of(made & self.reach)]

    def places(self) -> dict[str, list[int]]:
        """For each option a literal for each of its choices, in written order."""
        return self._variables

    def hard(self) -> Solver:
        """A new solver in which every rule holds."""
        return Solver(name="glucose4", bootstrap_with=[*self._clauses, *([switch] for switch in self.switches())])

    def clashes(self, fixed: Sequence[int], things: Sequence[int], least: int = 1) -> tuple[list[list[int]], bool]:
        """Minimal clashing sets of things, as places from 0, smallest first; and whether there are more.

        `least`: no fewer than so many ever clash.
        """
        with self._lock:
            if self._warm is None:
                self._warm = self._solver()
            found, more = Clash(self._warm, fixed, things, least).all_minimal()
        if more:  # a warm solver's past would decide which ones: ask one without a past
            with self._solver() as fresh:
                found, more = Clash(fresh, fixed, things, least).all_minimal()
        return [places for _, places in sorted((len(f), sorted(place - 1 for place in f)) for f in found)], more

    def clash(self, literals: Sequence[int]) -> bool:
        """Whether these can't hold together."""
        with self._lock:
            if self._warm is None:
                self._warm = self._solver()
            return not self._warm.solve(assumptions=list(literals))

    def completed(self, made: int) -> int:
        """Choices of all options that can be built together, these among them; 0 where there are none."""
        with self._lock:
            if self._warm is None:
                self._warm = self._solver()
            can = self._warm.solve(assumptions=[*self.switches(), *self.literals(made)])
            return sum([self._bits.get(literal, 0) for literal in self._warm.get_model()]) if can else 0

    def _solver(self) -> Solver:
        return Solver(name="glucose4", bootstrap_with=self._clauses)


def grouped(forest: Forest, bans: Sequence[tuple[str, int]], layout: Layout) -> tuple[Group, ...]:
    """The bans (id, node) in groups that share no option; one id's bans stay together."""
    places = {id_: i for i, id_ in enumerate(dict.fromkeys(id_ for id_, _ in bans))}
    return tuple(Group(forest, part, places, layout) for part in _joined(forest, bans))


def _joined(forest: Forest, bans: Sequence[tuple[str, int]]) -> list[list[tuple[str, int]]]:
    """A ban that never holds is left out."""
    groups: list[tuple[frozenset[str], list[tuple[str, int]]]] = []
    for id_, node in bans:
        if node == FALSE:
            continue
        names = forest.options_of(node) | {f"rule {id_}"}
        near = [group for group in groups if group[0] & names]
        merged = (names.union(*(g[0] for g in near)), [ban for g in near for ban in g[1]] + [(id_, node)])
        groups = [group for group in groups if group not in near] + [merged]
    return [part for _, part in groups]

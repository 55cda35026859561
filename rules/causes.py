"""Why not: every minimal set of rules that can't hold together with the choices made.

The choices and "exactly one of each option" stand; the rules are what is doubted. A SAT solver says which rules clash;
minimal sets are enumerated as Liffiton, Previti, Malik, Marques-Silva, "Fast, flexible MUS enumeration", Constraints
2016, describe it. Options that no chain of rules joins are asked about apart: no minimal set spans them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from threading import Lock

from pysat.solvers import Solver

from rules.answer import Cause
from rules.forest import FALSE, TRUE, Forest
from rules.layout import Layout

#: Causes listed at most, and questions put to the solver for one list at most.
CAP = 20
PATIENCE = 2_000
#: Lists remembered for one group of options.
REMEMBERED = 5_000
#: Rules with more paths than this are written node by node.
PATHS = 64

#: Causes, and whether there are more.
Found = tuple[tuple[Cause, ...], bool]
NOTHING: Found = ((), False)


class Causes:
    """All groups of options that rules join. Safe to ask from several threads."""

    __slots__ = ("_groups", "_places")

    def __init__(self, forest: Forest, bans: Sequence[tuple[str, int]], layout: Layout) -> None:
        self._places = {id_: i for i, id_ in enumerate(dict.fromkeys(id_ for id_, _ in bans))}
        self._groups = tuple(_Group(forest, part, self._places, layout) for part in _joined(forest, bans))

    def of(self, made: int) -> Found:
        """Every minimal set of rules that a set of choices contradicts; fewest rules first, then the book's order."""
        found = [some for group in self._groups if (some := group.of(made)) is not NOTHING]
        if len(found) < 2:
            return found[0] if found else NOTHING
        causes = sorted((cause for causes, _ in found for cause in causes), key=self._rank)
        return tuple(causes[:CAP]), len(causes) > CAP or any(more for _, more in found)

    def _rank(self, cause: Cause) -> tuple[int, list[int]]:
        return len(cause), [self._places[id_] for id_ in cause]


class _Group:
    """Options joined by rules, with a warm solver of their own."""

    __slots__ = ("_clauses", "_known", "_layout", "_lock", "_options", "_reach", "_rules", "_variables", "_warm")

    def __init__(
        self, forest: Forest, bans: Sequence[tuple[str, int]], places: Mapping[str, int], layout: Layout
    ) -> None:
        self._layout = layout
        self._options = tuple(sorted(frozenset().union(*(forest.options_of(node) for _, node in bans))))
        self._reach = layout.fields(self._options)
        self._rules = tuple(sorted({id_ for id_, _ in bans}, key=places.__getitem__))
        writer = _Writer(forest, self._options, self._rules)
        self._clauses, self._variables = writer.write(bans), writer.columns
        self._known: dict[int, Found] = {}
        self._lock = Lock()
        self._warm: Solver | None = None

    def of(self, made: int) -> Found:
        """The causes among the rules of this group, in order; NOTHING itself where there are none."""
        seen = made & self._reach
        known = self._known.get(seen)
        if known is None:
            known = self._find([x for option in self._options for x in self._answer(seen, option)])
            if len(self._known) >= REMEMBERED:
                self._known.clear()
            self._known[seen] = known
        return known

    def _answer(self, made: int, option: str) -> list[int]:
        index = self._layout.choice(made, option)
        return [] if index is None else [self._variables[option][index]]

    def _find(self, answers: list[int]) -> Found:
        with self._lock:
            if self._warm is None:
                self._warm = self._solver()
            found, more = _Doubt(self._warm, answers, len(self._rules)).all_minimal()
        if more:  # a warm solver's past would decide which ones: ask one without a past
            with self._solver() as fresh:
                found, more = _Doubt(fresh, answers, len(self._rules)).all_minimal()
        least_first = sorted((len(cause), sorted(cause)) for cause in found)
        return (tuple(tuple(self._rules[r - 1] for r in cause) for _, cause in least_first), more) if found else NOTHING

    def _solver(self) -> Solver:
        return Solver(name="glucose4", bootstrap_with=self._clauses)


class _Writer:
    """Small diagrams as clauses. Variables 1 … len(rules) are the rules' selectors, then a variable for each choice."""

    def __init__(self, forest: Forest, options: Sequence[str], rules: Sequence[str]) -> None:
        self.forest = forest
        self.selectors = {id_: i for i, id_ in enumerate(rules, 1)}
        self.last = len(rules)
        self.columns = {o: [self._fresh() for _ in range(forest.widths[forest.order.index(o)])] for o in options}
        self.nodes: dict[int, int] = {}

    def write(self, bans: Iterable[tuple[str, int]]) -> list[list[int]]:
        clauses = [clause for column in self.columns.values() for clause in _exactly_one(column)]
        for id_, node in bans:
            clauses += self._ban(self.selectors[id_], node)
        return clauses

    def _fresh(self) -> int:
        self.last += 1
        return self.last

    def _ban(self, selector: int, node: int) -> list[list[int]]:
        if self._paths(node) <= PATHS:
            return [[-selector, *outs] for outs in self._ways(node)]
        return [[-selector, self._reached(node)], *self._flow(node)]

    def _paths(self, node: int) -> int:
        ways = {FALSE: 0, TRUE: 1}
        for found in sorted(self.forest.under(node), key=self.forest.levels.__getitem__, reverse=True):
            if found not in ways:
                ways[found] = sum(ways[child] for child in dict.fromkeys(self.forest.children[found]))
        return ways[node]

    def _ways(self, node: int) -> list[list[int]]:
        """For each path to TRUE, the choices of which one must be taken to leave it."""
        if node <= TRUE:
            return [[]] if node == TRUE else []
        return [[*outs, *rest] for child, outs in self._branches(node) for rest in self._ways(child)]

    def _branches(self, node: int) -> list[tuple[int, list[int]]]:
        """Each child with the choices that lead elsewhere."""
        children = self.forest.children[node]
        column = self.columns[self.forest.order[self.forest.levels[node]]]
        return [
            (child, [x for x, to in zip(column, children, strict=True) if to != child])
            for child in dict.fromkeys(children)
        ]

    def _flow(self, node: int) -> list[list[int]]:
        """Who stands on a node goes on to the child that the choice leads to, and never to TRUE."""
        inner = [found for found in self.forest.under(node) if found > TRUE]
        steps = [(found, *branch) for found in inner for branch in self._branches(found) if branch[0] != FALSE]
        return [
            [-self._reached(n), *outs, *([] if child == TRUE else [self._reached(child)])] for n, child, outs in steps
        ]

    def _reached(self, node: int) -> int:
        if node not in self.nodes:
            self.nodes[node] = self._fresh()
        return self.nodes[node]


class _Doubt:
    """Minimal clashing sets of selectors 1 … count under fixed answers."""

    def __init__(self, solver: Solver, answers: list[int], count: int) -> None:
        self.solver, self.answers, self.count, self.asked = solver, answers, count, 0

    def all_minimal(self) -> tuple[list[frozenset[int]], bool]:
        """All minimal sets, and whether the search was cut short."""
        rules = list(range(1, self.count + 1))
        found: list[frozenset[int]] = []
        while (core := self.clash(rules)) is not None:
            least = self.shrink(core)
            found.append(least)
            if len(least) > 1:
                return self._explore(rules, found) if self._several(rules, least) else (found, False)
            rules = [rule for rule in rules if rule not in least]
        return found, False

    def clash(self, rules: Sequence[int]) -> list[int] | None:
        """Some of the rules that clash with each other and the answers, in order; None where all can hold."""
        self.asked += 1
        if self.solver.solve(assumptions=[*self.answers, *rules]):
            return None
        return sorted(literal for literal in self.solver.get_core() or () if literal <= self.count)

    def shrink(self, core: list[int]) -> frozenset[int]:
        """A minimal clashing set within one that clashes; later rules are dropped first."""
        needed: list[int] = []
        while core:
            smaller = self.clash([*needed, *core[:-1]])
            if smaller is None:
                needed.append(core[-1])
                core = core[:-1]
            else:
                core = [rule for rule in smaller if rule not in needed]
        return frozenset(needed)

    def _several(self, rules: list[int], least: frozenset[int]) -> bool:
        """Another minimal set would lack one rule of this one."""
        return any(self.clash([r for r in rules if r != dropped]) is not None for dropped in sorted(least))

    def _explore(self, rules: list[int], found: list[frozenset[int]]) -> tuple[list[frozenset[int]], bool]:
        blocked = [[-rule for rule in sorted(least)] for least in found]
        with Solver(name="glucose4", bootstrap_with=[[r, -r] for r in rules] + blocked) as unexplored:
            unexplored.set_phases(rules)
            while unexplored.solve():
                if len(found) >= CAP or self.asked > PATIENCE:
                    return found, True
                wanted = frozenset(unexplored.get_model() or ())
                unexplored.add_clause(self._learn(rules, [r for r in rules if r in wanted], found))
        return found, False

    def _learn(self, rules: list[int], seed: list[int], found: list[frozenset[int]]) -> list[int]:
        """What the seed teaches: a minimal set (and never all of it again), or a maximal one (and always one more)."""
        core = self.clash(seed)
        if core is not None:
            found.append(self.shrink(core))
            return [-rule for rule in sorted(found[-1])]
        most = set(self.extend(rules, seed))
        return [rule for rule in rules if rule not in most]

    def extend(self, rules: list[int], seed: list[int]) -> list[int]:
        """A set that can hold, enlarged until nothing can be added."""
        for rule in rules:
            if rule not in seed and self.clash([*seed, rule]) is None:
                seed = [*seed, rule]
        return seed


def _exactly_one(column: list[int]) -> list[list[int]]:
    pairs = [[-x, -y] for i, x in enumerate(column) for y in column[i + 1 :]]
    return [column, *pairs]


def _joined(forest: Forest, bans: Sequence[tuple[str, int]]) -> list[list[tuple[str, int]]]:
    """The bans in groups that share options; one id's bans stay together. A ban that never holds is left out."""
    groups: list[tuple[frozenset[str], list[tuple[str, int]]]] = []
    for id_, node in bans:
        if node == FALSE:
            continue
        names = forest.options_of(node) | {f"rule {id_}"}
        near = [group for group in groups if group[0] & names]
        merged = (names.union(*(g[0] for g in near)), [ban for g in near for ban in g[1]] + [(id_, node)])
        groups = [group for group in groups if group not in near] + [merged]
    return [part for _, part in groups]

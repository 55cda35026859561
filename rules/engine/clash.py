"""Which of many things can't hold together: every minimal set of them, asked of a SAT solver.

Enumerated as Liffiton, Previti, Malik, Marques-Silva, "Fast, flexible MUS enumeration", Constraints 2016, describe it.
Nothing is known here of rules and answers: things are literals, in the order in which they had better be kept.
"""

from __future__ import annotations

from collections.abc import Sequence

from pysat.solvers import Solver

#: Minimal sets listed at most, and questions put to the solver for one list at most.
CAP = 20
PATIENCE = 2_000


class Clash:
    """Minimal clashing sets of `things` while `fixed` stands; sets are of places in `things`, counted from 1."""

    def __init__(self, solver: Solver, fixed: Sequence[int], things: Sequence[int]) -> None:
        self.solver, self.fixed, self.asked = solver, list(fixed), 0
        self.literals = dict(enumerate(things, 1))
        self.places = {literal: place for place, literal in self.literals.items()}

    def all_minimal(self) -> tuple[list[frozenset[int]], bool]:
        """All minimal sets, and whether the search was cut short."""
        left = list(self.literals)
        found: list[frozenset[int]] = []
        while (core := self.clash(left)) is not None:
            least = self.shrink(core)
            found.append(least)
            if len(least) != 1:
                return self._explore(left, found) if self._several(left, least) else (found, False)
            left = [place for place in left if place not in least]
        return found, False

    def clash(self, places: Sequence[int]) -> list[int] | None:
        """Some of the things that clash with each other and what is fixed, in order; None where all can hold."""
        self.asked += 1
        if self.solver.solve(assumptions=[*self.fixed, *(self.literals[place] for place in places)]):
            return None
        return sorted(self.places[literal] for literal in self.solver.get_core() or () if literal in self.places)

    def shrink(self, core: list[int]) -> frozenset[int]:
        """A minimal clashing set within one that clashes; what comes last is dropped first."""
        needed: list[int] = []
        while core:
            smaller = self.clash([*needed, *core[:-1]])
            if smaller is None:
                needed.append(core[-1])
                core = core[:-1]
            else:
                core = [place for place in smaller if place not in needed]
        return frozenset(needed)

    def _several(self, left: list[int], least: frozenset[int]) -> bool:
        """Another minimal set would lack something of this one."""
        return any(self.clash([p for p in left if p != dropped]) is not None for dropped in sorted(least))

    def _explore(self, left: list[int], found: list[frozenset[int]]) -> tuple[list[frozenset[int]], bool]:
        blocked = [[-place for place in sorted(least)] for least in found]
        with Solver(name="glucose4", bootstrap_with=[[p, -p] for p in left] + blocked) as unexplored:
            unexplored.set_phases(left)
            while unexplored.solve():
                if len(found) >= CAP or self.asked > PATIENCE:
                    return found, True
                wanted = frozenset(unexplored.get_model() or ())
                unexplored.add_clause(self._learn(left, [p for p in left if p in wanted], found))
        return found, False

    def _learn(self, left: list[int], seed: list[int], found: list[frozenset[int]]) -> list[int]:
        """What the seed teaches: a minimal set (and never all of it again), or a maximal one (and always one more)."""
        core = self.clash(seed)
        if core is not None:
            found.append(self.shrink(core))
            return [-place for place in sorted(found[-1])]
        most = set(self._extend(left, seed))
        return [place for place in left if place not in most]

    def _extend(self, left: list[int], seed: list[int]) -> list[int]:
        """A set that can hold, enlarged until nothing can be added."""
        for place in left:
            if place not in seed and self.clash([*seed, place]) is None:
                seed = [*seed, place]
        return seed

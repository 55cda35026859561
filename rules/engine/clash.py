"""Which of many things can't hold together: every minimal set of them, asked of a SAT solver.

A few are found by leaving out the things of one set after the other (Reiter, "A theory of diagnosis from first
principles", Artificial Intelligence 1987); many are enumerated as Liffiton, Previti, Malik, Marques-Silva, "Fast,
flexible MUS enumeration", Constraints 2016, describe it. Nothing is known here of rules and answers: things are
literals, in the order in which they had better be kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from pysat.solvers import Solver

#: Minimal sets listed at most, and questions put to the solver for one list at most.
CAP = 20
PATIENCE = 2_000
#: Ways of leaving something out that are tried before a list is taken to be a long one.
FEW = 12


class Clash:
    """Minimal clashing sets of `things` while `fixed` stands; sets are of places in `things`, counted from 1.

    `least`: fewer things than so many never clash.
    """

    def __init__(self, solver: Solver, fixed: Sequence[int], things: Sequence[int], least: int = 1) -> None:
        self.solver, self.fixed, self.things, self.least, self.asked = solver, fixed, things, least, 0

    def all_minimal(self) -> tuple[list[frozenset[int]], bool]:
        """All minimal sets, and whether the search was cut short."""
        found: list[frozenset[int]] = []
        return (found, False) if self._few(found) else self._explore(found)

    def clash(self, places: Sequence[int]) -> list[int] | None:
        """Some of the things that clash with each other and what is fixed, in order; None where all can hold."""
        self.asked += 1
        things = self.things
        if self.solver.solve(assumptions=[*self.fixed, *[things[place - 1] for place in places]]):
            return None
        known = self._places
        return sorted([known[literal] for literal in self.solver.get_core() or () if literal in known])

    @property
    def _all(self) -> range:
        return range(1, len(self.things) + 1)

    @cached_property
    def _places(self) -> dict[int, int]:
        return {literal: place for place, literal in enumerate(self.things, 1)}

    def shrink(self, core: list[int]) -> frozenset[int]:
        """A minimal clashing set within one that clashes; what comes last is dropped first."""
        needed: list[int] = []
        while core and len(needed) + len(core) > self.least:
            smaller = self.clash([*needed, *core[:-1]])
            if smaller is None:
                needed.append(core[-1])
                core = core[:-1]
            else:
                core = [place for place in smaller if place not in needed]
        return frozenset([*needed, *core])

    def _few(self, found: list[frozenset[int]]) -> bool:
        """Adds what is found; whether that is all, for each that is not yet found lacks something of each that is."""
        fitting, waiting = list[frozenset[int]](), [frozenset[int]()]
        for dropped in waiting:
            if len(waiting) > FEW:
                return False
            if any(fit <= dropped for fit in fitting):
                continue
            least = self._without(dropped, found)
            if least is None:
                fitting.append(dropped)
            else:
                waiting += [more for place in sorted(least) if (more := dropped | {place}) not in waiting]
        return True

    def _without(self, dropped: frozenset[int], found: list[frozenset[int]]) -> frozenset[int] | None:
        """A minimal set with nothing in it that is dropped, added to `found` if it is new; None where there is none."""
        known = next((least for least in found if not least & dropped), None)
        if known is None and (core := self.clash([p for p in self._all if p not in dropped])) is not None:
            known = self.shrink(core)
            found.append(known)
        return known

    def _explore(self, found: list[frozenset[int]]) -> tuple[list[frozenset[int]], bool]:
        left = list(self._all)
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

"""How the choices of one group of options stand, asked of a SAT solver: where a diagram would be too large.

One model proves many choices at once: those it takes are never asked about again, and the solver is told to try what is
not proven yet (the idea is that of backbone algorithms: Janota, Lynce, Marques-Silva, AI Communications 2015). Sets of
choices are whole numbers (`rules.engine.layout`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from threading import Lock

from pysat.solvers import Solver

from rules.engine.groups import Group
from rules.engine.layout import Layout, bits_of
from rules.engine.memory import Memory

#: Results remembered for one group.
REMEMBERED = 500


@dataclass(frozen=True, slots=True)
class Stand:
    """`can`: the answers hold together. `whole`: every choice that their completions take.

    `beside`: for each choice (as a set of one) that can be taken, all other answers kept, some of the choices that are
    taken beside it, at least one of each option; `Possible.beside` tells all.
    """

    can: bool
    whole: int
    beside: Mapping[int, int]


class Possible:
    """One group. Threads may share it: what it remembers between questions only saves time."""

    __slots__ = ("_columns", "_known", "_layout", "_lock", "_solver", "_told", "group")

    def __init__(self, group: Group, layout: Layout) -> None:
        self.group, self._layout = group, layout
        self._columns = {
            option: tuple(zip(layout.bits(option), literals, strict=True))
            for option, literals in group.places().items()
        }
        self._known = Memory[int, Stand](REMEMBERED)
        self._told = Memory[tuple[int, int], int](REMEMBERED * len(self._columns))
        self._lock = Lock()
        self._solver: Solver | None = None

    def of(self, made: int) -> Stand:
        """How the choices stand under a set of answers, of which only this group's play a part."""
        seen = made & self.group.reach
        known = self._known.get(seen)
        if known is None:
            with self._lock:
                known = self._search(seen, {}).run()
            self._known.keep(seen, known)
        return known

    def beside(self, made: int, bit: int, told: Sequence[str], enough: Callable[[int], bool]) -> int:
        """What is taken beside a choice that can be taken: all of it among the options `told`, or what is `enough`."""
        seen = made & self.group.reach
        known = self._told.get((seen, bit))
        if known is None:
            stand = self.of(made)
            with self._lock:
                known = self._search(seen, {bit: stand.beside[bit]}).tell(bit, told, enough)
            self._told.keep((seen, bit), known)
        return known

    def _search(self, made: int, beside: dict[int, int]) -> _Search:
        if self._solver is None:
            self._solver = self.group.hard()
        return _Search(self._solver, self._columns, self._layout, made, beside)


#: For each option its choices: the set of one, and the literal.
_Columns = Mapping[str, Sequence[tuple[int, int]]]


class _Search:
    """One set of answers."""

    def __init__(self, solver: Solver, columns: _Columns, layout: Layout, made: int, beside: dict[int, int]) -> None:
        self.solver, self.columns, self.layout, self.made = solver, columns, layout, made
        self.answered = {o: pair for o, column in columns.items() for pair in column if pair[0] & made}
        self.literals = {bit: literal for column in columns.values() for bit, literal in column}
        self.bits = {literal: bit for bit, literal in self.literals.items()}
        self.beside = beside
        self.fields = layout.fields(self.answered)

    def run(self) -> Stand:
        can = self._take([literal for _, literal in self.answered.values()]) is not None
        if can:
            self._prove_open()
        for option in self.answered:
            self._prove_switches(option)
        whole = self._whole() if can else 0
        self.beside.update({bit: whole for bit, _ in self.answered.values() if can})
        return Stand(can, whole, self.beside)

    def _choices(self) -> Iterator[tuple[int, str]]:
        return ((bit, option) for option, column in self.columns.items() for bit, _ in column)

    def _take(self, assumed: Sequence[int]) -> int | None:
        """The choices of one model; proven for all that it takes beside the answers."""
        if not self.solver.solve(assumptions=assumed):
            return None
        bits = self.bits
        taken = sum([bits[literal] for literal in self.solver.get_model() if literal in bits])
        if self.made & ~taken:
            self._prove(taken & ~self.made & self.fields, taken)
        else:
            for bit in bits_of(taken):
                self._prove(bit, taken)
        return taken

    def _prove(self, bit: int, taken: int) -> None:
        self.beside[bit] = self.beside.get(bit, 0) | taken

    def _prove_open(self) -> None:
        asked = [pair for option, column in self.columns.items() if option not in self.answered for pair in column]
        self.solver.set_phases([literal for bit, literal in asked if bit not in self.beside])
        answers = [literal for _, literal in self.answered.values()]
        for bit, literal in asked:
            if bit not in self.beside:
                self._take([*answers, literal])

    def _prove_switches(self, option: str) -> None:
        others = self._others(option)
        for bit, literal in self.columns[option]:
            if not bit & self.made:
                self._take([*others, literal])

    def _others(self, option: str) -> list[int]:
        """The answers but the option's own."""
        return [literal for other, (_, literal) in self.answered.items() if other != option]

    def _whole(self) -> int:
        """An open option may take what is proven; an answered one its answer."""
        open_ = [bit for bit, option in self._choices() if option not in self.answered and bit in self.beside]
        return self.made | sum(open_)

    def tell(self, bit: int, told: Sequence[str], enough: Callable[[int], bool]) -> int:
        """All that is taken beside a choice among some options; the solver tries first what wasn't met yet."""
        option = next(option for option, column in self.columns.items() if any(bit == own for own, _ in column))
        asked = [o for o in told if o in self.columns and o not in self.answered and o != option]
        met = [self.beside[bit] & self.layout.field(other) for other in asked]
        self.solver.set_phases([-self.literals[left] for left in met if left & left - 1 == 0])
        for other in asked:
            if self._tell_one(bit, option, other) and enough(self.beside[bit]):
                break
        return self.beside[bit]

    def _tell_one(self, bit: int, option: str, other: str) -> bool:
        """Looks for a second choice of the other option beside this one; whether there was one to be found."""
        left = self.beside[bit] & self.layout.field(other)
        if left & left - 1:
            return False
        return self._take([*self._others(option), self.literals[bit], -self.literals[left]]) is not None

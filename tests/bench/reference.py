"""The yardstick: python-sat doing the engine's work, warm, under the encoding of tests/rules/by_sat.py."""

from __future__ import annotations

from collections.abc import Mapping

from pysat.examples.musx import MUSX
from pysat.examples.optux import OptUx
from pysat.examples.rc2 import RC2
from pysat.formula import WCNF
from pysat.solvers import Solver

from rules.condition import All, Not
from rules.model import Book, Kind, ToolCondition
from rules.money.price import Tariff
from rules.specification import Donor
from tests.rules.by_sat import BySat

Made = Mapping[str, str]


class Yardstick:
    """One book, tool state, donor and tariff. Encoded once; what is asked comes as assumptions or unit clauses."""

    def __init__(self, book: Book, states: Mapping[str, ToolCondition], donor: Donor, tariff: Tariff | None) -> None:
        self.whole = BySat(book, states, donor)
        self.outright = BySat(book, states, donor, outright=True)
        self.solver = Solver(name="glucose4", bootstrap_with=self.whole.clauses)
        self.gated = Solver(name="glucose4", bootstrap_with=self.outright.clauses)
        self.priced = None if tariff is None else (_weighed(self.whole, tariff), _weighed(self.outright, tariff))
        self.rules = _by_rule(book, states, self.whole)

    def can(self, made: Made) -> bool:
        return self.whole.can(self.solver, made)

    def choices(self, made: Made) -> dict[tuple[str, str], bool]:
        """Every choice of every option: whether it can be, all other answers kept."""
        return {at: self.can({**made, at[0]: at[1]}) for at in self.whole.variables}

    def full(self, made: Made) -> dict[tuple[str, str], int | None]:
        """The same with the least price from each that can be: outright where that can be, else of all."""
        return {at: self.price({**made, at[0]: at[1]}) for at, can in self.choices(made).items() if can}

    def price(self, made: Made) -> int | None:
        assert self.priced is not None
        outright = self.outright.can(self.gated, made)
        formula, base = self.priced[1 if outright else 0]
        asked = _copied(formula)
        asked.extend([[x] for x in self.whole.assumed(made)])
        with RC2(asked) as solver:
            return None if solver.compute() is None else base + solver.cost

    def one_reason(self, made: Made, wish: tuple[str, str]) -> frozenset[object]:
        """One smallest set of answers and rules, by deletion."""
        formula, names = self._doubted(made, wish)
        with MUSX(formula, verbosity=0) as finder:
            return frozenset(names[place - 1] for place in finder.compute())

    def all_reasons(self, made: Made, wish: tuple[str, str], most: int) -> set[frozenset[object]]:
        """Smallest sets, the smallest first, by implicit hitting sets."""
        formula, names = self._doubted(made, wish)
        return _smallest(formula, names, most)

    def causes(self, made: Made, most: int) -> set[frozenset[object]]:
        """Smallest sets of rules against the choices made."""
        formula, names = self._doubted({}, None)
        formula.extend([[x] for x in self.whole.assumed(made)])
        return _smallest(formula, names, most)

    def nearest(self, made: Made, wish: tuple[str, str], most: int) -> list[tuple[dict[str, str], frozenset[str]]]:
        """Shells with the wish and what they change of the answers: fewest, then cheapest, none containing another."""
        assert self.priced is not None
        formula = _copied(self.priced[0][0])
        formula.extend([[self.whole.variables[wish]]])
        others = {o: c for o, c in made.items() if o != wish[0]}
        huge = sum(formula.wght) + 1
        for at in others.items():
            formula.append([self.whole.variables[at]], weight=huge)
        found: list[tuple[dict[str, str], frozenset[str]]] = []
        with RC2(formula) as solver:
            while len(found) < most and (model := solver.compute()) is not None:
                taken = frozenset(model)
                changed = [at for at in others.items() if self.whole.variables[at] not in taken]
                shell = {option: choice for (option, choice), x in self.whole.variables.items() if x in taken}
                found.append((shell, frozenset(option for option, _ in changed)))
                solver.add_clause([self.whole.variables[at] for at in changed])
        return found

    def _doubted(self, made: Made, wish: tuple[str, str] | None) -> tuple[WCNF, list[object]]:
        """Hard: exactly one choice each, and the wish. Soft: a switch for each rule, and each answer."""
        formula = WCNF()
        formula.extend([*self.whole._exactly_one(), *([self.whole.variables[at]] for at in (wish,) if at)])
        names: list[object] = []
        for number, (id_, clauses) in enumerate(self.rules.items(), len(self.whole.variables) + 1):
            formula.extend([[-number, *clause] for clause in clauses])
            formula.append([number], weight=1)
            names.append(id_)
        for at in made.items():
            if wish is None or at[0] != wish[0]:
                formula.append([self.whole.variables[at]], weight=1)
                names.append(at)
        return formula, names


def _smallest(formula: WCNF, names: list[object], most: int) -> set[frozenset[object]]:
    found = set[frozenset[object]]()
    with OptUx(formula, unsorted=True) as finder:
        for places in finder.enumerate():
            found.add(frozenset(names[place - 1] for place in places))
            if len(found) > most:
                break
    return found


def _copied(formula: WCNF) -> WCNF:
    copied = WCNF()
    copied.hard, copied.soft, copied.wght = list(formula.hard), list(formula.soft), list(formula.wght)
    copied.nv, copied.topw = formula.nv, formula.topw
    return copied


def _weighed(sat: BySat, tariff: Tariff) -> tuple[WCNF, int]:
    formula = WCNF()
    formula.extend(sat.clauses)
    sat._top, base = len(sat.variables), 0
    for clauses, net in sat._charged(tariff):
        base += sat._weigh(formula, clauses, net)
    return formula, base


def _by_rule(book: Book, states: Mapping[str, ToolCondition], sat: BySat) -> dict[str, list[list[int]]]:
    rules: dict[str, list[list[int]]] = {}
    for rule in book.rules:
        if Kind.NEVER in rule.kinds:
            rules.setdefault(rule.id, []).extend(sat.forbidding(rule.when))
        if Kind.NEEDS in rule.kinds and rule.needs is not None:
            rules.setdefault(rule.id, []).extend(sat.forbidding(All((rule.when, Not(rule.needs)))))
    for tool in book.tools:
        if states.get(tool.id) is ToolCondition.LOST and not tool.speaks_as and not tool.stands_in:
            rules[tool.id] = list(sat.forbidding(tool.needed_for))
    return rules

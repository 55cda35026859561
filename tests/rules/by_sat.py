"""A second opinion by python-sat (https://pysathq.github.io), with an encoding of its own, no diagram anywhere.

Every condition is spelled out over the options that it names: one clause forbids one combination. Models are listed
with blocking clauses; the cheapest comes from weighted MaxSAT (RC2; its stratified cousin loses solutions once clauses
are added). A line that isn't priced is a hard "not this", so that no large number ever stands for "can't".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from threading import Timer

from pysat.examples.rc2 import RC2
from pysat.formula import WCNF
from pysat.solvers import Solver

from rules.condition import All, Among, Any, Condition, Is, IsUsual, Not, SeriesAsDonor
from rules.model import Book, Kind, Role, ToolCondition
from rules.money.price import Tariff, line_net
from rules.specification import Donor
from tests.rules.listed import Listed


class BySat:
    """One book, tool state and donor. `outright`: parts and approvals are forbidden too."""

    def __init__(self, book: Book, states: Mapping[str, ToolCondition], donor: Donor, outright: bool = False) -> None:
        self.book = book
        self.reader = Listed(book, states, donor, Tariff(""))  # only reads conditions: nothing is listed
        self.domains = self.reader.domains
        pairs = [(option, choice) for option, choices in self.domains.items() for choice in choices]
        self.variables = {pair: i for i, pair in enumerate(pairs, 1)}
        self.clauses = [*self._exactly_one(), *self._bans(states)]
        if outright:
            self.clauses += self._gates()

    def _exactly_one(self) -> Iterator[list[int]]:
        for option, choices in self.domains.items():
            column = [self.variables[option, choice] for choice in choices]
            yield column
            yield from ([-x, -y] for x in column for y in column if x < y)

    def _bans(self, states: Mapping[str, ToolCondition]) -> Iterator[list[int]]:
        for rule in self.book.rules:
            if Kind.NEVER in rule.kinds:
                yield from self.forbidding(rule.when)
            if Kind.NEEDS in rule.kinds and rule.needs is not None:
                yield from self.forbidding(All((rule.when, Not(rule.needs))))
        for tool in self.book.tools:
            if states.get(tool.id) is ToolCondition.LOST and not tool.speaks_as and not tool.stands_in:
                yield from self.forbidding(tool.needed_for)

    def _gates(self) -> Iterator[list[int]]:
        for rule in self.book.rules:
            if rule.kinds & {Kind.PART, Kind.APPROVAL}:
                yield from self.forbidding(rule.when)

    def forbidding(self, condition: Condition) -> Iterator[list[int]]:
        """A clause against every combination, of the options named, in which the condition holds."""
        for made in self.combinations(condition):
            if self.reader.says(condition, made):
                yield [-self.variables[answer] for answer in made.items()]

    def combinations(self, *conditions: Condition) -> Iterator[dict[str, str]]:
        named = sorted({option for condition in conditions for option in self.named(condition)})
        for row in product(*(self.domains[option] for option in named)):
            yield dict(zip(named, row, strict=True))

    def named(self, condition: Condition) -> set[str]:
        match condition:
            case Is(option, _):
                return {option}
            case Among(options, _):
                return set(options)
            case IsUsual(option):
                return {option, *self.book.roles.values()}
            case SeriesAsDonor():
                return {self.book.roles[Role.SERIES]}
            case Not(part):
                return self.named(part)
            case All(parts) | Any(parts):
                return {option for part in parts for option in self.named(part)}
            case _:
                return set()

    def assumed(self, made: Mapping[str, str]) -> list[int]:
        return [self.variables[answer] for answer in made.items()]

    def can(self, solver: Solver, made: Mapping[str, str]) -> bool:
        return bool(solver.solve(assumptions=self.assumed(made)))

    def count(self, made: Mapping[str, str]) -> int:
        with Solver(bootstrap_with=[*self.clauses, *([x] for x in self.assumed(made))]) as solver:
            return sum(1 for _ in solver.enum_models())

    def cheapest(self, made: Mapping[str, str], tariff: Tariff, seconds: float | None = None) -> int | None:
        """The least sum of line nets; None where nothing that is priced can be built. TimeoutError after `seconds`."""
        formula = WCNF()
        formula.extend([*self.clauses, *([x] for x in self.assumed(made))])
        self._top, base = len(self.variables), 0
        for clauses, net in self._charged(tariff):
            base += self._weigh(formula, clauses, net)
        with RC2(formula) as solver:
            return None if not _computed(solver, seconds) else base + solver.cost

    def _charged(self, tariff: Tariff) -> Iterator[tuple[list[int], int | None]]:
        """For every combination in which a line is charged: its choices, and the net (None: not priced)."""
        for line in self.book.lines:
            on_it = [adjustment for adjustment in self.book.adjustments if line.id in adjustment.lines]
            for made in self.combinations(line.when, *(adjustment.when for adjustment in on_it)):
                if self.reader.says(line.when, made):
                    net = line_net(line, [a for a in on_it if self.reader.says(a.when, made)], tariff)
                    yield self.assumed(made), None if net is None else net.net

    def _weigh(self, formula: WCNF, together: list[int], net: int | None) -> int:
        """Adds what the combination costs; returns what is counted in advance: an allowance."""
        against = [-x for x in together]
        if net is None or not against:
            formula.extend([against] if net is None else [])
            return net or 0
        if net > 0:
            formula.append(against, weight=net)
        elif net < 0:
            formula.append([self._meaning(formula, together)], weight=-net)
        return min(net, 0)

    def _meaning(self, formula: WCNF, together: list[int]) -> int:
        """A variable that can only be true where the combination is taken."""
        self._top += 1
        formula.extend([[-self._top, x] for x in together])
        return self._top


def _computed(solver: RC2, seconds: float | None) -> bool:
    if seconds is None:
        return solver.compute() is not None
    timer = Timer(seconds, solver.interrupt)
    timer.start()
    try:
        found = solver.compute(expect_interrupt=True)
    finally:
        timer.cancel()
    if found is None and solver.interrupted:
        raise TimeoutError
    return found is not None

"""A book under one state of its tools, for every donor car: what can be built, and a shell that shows it.

All conditions grow in one forest of its own, so that nothing which others ask is touched. Built for one proof, and
used by one thread.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from rules.condition import Condition, Is
from rules.donor.resolve import domains_of, resolve
from rules.engine.bans import Ban, bans
from rules.engine.diagram import compile_diagram
from rules.engine.forest import FALSE, TRUE, Forest
from rules.explain.nearest import Bar, Paths, Weights, as_written
from rules.model import Book, ToolCondition
from rules.proof.cars import cars
from rules.specification import Donor

#: Node of each rule or lost tool that forbids.
Forbidden = Mapping[str, int]


class Ground:
    """`order`: a good order of the options, by which the book stays within `limit` raw states."""

    def __init__(self, book: Book, states: Mapping[str, ToolCondition], order: Sequence[str], limit: int) -> None:
        self.book, self.states, self.limit = book, states, limit
        self.domains = domains_of(book)
        self.forest = Forest(tuple(order), self.domains)
        self.cars = cars(book)
        self._forbidden = {car: self._grow(bans(book, states, car)) for car in self.cars}
        self._paths: dict[tuple[int, ...], tuple[Paths, Weights]] = {}

    def forbidden(self, car: Donor) -> Forbidden:
        """What forbids, for one of `cars`, in the book's order."""
        return self._forbidden[car]

    def node(self, condition: Condition, car: Donor) -> int:
        """The condition's node, for a donor car."""
        return self.forest.grow(resolve(condition, self.book, car))

    def nodes(self, condition: Condition) -> dict[int, Donor]:
        """Each node that the condition has for one of `cars`, with the first such car."""
        found: dict[int, Donor] = {}
        for car in self.cars:
            found.setdefault(self.node(condition, car), car)
        return found

    def leaf(self, node: int, made: Mapping[str, str]) -> int:
        """The leaf that a whole shell leads to."""
        forest = self.forest
        while forest.children[node]:
            option = forest.order[forest.levels[node]]
            node = forest.children[node][self.domains[option].index(made[option])]
        return node

    def needs(self, node: int, option: str, choice: str) -> bool:
        """Whether the node can hold with this choice."""
        return self.forest.fold((node, self.forest.grow(Is(option, frozenset((choice,))))), decisive=FALSE) != FALSE

    def buildable(self, node: int, car: Donor, without: str = "") -> dict[str, str] | None:
        """The first shell that can be built, the rule `without` taken away, and for which the node holds."""
        return self._first(node, [n for id_, n in self.forbidden(car).items() if id_ != without])

    def any(self, node: int) -> dict[str, str] | None:
        """The first shell for which the node holds, whether it can be built or not."""
        return self._first(node, ())

    def _first(self, node: int, forbidden: Iterable[int]) -> dict[str, str] | None:
        if node == FALSE:
            return None
        paths, weights = self._compiled(tuple(sorted({n for n in forbidden if n != FALSE})))
        found = paths.lightest(weights, {}, [Bar(nodes=(self.forest.negate(node),))])
        return None if found is None else {o: choices[found[o]] for o, choices in self.domains.items()}

    def _compiled(self, forbidden: tuple[int, ...]) -> tuple[Paths, Weights]:
        if forbidden not in self._paths:
            diagram = compile_diagram(self.forest, forbidden, (), self.limit)
            self._paths[forbidden] = Paths(diagram, self.forest), as_written(self.domains, diagram)
        return self._paths[forbidden]

    def _grow(self, forbidding: tuple[Ban, ...]) -> Forbidden:
        grown = [(ban.id, self.forest.grow(ban.when)) for ban in forbidding]
        ids = dict.fromkeys(id_ for id_, _ in grown)
        return {id_: self.forest.fold((n for other, n in grown if other == id_), decisive=TRUE) for id_ in ids}

"""A prepared book with all that suggestions are looked for in, and what a whole shell needs, costs and takes.

May be asked from several threads: it is only read. Whether a shell can be built is not asked here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from rules.condition import ALWAYS
from rules.donor.resolve import resolve
from rules.engine.ask import Prepared
from rules.engine.bans import speaking
from rules.engine.charges import Rates, charges, grow_charge
from rules.engine.forest import FALSE, TRUE, Forest, Term
from rules.engine.looking import look_up
from rules.engine.sweep import UNPRICED
from rules.explain.nearest import Paths
from rules.model import Kind, ToolCondition
from rules.money.price import Tariff
from rules.schedule.days import route_days
from rules.specification import Donor

#: A whole shell: option → index of its choice.
Shell = Mapping[str, int]


@dataclass(frozen=True, slots=True)
class _Nodes:
    """Where the conditions of a book stand in the forest: `gates` by rule id, additions of days in the book's order."""

    gates: Mapping[str, int]
    charges: tuple[int, ...]
    additions: tuple[int, ...]


class Surroundings:
    """`prepared` for the same `states` and `donor`."""

    __slots__ = ("_donor", "_forest", "_nodes", "_rates", "buildable", "outright", "prepared")

    def __init__(self, prepared: Prepared, states: Mapping[str, ToolCondition], donor: Donor) -> None:
        self.prepared, self._donor = prepared, donor
        self._forest = Forest(prepared.order, prepared.layout.domains)
        self._nodes = self._grow(states)
        self._rates = Rates(prepared.book)
        self.buildable = Paths(prepared.compiled.buildable, self._forest)
        self.outright = Paths(prepared.compiled.outright, self._forest)

    def gate(self, id_: str) -> int:
        """The node, in the forest of the paths, of a part or an approval."""
        return self._nodes.gates[id_]

    def gates_of(self, shell: Shell) -> tuple[str, ...]:
        """The parts and approvals that a shell needs, in the book's order."""
        return tuple(id_ for id_, node in self._nodes.gates.items() if self._leaf(node, shell) == TRUE)

    def net(self, shell: Shell, tariff: Tariff) -> int | None:
        """The shell's lines before tax, whole minor units; None where one isn't priced."""
        leaves = [self._leaf(node, shell) for node in self._nodes.charges]
        (net,) = self._rates.costs([[self._forest.terms[leaf] for leaf in leaves if leaf != FALSE]], tariff)
        return None if net == UNPRICED else int(net)

    def costs(self, terms: list[Term], tariff: Tariff) -> dict[Term, float]:
        """What single terms cost by a tariff, UNPRICED among them."""
        return {term: self._rates.cost(term, tariff) for term in terms}

    def days(self, shell: Shell) -> int:
        """The shell's working days, to hold against another's (`rules.schedule.days.Route.compared`)."""
        book = self.prepared.book
        held = zip(book.additions, self._nodes.additions, strict=True)
        added = tuple(replace(a, when=ALWAYS) for a, node in held if self._leaf(node, shell) == TRUE)
        return route_days(replace(book, additions=added), {}, self._donor).compared

    def settled(self, made: Shell) -> dict[str, str]:
        """The choices that stand alone once some are made, of what can be built; empty where nothing can."""
        diagram, layout = self.prepared.compiled.buildable, self.prepared.layout
        found = look_up(diagram, made, [0] * len(diagram.emissions), self.prepared.bits)
        return layout.made(layout.settled(found)) if found else {}

    def _grow(self, states: Mapping[str, ToolCondition]) -> _Nodes:
        book, donor, grow = self.prepared.book, self._donor, self._forest.grow
        spoken = speaking(book, states, donor)
        return _Nodes(
            {speaks.id: grow(speaks.when) for speaks in spoken if speaks.kind in (Kind.PART, Kind.APPROVAL)},
            tuple(grow_charge(self._forest, charge) for charge in charges(book, donor)),
            tuple(grow(resolve(addition.when, book, donor)) for addition in book.additions),
        )

    def _leaf(self, node: int, shell: Shell) -> int:
        forest = self._forest
        while forest.children[node]:
            node = forest.children[node][shell[forest.order[forest.levels[node]]]]
        return node

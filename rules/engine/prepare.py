"""A book, the state of its tools and what is known of a donor car, compiled once so that asking is cheap.

What comes out holds for every donor with the same `facts_key`. It may be asked from several threads: what it
remembers between questions only saves time and never changes an answer.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from rules.condition import Condition
from rules.donor.resolve import domains_of
from rules.engine.bans import Ban, Speaks, bans, speaking
from rules.engine.causes import Causes
from rules.engine.chain import Chain
from rules.engine.charges import Charge, Rates, charges, grow_charge
from rules.engine.depends import Voices
from rules.engine.diagram import Diagram, TooLarge, compile_diagram
from rules.engine.forest import Forest
from rules.engine.groups import grouped
from rules.engine.layout import Layout
from rules.engine.looking import look_up
from rules.engine.memory import Memory
from rules.engine.order import Groups, orders
from rules.engine.original import Original
from rules.engine.sweep import Price
from rules.engine.view import View
from rules.model import Book, Kind, ToolCondition
from rules.money.price import Tariff
from rules.specification import Donor

#: Raw states of one diagram at most.
LIMIT = 200_000
#: Where the search for an order starts, beside the written order.
SEEDS = (1, 2, 3, 4)
#: An order is given up when it visits so many times more states than the best so far.
PATIENCE = 2
#: Tariffs whose costs are remembered.
REMEMBERED = 64


@dataclass(frozen=True, slots=True)
class Meaning:
    """All conditions of a book over choices alone, for one state of the tools and one donor."""

    domains: Mapping[str, tuple[str, ...]]
    bans: tuple[Ban, ...]
    speaking: tuple[Speaks, ...]
    charges: tuple[Charge, ...]


#: Ids of rules (and lost tools), each with the node of what it forbids.
NamedBans = tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Compiled:
    """`buildable`: all that can be built; `outright`: what of it needs neither part nor approval; in one order."""

    forest: Forest
    bans: NamedBans
    buildable: Diagram
    outright: Diagram

    @property
    def raw(self) -> int:
        """States visited for the larger of the two diagrams."""
        return max(self.buildable.raw, self.outright.raw)


class Common:
    """What asking needs with and without a diagram. `order`: the order of the forest, worth storing with the book."""

    __slots__ = ("_rates", "book", "causes", "groups", "layout", "order", "original", "voices")

    def __init__(self, book: Book, donor: Donor, meaning: Meaning, forest: Forest, named: NamedBans) -> None:
        self.book, self.order = book, forest.order
        self.layout = Layout(meaning.domains)
        self.voices = Voices(meaning.speaking, forest, self.layout)
        self.groups = grouped(forest, named, self.layout)
        self.causes = Causes(self.groups, [id_ for id_, _ in named])
        self.original = Original(book, donor, self.layout)
        self._rates = Rates(book)


class Prepared(Common):
    """What `rules.engine.ask.ask` is asked of. `order`: the order of the diagrams."""

    __slots__ = ("_chains", "_costs", "bits", "compiled")

    def __init__(self, book: Book, donor: Donor, meaning: Meaning, compiled: Compiled) -> None:
        super().__init__(book, donor, meaning, compiled.forest, compiled.bans)
        self.compiled = compiled
        self.bits = tuple(self.layout.bits(option) for option in self.order)
        no_bits = tuple((0,) * len(bits) for bits in self.bits)
        self._chains = (Chain(compiled.buildable, self.bits), Chain(compiled.outright, no_bits))
        self._costs = Memory[Hashable, tuple[list[Price], list[Price]]](REMEMBERED)

    def costs(self, tariff: Tariff) -> tuple[list[Price], list[Price]]:
        """What the emissions of the two diagrams cost: buildable, outright."""
        key = self._key(tariff)
        known = self._costs.get(key)
        return self._costs.keep(key, self._rated(tariff)) if known is None else known

    def views(self, made: Mapping[str, str], tariff: Tariff) -> tuple[View, View]:
        """Of all that can be built, and of what of it needs neither part nor approval."""
        indexes, key, costs = self.layout.indexes(made), self._key(tariff), self.costs(tariff)
        seen = [chain.look(indexes, key, of) for chain, of in zip(self._chains, costs, strict=True)]
        return seen[0].view(), seen[1].view()

    def alone(self, made: Mapping[str, str]) -> int:
        """The choices that stand alone once these are made, as a set; 0 where nothing can be built."""
        diagram = self.compiled.buildable
        found = look_up(diagram, self.layout.indexes(made), [0] * len(diagram.emissions), self.bits)
        return self.layout.settled(found) if found else 0

    @staticmethod
    def _key(tariff: Tariff) -> Hashable:
        return (tariff.list, *sorted(tariff.discounts.items()))

    def _rated(self, tariff: Tariff) -> tuple[list[Price], list[Price]]:
        both = (self.compiled.buildable, self.compiled.outright)
        buildable, outright = (self._rates.costs(diagram.emissions, tariff) for diagram in both)
        return buildable, outright


def prepare(
    book: Book,
    states: Mapping[str, ToolCondition],
    donor: Donor,
    limit: int = LIMIT,
    order: Sequence[str] | None = None,
    seeds: Iterable[int] = SEEDS,
) -> Prepared:
    """Compile. `order`: a stored one, to save the search; TooLarge where no order tried stays within `limit` states."""
    meaning = mean(book, states, donor)
    tried = good_orders(meaning, seeds) if order is None else (checked(order, meaning.domains),)
    return Prepared(book, donor, meaning, _smallest(meaning, tried, limit))


def mean(book: Book, states: Mapping[str, ToolCondition], donor: Donor) -> Meaning:
    """All conditions of the book, over choices alone."""
    return Meaning(domains_of(book), bans(book, states, donor), speaking(book, states, donor), charges(book, donor))


def checked(order: Sequence[str], domains: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    if sorted(order) != sorted(domains):
        raise ValueError("The stored order doesn't name the book's options, each once. Prepare the book without it.")
    return tuple(order)


def good_orders(meaning: Meaning, seeds: Iterable[int] = SEEDS) -> Iterable[tuple[str, ...]]:
    """Orders worth trying, the most promising first."""
    forest = Forest(tuple(meaning.domains), meaning.domains)
    roots = (forest.grow(c) for c in (*(ban.when for ban in meaning.bans), *gated(meaning)))
    prices = (grow_charge(forest, charge) for charge in meaning.charges)
    groups: Groups = tuple(g for root in (*roots, *prices) if len(g := forest.options_of(root)) > 1)
    return orders(meaning.domains, groups, seeds)


def gated(meaning: Meaning) -> list[Condition]:
    """What keeps a shell from being built outright."""
    return [speaks.when for speaks in meaning.speaking if speaks.kind in (Kind.PART, Kind.APPROVAL)]


def _smallest(meaning: Meaning, tried: Iterable[tuple[str, ...]], limit: int) -> Compiled:
    best: Compiled | None = None
    for order in tried:
        with suppress(TooLarge):
            compiled = _compile(meaning, order, limit)
            best = compiled if best is None or _size(compiled) < _size(best) else best
            limit = min(limit, PATIENCE * best.raw)
    if best is None:
        raise TooLarge(limit)
    return best


def _size(compiled: Compiled) -> int:
    return compiled.buildable.nodes + compiled.outright.nodes


def _compile(meaning: Meaning, order: tuple[str, ...], limit: int) -> Compiled:
    forest = Forest(order, meaning.domains)
    named = tuple((ban.id, forest.grow(ban.when)) for ban in meaning.bans)
    gates = [forest.grow(when) for when in gated(meaning)]
    prices = [grow_charge(forest, charge) for charge in meaning.charges]
    never = [node for _, node in named]
    buildable = compile_diagram(forest, never, prices, limit)
    outright = compile_diagram(forest, [*never, *gates], prices, limit) if gates else buildable
    return Compiled(forest, named, buildable, outright)

"""Going on where a book is too large for a diagram: the same answers; counts and prices only where pieces tell them.

Which choices can be taken, what they force, why not: by a SAT solver, exactly. How many variants are left, and at what
price: by the pieces that the book falls into once the answers are in; where a piece is too large, the count is None and
prices are not worked out, until enough is answered.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from rules.engine.charges import grow_charge
from rules.engine.forest import Forest
from rules.engine.numbers import QUICK, Numbers, Patience
from rules.engine.pieces import Part, Root, roots_of
from rules.engine.possible import Possible, Stand
from rules.engine.prepare import Common, Meaning, NamedBans, checked, gated, good_orders, mean
from rules.engine.view import Branch, View
from rules.model import Book, ToolCondition
from rules.money.price import Tariff
from rules.specification import Donor


class WithoutDiagram(Common):
    """What `rules.engine.ask.ask` is asked of, in place of `Prepared`. May be asked from several threads."""

    __slots__ = ("_patience", "_possible", "_told", "numbers")

    def __init__(self, book: Book, donor: Donor, meaning: Meaning, forest: Forest, patience: Patience) -> None:
        named = tuple((ban.id, forest.grow(ban.when)) for ban in meaning.bans)
        super().__init__(book, donor, meaning, forest, named)
        self.numbers = Numbers(forest, _roots(forest, meaning, named), self.layout, self._rates)
        self._possible = tuple(Possible(group, self.layout) for group in self.groups)
        self._told = tuple(o for o in self.layout.options if self.layout.field(o) & self.voices.reach)
        self._patience = patience

    def views(self, made: Mapping[str, str], tariff: Tariff) -> tuple[View, View]:
        """Of all that can be built, and of what of it needs neither part nor approval; of the latter, numbers only."""
        stands = self._stands(made)
        counted = self.numbers.of(self.layout.indexes(made), tariff, self._patience)
        can = all(stand.can for stand in stands)
        whole = self._whole(made, stands)
        answers = self.layout.mask(made)
        branches = {option: self._branches(option, stands, whole, answers) for option in self.layout.options}
        return counted.views(can, whole if can else 0, branches)

    def alone(self, made: Mapping[str, str]) -> int:
        """The choices that stand alone once these are made, as a set; 0 where nothing can be built."""
        stands = self._stands(made)
        return self.layout.settled(self._whole(made, stands)) if all(stand.can for stand in stands) else 0

    def _stands(self, made: Mapping[str, str]) -> list[Stand]:
        answers = self.layout.mask(made)
        return [possible.of(answers) for possible in self._possible]

    def _whole(self, made: Mapping[str, str], stands: Sequence[Stand]) -> int:
        """All that the completions take; in a group that can't be, every choice."""
        grouped = frozenset(option for group in self.groups for option in group.options)
        loose = (option for option in self.layout.options if option not in grouped)
        whole = sum(self._free(option, made) for option in loose)
        for group, stand in zip(self.groups, stands, strict=True):
            whole |= stand.whole if stand.can else group.reach
        return whole

    def _free(self, option: str, made: Mapping[str, str]) -> int:
        return self.layout.bit(option, made[option]) if option in made else sum(self.layout.bits(option))

    def _branches(self, option: str, stands: Sequence[Stand], whole: int, answers: int) -> list[Branch]:
        """`whole`: all that completions take, in a group that can't be every choice."""
        own = next((place for place, group in enumerate(self.groups) if option in group.options), None)
        others = all(stand.can for place, stand in enumerate(stands) if place != own)
        field = self.layout.field(option)
        if own is None:
            return [(others, None, whole & ~field | bit) for bit in self.layout.bits(option)]
        can = [others and bit in stands[own].beside for bit in self.layout.bits(option)]
        return [
            (ways, None, self._beside(own, stands[own], field, bit, whole, answers) if ways else 0)
            for ways, bit in zip(can, self.layout.bits(option), strict=True)
        ]

    def _beside(self, own: int, stand: Stand, field: int, bit: int, whole: int, answers: int) -> int:
        """What is taken beside a choice, as exactly as the rules that speak need it.

        Too little beside it makes too many rules speak, too much too few; where both make the same speak, that is it.
        """
        rest, reach = whole & ~self.groups[own].reach, self.groups[own].reach
        alone = self.layout.settled(whole)
        if answers & field and not answers & bit:  # what the answer forces is free once it is taken back
            alone = alone & ~reach | answers & reach
        enough = self._speaks_as(alone & ~field | bit, rest)
        if enough(stand.beside[bit]):
            return rest | stand.beside[bit]
        return rest | self._possible[own].beside(answers, bit, self._told, enough)

    def _speaks_as(self, alone: int, rest: int) -> Callable[[int], bool]:
        """Whether what is taken in one group makes no more rules speak than the choices that stand alone anyhow do."""
        depends, settled = self.voices.depends, self.layout.settled
        least = depends(alone)
        return lambda beside: depends(settled(rest | beside)) == least


def prepare_without_diagram(
    book: Book,
    states: Mapping[str, ToolCondition],
    donor: Donor,
    order: Sequence[str] | None = None,
    patience: Patience = QUICK,
) -> WithoutDiagram:
    """Quick, whatever the book's size. `order`: a stored one."""
    meaning = mean(book, states, donor)
    best = next(iter(good_orders(meaning))) if order is None else checked(order, meaning.domains)
    return WithoutDiagram(book, donor, meaning, Forest(best, meaning.domains), patience)


def _roots(forest: Forest, meaning: Meaning, named: NamedBans) -> tuple[Root, ...]:
    bans = ((Part.BAN, node) for _, node in named)
    gates = ((Part.GATE, forest.grow(when)) for when in gated(meaning))
    charged = ((Part.CHARGE, grow_charge(forest, charge)) for charge in meaning.charges)
    return roots_of(forest, (*bans, *gates, *charged))

"""Counts and prices of a book without a diagram, from the pieces that it falls into once answers are in.

Counts multiply, prices add up. Feasibility of single choices is told elsewhere; where a piece is too large, its lot
tells nothing, and then neither does the whole. What is told depends on the question alone, never on earlier ones.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import prod

from rules.engine.charges import Rates
from rules.engine.forest import Forest
from rules.engine.layout import Layout
from rules.engine.looking import Seen, look
from rules.engine.memory import Memory
from rules.engine.pieces import Part, Piece, Root, Split, joined, split
from rules.engine.sweep import UNPRICED, Price
from rules.engine.view import Branch, View
from rules.money.price import Tariff

#: Splits remembered for one lot.
REMEMBERED = 300


@dataclass(frozen=True, slots=True)
class Patience:
    """Raw states at most: of all pieces of one lot; and of those around one answered option, were it open again."""

    lot: int
    option: int


QUICK = Patience(4_000, 300)


#: An option and the place of one of its choices.
_At = tuple[str, int]
#: Of one choice: whether it can be and the least price; of all that can be built, and outright.
Told = tuple[tuple[bool, Price], tuple[bool, Price]]
#: The views of a piece, by its options.
_Views = Mapping[tuple[str, ...], tuple[Seen, Seen]]


@dataclass(frozen=True, slots=True)
class World:
    """Of some roots, all that can be built or what of it is outright. `branches`: (option, index) → ways and price."""

    count: int
    price: Price
    branches: Mapping[_At, tuple[bool, Price]]

    def beside(self, other: World) -> World:
        """Both together, branches left out."""
        return World(self.count * other.count, self.price + other.price, {})


NOTHING = World(1, 0, {})
#: Buildable and outright.
Worlds = tuple[World, World]


@dataclass(frozen=True, slots=True)
class Counted:
    """`worlds` of the whole, None where they aren't told; `branches`: those of single choices that are told."""

    worlds: Worlds | None
    branches: Mapping[_At, Told]

    def views(self, can: bool, choices: int, branches: Mapping[str, Sequence[Branch]]) -> tuple[View, View]:
        """The views of an answer, with the branches that a solver told."""
        sides = [{o: self._priced(o, found, side) for o, found in branches.items()} for side in (0, 1)]
        if not can:
            return View(False, 0, UNPRICED, 0, sides[0]), View(False, 0, UNPRICED, 0, sides[1])
        if self.worlds is None:
            return View(True, None, None, choices, sides[0]), View(False, None, None, 0, sides[1])
        whole, outright = self.worlds
        return (
            View(True, whole.count, whole.price, choices, sides[0]),
            View(bool(outright.count), outright.count, outright.price, 0, sides[1]),
        )

    def _priced(self, option: str, branches: Sequence[Branch], side: int) -> list[Branch]:
        return [self._one(branch, self.branches.get((option, k)), side) for k, branch in enumerate(branches)]

    def _one(self, branch: Branch, told: Told | None, side: int) -> Branch:
        if told is None:
            return branch if side == 0 else (False, None, 0)
        ways, price = told[side]
        can, _, choices = branch
        return (can, price, choices) if side == 0 else (ways, price, 0)


class _Lot:
    """Roots that share options with one another and with no others."""

    def __init__(self, roots: Sequence[Root], layout: Layout) -> None:
        self.roots = tuple(roots)
        self.names = frozenset[str]().union(*(root.names for root in roots))
        self.order = tuple(option for option in layout.options if option in self.names)
        self._known = Memory[object, tuple[Split | None]](REMEMBERED * (1 + len(self.order)))

    def whole(self, forest: Forest, made: Mapping[str, int], limit: int) -> Split | None:
        """All the roots under the choices made."""
        return self._have(limit, None, forest, self.roots, made)

    def near(
        self, forest: Forest, option: str, roots: tuple[Root, ...], made: Mapping[str, int], limit: int
    ) -> Split | None:
        """The roots near an answered option, which hang on it and on the other choices made alone, under the latter."""
        return self._have(limit, option, forest, roots, made)

    def _have(
        self, limit: int, option: str | None, forest: Forest, roots: Sequence[Root], made: Mapping[str, int]
    ) -> Split | None:
        key = (limit, option, *((o, made[o]) for o in self.order if o in made))
        known = self._known.get(key)
        (found,) = self._known.keep(key, (split(forest, roots, made, limit),)) if known is None else known
        return found


class Numbers:
    """For one book, tool state and donor car. Read from several threads."""

    __slots__ = ("_forest", "_free", "_layout", "_lots", "_rates")

    def __init__(self, forest: Forest, roots: Sequence[Root], layout: Layout, rates: Rates) -> None:
        self._forest, self._layout, self._rates = forest, layout, rates
        self._lots = tuple(_Lot(lot, layout) for lot in joined(roots))
        named = frozenset[str]().union(*(lot.names for lot in self._lots))
        self._free = tuple(option for option in layout.options if option not in named)

    def of(self, made: Mapping[str, int], tariff: Tariff, patience: Patience) -> Counted:
        """What is told under the choices made, option → index."""
        lots = [self._of_lot(lot, made, tariff, patience) for lot in self._lots]
        worlds = [worlds for worlds, _ in lots]
        told = _together([*worlds, self._loose(made)])
        branches: dict[_At, Told] = {}
        for place, (_, found) in enumerate(lots):
            around = _together([*worlds[:place], *worlds[place + 1 :]])
            if around is not None:
                branches.update({at: _with(around, both) for at, both in found.items()})
        if told is not None:
            both = tuple((bool(world.count), world.price) for world in told)
            branches.update({(o, k): (both[0], both[1]) for o in self._free for k in range(self._width(o))})
        return Counted(told, branches)

    def _width(self, option: str) -> int:
        return len(self._layout.domains[option])

    def _loose(self, made: Mapping[str, int]) -> Worlds:
        count = prod(self._width(option) for option in self._free if option not in made)
        return World(count, 0, {}), World(count, 0, {})

    def _of_lot(
        self, lot: _Lot, made: Mapping[str, int], tariff: Tariff, patience: Patience
    ) -> tuple[Worlds | None, dict[_At, Told]]:
        found = lot.whole(self._forest, made, patience.lot)
        if found is None:
            return None, {}
        views = {piece.options: self._look(piece, tariff) for piece in found.pieces}
        whole = self._worlds(found, views, lot.names - made.keys(), tariff)
        branches = {at: (whole[0].branches[at], whole[1].branches[at]) for at in whole[0].branches}
        for option in lot.order:
            if option in made:
                branches.update(self._again(lot, found, views, option, made, tariff, patience.option))
        return whole, branches

    def _again(
        self,
        lot: _Lot,
        found: Split,
        views: _Views,
        option: str,
        made: Mapping[str, int],
        tariff: Tariff,
        limit: int,
    ) -> dict[_At, Told]:
        """The branches of an answered option: what it touches is split anew without its answer, the rest stays."""
        touched = _touched(lot, option, made)
        without = {other: choice for other, choice in made.items() if other != option}
        again = lot.near(self._forest, option, found.near(option, touched, lot.roots), without, limit)
        if again is None:
            return {}
        own = self._worlds(again, {p.options: self._look(p, tariff) for p in again.pieces}, touched, tariff)
        around = self._worlds(found.apart(option, touched), views, frozenset(), tariff)
        at = [(option, k) for k in range(self._width(option))]
        return {each: _with(around, (own[0].branches[each], own[1].branches[each])) for each in at}

    def _look(self, piece: Piece, tariff: Tariff) -> tuple[Seen, Seen]:
        no_bits = [(0,) * self._width(option) for option in piece.options]
        diagrams = (piece.buildable, piece.outright)
        seen = [look(d, {}, self._rates.costs(d.emissions, tariff), no_bits) for d in diagrams]
        return seen[0], seen[1]

    def _worlds(self, found: Split, views: _Views, open_: frozenset[str], tariff: Tariff) -> Worlds:
        """Both worlds of a split with these open options."""
        (base,) = self._rates.costs([[term for _, term in found.charged]], tariff)
        free = open_.difference(*(piece.options for piece in found.pieces))
        banned = any(root.part is Part.BAN for root in found.broken)
        seen = [views[piece.options] for piece in found.pieces]
        return (
            self._world([whole for whole, _ in seen], base, banned, free),
            self._world([outright for _, outright in seen], base, bool(found.broken), free),
        )

    def _world(self, views: Sequence[Seen], base: Price, dead: bool, free: Iterable[str]) -> World:
        open_ = prod(self._width(option) for option in free)
        counts, prices = [v.count for v in views], [v.price for v in views]
        branches: dict[_At, tuple[bool, Price]] = {}
        for place, view in enumerate(views):
            can = not dead and all(counts[:place]) and all(counts[place + 1 :])
            rest = base + sum(prices[:place]) + sum(prices[place + 1 :])
            for option, found in view.branches.items():
                branches.update({(option, k): (can and w, rest + p) for k, (w, p, _) in enumerate(found)})
        count, price = 0 if dead else open_ * prod(counts), base + sum(prices)
        loose = ((option, k) for option in free for k in range(self._width(option)))
        return World(count, price, branches | dict.fromkeys(loose, (bool(count), price)))


def _touched(lot: _Lot, option: str, made: Mapping[str, int]) -> frozenset[str]:
    """The option, and the open ones that some root names beside it."""
    return frozenset((option,)).union(*(root.names - made.keys() for root in lot.roots if option in root.names))


def _together(lots: Iterable[Worlds | None]) -> Worlds | None:
    both: Worlds = (NOTHING, NOTHING)
    for worlds in lots:
        if worlds is None:
            return None
        both = both[0].beside(worlds[0]), both[1].beside(worlds[1])
    return both


def _with(around: Worlds, both: Told) -> Told:
    """A choice's branches with all else that is around."""
    (ways, price), (outright, least) = both
    return (
        (ways and bool(around[0].count), price + around[0].price),
        (outright and bool(around[1].count), least + around[1].price),
    )

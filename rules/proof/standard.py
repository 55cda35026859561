"""The usual specification of every series, market and body: whether it can be built, and its price by every list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rules.donor.usual import key_rows, usual_specification
from rules.engine.bans import speaking
from rules.engine.charges import Rates, charges, grow_charge
from rules.engine.forest import FALSE, TRUE, Term
from rules.engine.sweep import UNPRICED
from rules.model import Kind, Role
from rules.money.price import Tariff
from rules.proof.finding import Price, StandardShell
from rules.proof.ground import Ground
from rules.specification import Donor


def standard_shells(ground: Ground) -> tuple[StandardShell, ...]:
    """By series, market and body in written order, and for each every usual specification that some car may have."""
    judges: dict[Donor, _Judge] = {}
    return tuple(
        judges.setdefault(car, _Judge(ground, car)).shell(keys, made) for keys, car, made in _specifications(ground)
    )


def _specifications(ground: Ground) -> Iterator[tuple[Mapping[str, str], Donor, dict[str, str]]]:
    for keys in key_rows(ground.book, {}):
        seen: list[dict[str, str]] = []
        for car in _of_series(ground, keys):
            made = usual_specification(ground.book, keys, car)
            if made not in seen:
                seen.append(made)
                yield keys, car, made


def _of_series(ground: Ground, keys: Mapping[str, str]) -> Iterator[Donor]:
    """The unknown car first, then those of the ordered series."""
    series = keys.get(ground.book.roles.get(Role.SERIES, ""))
    return (car for car in ground.cars if car == Donor() or (car.series is not None and car.series == series))


class _Judge:
    """What the book says of whole shells for one donor car."""

    def __init__(self, ground: Ground, car: Donor) -> None:
        book, forest = ground.book, ground.forest
        self._ground, self._car = ground, car
        gating = [s for s in speaking(book, ground.states, car) if s.kind in (Kind.PART, Kind.APPROVAL)]
        self._gates = {speaks.id: forest.grow(speaks.when) for speaks in gating}
        self._charges = [grow_charge(forest, charge) for charge in charges(book, car)]
        self._rates = Rates(book)

    def shell(self, keys: Mapping[str, str], made: Mapping[str, str]) -> StandardShell:
        causes = self._held(self._ground.forbidden(self._car), made)
        gates = () if causes else self._held(self._gates, made)
        return StandardShell(keys, self._car, made, causes, gates, () if causes else self._prices(made))

    def _held(self, nodes: Mapping[str, int], made: Mapping[str, str]) -> tuple[str, ...]:
        return tuple(id_ for id_, node in nodes.items() if self._ground.leaf(node, made) == TRUE)

    def _prices(self, made: Mapping[str, str]) -> tuple[Price, ...]:
        leaves = (self._ground.leaf(node, made) for node in self._charges)
        terms = [self._ground.forest.terms[leaf] for leaf in leaves if leaf != FALSE]
        return tuple(Price(list_.id, self._net(terms, list_.id)) for list_ in self._ground.book.lists)

    def _net(self, terms: list[Term], list_: str) -> int | None:
        (net,) = self._rates.costs([terms], Tariff(list_))
        return None if net == UNPRICED else int(net)

"""Rules that forbid nothing of their own, and the others that already forbid it."""

from __future__ import annotations

from collections.abc import Iterable

from rules.answer import Cause
from rules.engine.causes import Causes
from rules.engine.forest import FALSE
from rules.engine.groups import grouped
from rules.engine.layout import Layout
from rules.proof.finding import Idle
from rules.proof.ground import Ground
from rules.specification import Donor


def idle_rules(ground: Ground) -> tuple[Idle, ...]:
    """Rules and lost tools without which the same can be built, whatever the donor car; in the book's order."""
    cars = _telling(ground)
    return tuple(_idle(ground, id_, cars) for id_ in ground.forbidden(cars[0]) if not _bites(ground, id_, cars))


def _bites(ground: Ground, id_: str, cars: Iterable[Donor]) -> bool:
    return any(ground.buildable(ground.forbidden(car)[id_], car, without=id_) for car in cars)


def _telling(ground: Ground) -> list[Donor]:
    """The first of all cars for which the same is forbidden."""
    seen: dict[tuple[int, ...], Donor] = {}
    for car in ground.cars:
        seen.setdefault(tuple(ground.forbidden(car).values()), car)
    return list(seen.values())


def _idle(ground: Ground, id_: str, cars: Iterable[Donor]) -> Idle:
    speaking = [car for car in cars if ground.forbidden(car)[id_] != FALSE]
    if not speaking:
        return Idle(id_, (), None)
    return Idle(id_, _implied_by(ground, id_, speaking[0]), ground.any(ground.forbidden(speaking[0])[id_]))


def _implied_by(ground: Ground, id_: str, car: Donor) -> tuple[Cause, ...]:
    """Others that clash with breaking the rule: fewest first, then the book's order."""
    forbidden = ground.forbidden(car)
    others = [(other, node) for other, node in forbidden.items() if other != id_]
    named = [(id_, ground.forest.negate(forbidden[id_])), *others]
    clashes, _ = Causes(grouped(ground.forest, named, Layout(ground.domains)), [name for name, _ in named]).of(0)
    least = _least([tuple(other for other in clash if other != id_) for clash in clashes])
    places = {other: place for place, other in enumerate(forbidden)}
    return tuple(sorted(least, key=lambda cause: (len(cause), [places[other] for other in cause])))


def _least(causes: list[Cause]) -> list[Cause]:
    """Those that contain no other: where rules contradict each other anyway, a clash may do without the idle one."""
    return [cause for cause in causes if not any(set(other) < set(cause) for other in causes)]

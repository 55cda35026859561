"""Conditions: what a rule, a price or a tool says about the choices made and the donor car.

A condition is data. `truth` evaluates it three-valued, part by part: with options still unanswered it says True only
where every way of answering makes it true, False only where every way makes it false, and None wherever its parts
alone don't tell. (The diagrams tell exactly; on a complete specification both are the same.) A fact of the donor car
that is not known makes its atom neither, and a rule never speaks on the strength of something unknown.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import prod


@dataclass(frozen=True, slots=True)
class Is:
    """`option` has one of `choices`."""

    option: str
    choices: frozenset[str]


@dataclass(frozen=True, slots=True)
class Among:
    """The choices of `options`, in this order, are one of `rows`: a table of the combinations that exist."""

    options: tuple[str, ...]
    rows: frozenset[tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class IsUsual:
    """`option` has the usual choice of the *ordered* series and market (for this donor's number and gearbox)."""

    option: str


@dataclass(frozen=True, slots=True)
class DonorSeries:
    """The donor car is established to be of one of `series`."""

    series: frozenset[str]


@dataclass(frozen=True, slots=True)
class DonorNumber:
    """The donor's series is `series` and its running number lies in `low`…`high`, both included; None is open-ended."""

    series: str
    low: int | None
    high: int | None


@dataclass(frozen=True, slots=True)
class DonorGearbox:
    """The donor is stated to have one of these gearboxes."""

    gearboxes: frozenset[str]


@dataclass(frozen=True, slots=True)
class SeriesAsDonor:
    """The ordered series is the donor's."""


@dataclass(frozen=True, slots=True)
class Not:
    part: Condition


@dataclass(frozen=True, slots=True)
class All:
    """Every part holds; `All(())` always does."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Any:
    """At least one part holds; `Any(())` never does."""

    parts: tuple[Condition, ...]


Condition = Is | Among | IsUsual | DonorSeries | DonorNumber | DonorGearbox | SeriesAsDonor | Not | All | Any

ALWAYS = All(())
NEVER = Any(())


def truth(condition: Condition, made: Mapping[str, str], domains: Mapping[str, tuple[str, ...]]) -> bool | None:
    """True, False, or None while the choices `made` (option → choice) leave it undecided.

    `domains`: option → all its choices. Only for a *resolved* condition: one over choices alone.
    """
    match condition:
        case Is(option, choices):
            return truth_of_is(choices, made.get(option), domains[option])
        case Among():
            return _truth_of_among(condition, made, domains)
        case Not(part):
            inner = truth(part, made, domains)
            return None if inner is None else not inner
        case All(parts):
            return fold((truth(part, made, domains) for part in parts), decisive=False)
        case Any(parts):
            return fold((truth(part, made, domains) for part in parts), decisive=True)
        case _:
            raise TypeError(f"resolve {condition!r} before asking whether it holds")


def holds(condition: Condition, made: Mapping[str, str], domains: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether the choices made settle that a resolved condition is true."""
    return truth(condition, made, domains) is True


def options_of(condition: Condition) -> frozenset[str]:
    """The options that a resolved condition names."""
    match condition:
        case Is(option, _):
            return frozenset((option,))
        case Among(options, _):
            return frozenset(options)
        case Not(part):
            return options_of(part)
        case All(parts) | Any(parts):
            return frozenset().union(*(options_of(part) for part in parts))
        case _:
            raise TypeError(f"resolve {condition!r} before asking what it names")


def truth_of_is(choices: frozenset[str], made: str | None, domain: tuple[str, ...]) -> bool | None:
    """As `truth`, where one option is named: `choices` of it, the one that is `made`, all it has."""
    if made is not None:
        return made in choices
    if choices.isdisjoint(domain):
        return False
    return True if choices.issuperset(domain) else None


def _truth_of_among(table: Among, made: Mapping[str, str], domains: Mapping[str, tuple[str, ...]]) -> bool | None:
    fixed = [(i, made[option]) for i, option in enumerate(table.options) if option in made]
    left = sum(all(row[i] == choice for i, choice in fixed) for row in table.rows)
    free = prod(len(domains[option]) for option in table.options if option not in made)
    return {0: False, free: True}.get(left)


def fold(truths: Iterable[bool | None], decisive: bool) -> bool | None:
    """Three-valued *any* (`decisive` True) or *all* (False)."""
    undecided = False
    for value in truths:
        if value is decisive:
            return decisive
        undecided |= value is None
    return None if undecided else not decisive

"""Conditions of a book → conditions over choices alone, for one donor car.

The usual becomes a table over the key options; facts of the donor become always or never. What is not known of the
donor settles nothing: negations are pushed to the atoms first, and an unknown atom then never holds.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product

from rules.condition import (
    ALWAYS,
    NEVER,
    All,
    Among,
    Any,
    Condition,
    DonorGearbox,
    DonorNumber,
    DonorSeries,
    Is,
    IsUsual,
    Not,
    SeriesAsDonor,
    holds,
    truth_of_is,
)
from rules.donor.usual import donor_fact, key_options, usual_choice
from rules.model import Book, Role
from rules.specification import Donor

#: A fact that may or may not be known of the donor car.
DonorAtom = DonorSeries | DonorNumber | DonorGearbox


def domains_of(book: Book) -> dict[str, tuple[str, ...]]:
    """option → its choices, in written order."""
    return {option.id: tuple([choice.id for choice in option.choices]) for option in book.options}


def resolve(condition: Condition, book: Book, donor: Donor) -> Condition:
    """The condition in terms of choices alone; Not stands only before Among."""
    return _resolve(condition, book, donor, wanted=True)


def holds_with(
    condition: Condition,
    book: Book,
    donor: Donor,
    made: Mapping[str, str],
    domains: Mapping[str, tuple[str, ...]],
) -> bool:
    """Whether the choices made settle that a condition of the book is true, for the donor car.

    Most conditions of prices name one option, and are resolved as they stand.
    """
    if isinstance(condition, Is):
        return truth_of_is(condition.choices, made.get(condition.option), domains[condition.option]) is True
    return holds(resolve(condition, book, donor), made, domains)


def _resolve(condition: Condition, book: Book, donor: Donor, wanted: bool) -> Condition:
    match condition:
        case Not(part):
            return _resolve(part, book, donor, not wanted)
        case All(parts) | Any(parts):
            inner = tuple(_resolve(part, book, donor, wanted) for part in parts)
            return every(inner) if isinstance(condition, All) is wanted else either(inner)
        case Is(option, choices):
            return condition if wanted else Is(option, _others(book, option, choices))
        case Among():
            return condition if wanted else Not(condition)
        case IsUsual(option):
            return _resolve(usual_table(book, option, donor), book, donor, wanted)
        case SeriesAsDonor():
            return _series_as_donor(book, donor, wanted)
        case DonorSeries() | DonorNumber() | DonorGearbox():
            return ALWAYS if donor_fact(condition, donor) is wanted else NEVER


def every(parts: tuple[Condition, ...]) -> Condition:
    """All of the parts, flattened; NEVER where one never holds."""
    flat = tuple(p for part in parts for p in (part.parts if isinstance(part, All) else (part,)))
    if NEVER in flat:
        return NEVER
    return flat[0] if len(flat) == 1 else All(flat)


def either(parts: tuple[Condition, ...]) -> Condition:
    """Any of the parts, flattened; ALWAYS where one always holds."""
    flat = tuple(p for part in parts for p in (part.parts if isinstance(part, Any) else (part,)))
    if ALWAYS in flat:
        return ALWAYS
    return flat[0] if len(flat) == 1 else Any(flat)


def usual_table(book: Book, option: str, donor: Donor) -> Condition:
    """The combinations of key options and `option` in which `option` has its usual choice."""
    keys = key_options(book)
    if option in keys:
        return ALWAYS
    domains = domains_of(book)
    rows = {
        row: usual_choice(book, option, dict(zip(keys, row, strict=True)), donor)
        for row in product(*(domains[key] for key in keys))
    }
    telling = [i for i in range(len(keys)) if _tells(i, rows)]
    table = frozenset((*(row[i] for i in telling), choice) for row, choice in rows.items())
    return Among((*(keys[i] for i in telling), option), table)


def _tells(column: int, rows: dict[tuple[str, ...], str]) -> bool:
    seen: dict[tuple[str, ...], str] = {}
    return any(seen.setdefault(row[:column] + row[column + 1 :], choice) != choice for row, choice in rows.items())


def _others(book: Book, option: str, choices: frozenset[str]) -> frozenset[str]:
    return frozenset(choice.id for choice in book.option(option).choices if choice.id not in choices)


def _series_as_donor(book: Book, donor: Donor, wanted: bool) -> Condition:
    if donor.series is None:
        return NEVER
    same = Is(book.roles[Role.SERIES], frozenset((donor.series,)))
    return _resolve(same, book, donor, wanted)


def donor_atoms(book: Book) -> tuple[DonorAtom, ...]:
    """What the book asks of the donor car, each once."""
    rules = (part for rule in book.rules for part in (rule.when, rule.needs) if part is not None)
    others = (thing.when for things in (book.lines, book.adjustments, book.usual) for thing in things)
    tools = (tool.needed_for for tool in book.tools)
    return tuple(dict.fromkeys(atom for when in (*rules, *others, *tools) for atom in _atoms(when)))


def facts_key(book: Book, donor: Donor, atoms: tuple[DonorAtom, ...] | None = None) -> tuple[object, ...]:
    """Donors with equal keys get the same answers from the book. `atoms`: its `donor_atoms`, where they are at hand."""
    asked = donor_atoms(book) if atoms is None else atoms
    return (donor.series, *(donor_fact(atom, donor) for atom in asked))


def _atoms(condition: Condition) -> Iterator[DonorAtom]:
    match condition:
        case DonorSeries() | DonorNumber() | DonorGearbox():
            yield condition
        case Not(part):
            yield from _atoms(part)
        case All(parts) | Any(parts):
            for part in parts:
                yield from _atoms(part)

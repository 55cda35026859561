"""Donor cars that stand for all others: one for every way in which a book can tell cars apart."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from rules.condition import All, Any, Condition, DonorNumber, DonorSeries, Not
from rules.model import Book, Role
from rules.specification import Donor


def cars(book: Book) -> tuple[Donor, ...]:
    """The car of which nothing is known, then one for each series, number and gearbox that the book may tell apart."""
    gearboxes = (None, *book.gearboxes)
    return tuple(Donor(*known, gearbox) for known, gearbox in product(_known(book), gearboxes))


def _known(book: Book) -> Iterator[tuple[str | None, int | None]]:
    atoms = tuple(dict.fromkeys(atom for when in _conditions(book) for atom in _atoms(when)))
    yield None, None
    for series in _series(book, atoms):
        yield series, None
        numbers = [atom for atom in atoms if isinstance(atom, DonorNumber) and atom.series == series]
        yield from ((series, number) for number in sorted({edge for atom in numbers for edge in _edges(atom)}))


def _series(book: Book, atoms: tuple[DonorNumber | DonorSeries, ...]) -> list[str]:
    """Those that can be ordered; without a series option those that conditions name."""
    option = book.roles.get(Role.SERIES)
    if option is not None:
        return [choice.id for choice in book.option(option).choices]
    return sorted({s for atom in atoms for s in (atom.series if isinstance(atom, DonorSeries) else (atom.series,))})


def _edges(atom: DonorNumber) -> set[int]:
    """Running numbers on both sides of each end; any number where it has none."""
    low = () if atom.low is None else (atom.low - 1, atom.low)
    high = () if atom.high is None else (atom.high, atom.high + 1)
    return {max(number, 0) for number in (*low, *high)} or {0}


def _conditions(book: Book) -> Iterator[Condition]:
    for rule in book.rules:
        yield from (part for part in (rule.when, rule.needs) if part is not None)
    for things in (book.lines, book.adjustments, book.usual, book.additions, book.cautions):
        yield from (thing.when for thing in things)
    yield from (tool.needed_for for tool in book.tools)


def _atoms(condition: Condition) -> Iterator[DonorNumber | DonorSeries]:
    match condition:
        case DonorNumber() | DonorSeries():
            yield condition
        case Not(part):
            yield from _atoms(part)
        case All(parts) | Any(parts):
            for part in parts:
                yield from _atoms(part)

"""What the original car had: the usual choice by series, market and body, and by the facts of the donor car."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product

from rules.condition import All, Any, Condition, DonorGearbox, DonorNumber, DonorSeries, Is, Not, fold
from rules.model import Book, Role
from rules.specification import Donor

KEY_ROLES = (Role.SERIES, Role.MARKET, Role.BODY)


def key_options(book: Book) -> tuple[str, ...]:
    """The options that key the usual table, in the order series, market, body; those the book has."""
    return tuple(book.roles[role] for role in KEY_ROLES if role in book.roles)


def usual_choice(book: Book, option: str, keys: Mapping[str, str], donor: Donor) -> str:
    """The usual choice of `option` for `keys` (every key option → choice) and the donor's number and gearbox.

    Later rows of the table win; where no row speaks it is the first choice listed; a key option's usual is itself.
    """
    if option in keys:
        return keys[option]
    for row in reversed(book.usual):
        if option in row.values and _speaks(row.when, keys, donor):
            return row.values[option]
    return book.option(option).choices[0].id


def usual_choices(book: Book, option: str, made: Mapping[str, str], donor: Donor) -> frozenset[str]:
    """The choices that may still turn out usual, with some of the key options perhaps unanswered in `made`."""
    return frozenset(usual_choice(book, option, keys, donor) for keys in key_rows(book, made))


def usual_specification(book: Book, keys: Mapping[str, str], donor: Donor) -> dict[str, str]:
    """option → usual choice, for every option of the book."""
    return {option.id: usual_choice(book, option.id, keys, donor) for option in book.options}


def key_rows(book: Book, made: Mapping[str, str]) -> Iterator[dict[str, str]]:
    """Every way of answering the key options that are not in `made`."""
    keys = key_options(book)
    domains = [[made[k]] if k in made else [c.id for c in book.option(k).choices] for k in keys]
    return (dict(zip(keys, row, strict=True)) for row in product(*domains))


def _speaks(when: Condition, keys: Mapping[str, str], donor: Donor) -> bool:
    """A row speaks only where it surely holds: what is not known of the donor settles nothing, negated or not."""
    return _truth(when, keys, donor) is True


def _truth(when: Condition, keys: Mapping[str, str], donor: Donor) -> bool | None:
    match when:
        case Is(option, choices) if option in keys:
            return keys[option] in choices
        case Not(part):
            inner = _truth(part, keys, donor)
            return None if inner is None else not inner
        case All(parts):
            return fold((_truth(part, keys, donor) for part in parts), decisive=False)
        case Any(parts):
            return fold((_truth(part, keys, donor) for part in parts), decisive=True)
        case DonorSeries() | DonorNumber() | DonorGearbox():
            return donor_fact(when, donor)
        case _:
            raise TypeError(f"the usual table can't speak of {when!r}")


def donor_fact(atom: DonorSeries | DonorNumber | DonorGearbox, donor: Donor) -> bool | None:
    """Whether the donor is so; None where that is not established."""
    match atom:
        case DonorSeries(series):
            return None if donor.series is None else donor.series in series
        case DonorGearbox(gearboxes):
            return None if donor.gearbox is None else donor.gearbox in gearboxes
        case DonorNumber():
            return _number_fact(atom, donor)


def _number_fact(atom: DonorNumber, donor: Donor) -> bool | None:
    if donor.series not in (None, atom.series):
        return False
    if donor.series is None or donor.number is None:
        return None
    at_least = atom.low is None or atom.low <= donor.number
    return at_least and (atom.high is None or donor.number <= atom.high)

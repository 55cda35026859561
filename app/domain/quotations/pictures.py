"""A donor car in three pictures: as built, as it stands, as ordered; and where any two of them differ.

Pure. The pictures are never merged: what one of them doesn't say stays unsaid in it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.domain.quotations.enquiry import DonorCar
from rules.donor.usual import key_options, usual_specification
from rules.model import Book, Role

#: Option → choice, as far as a picture says.
Seen = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Row:
    """An option in which the pictures differ; a side that is None is not known."""

    option: str
    built: str | None
    stands: str | None
    ordered: str | None


def differences(book: Book, donor: DonorCar, ordered: Seen) -> tuple[Row, ...]:
    """The structural options in which any two pictures differ, in the order of the book."""
    built, stands = as_built(book, donor, ordered), as_it_stands(book, donor, ordered)
    rows = (Row(o.id, built.get(o.id), stands.get(o.id), ordered.get(o.id)) for o in book.options if o.structural)
    return tuple(row for row in rows if len({row.built, row.stands, row.ordered} - {None}) > 1)


def as_built(book: Book, donor: DonorCar, ordered: Seen) -> dict[str, str]:
    """What its number makes usual, and what somebody says on top of that; without a number, only that."""
    series = donor.series if donor.established else None
    return _picture(book, donor, {**_series(book, series), **donor.built.values}, ordered)


def as_it_stands(book: Book, donor: DonorCar, ordered: Seen) -> dict[str, str]:
    """As built, but for what somebody says it is now; of another series now, as that series had it. Empty: unsaid."""
    if not donor.stands.values:
        return {}
    key = book.roles.get(Role.SERIES, "")
    built = as_built(book, donor, ordered)
    if donor.stands.values.get(key, built.get(key)) == built.get(key):
        return {**built, **donor.stands.values}
    where = {option: built[option] for option in key_options(book) if option in built}
    return _picture(book, donor, {**where, **donor.stands.values}, ordered)


def _series(book: Book, series: str | None) -> dict[str, str]:
    role = book.roles.get(Role.SERIES)
    return {role: series} if role is not None and series is not None else {}


def _picture(book: Book, donor: DonorCar, said: Seen, ordered: Seen) -> dict[str, str]:
    """What was said, and beneath it the usual of that series; market and body as ordered where nobody has said them."""
    keys = {key: said.get(key) or ordered.get(key) for key in key_options(book)}
    known = {key: choice for key, choice in keys.items() if choice is not None}
    if book.roles.get(Role.SERIES) not in said or len(known) < len(keys):
        return dict(said)
    usual = usual_specification(book, known, donor.facts())
    return dict(_structural(book, usual)) | dict(said)


def _structural(book: Book, seen: Seen) -> Iterator[tuple[str, str]]:
    return ((option.id, seen[option.id]) for option in book.options if option.structural and option.id in seen)

"""The choices made against what the original car had: which are usual, and whether the shell is as the car had it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rules.donor.usual import key_options, key_rows, usual_specification
from rules.engine.layout import Layout
from rules.model import Book, Role
from rules.specification import Donor

#: Options that are never compared: which body and which market is the customer's affair.
_FREE = (Role.BODY, Role.MARKET)


def compared_options(book: Book) -> tuple[str, ...]:
    """The options that make a shell as the car had it or not: structural, but neither body nor market."""
    free = {book.roles.get(role) for role in _FREE}
    return tuple(option.id for option in book.options if option.structural and option.id not in free)


class Original:
    """For one book and donor car. While key options are open an option may have several usual choices."""

    __slots__ = ("_book", "_compared", "_donor", "_had", "_keys", "_layout", "_own", "_rows", "_usual")

    def __init__(self, book: Book, donor: Donor, layout: Layout) -> None:
        self._book, self._donor, self._layout = book, donor, layout
        self._keys = key_options(book)
        self._own = _series_of(book, donor)
        self._compared = layout.fields(compared_options(book))
        self._rows: dict[tuple[str, ...], dict[str, str]] = {}
        self._usual: dict[tuple[str | None, ...], dict[str, str]] = {}
        self._had: dict[tuple[str | None, ...], int] = {}

    def usual(self, settled: Mapping[str, str]) -> dict[str, str]:
        """option → its usual choice by the series, market and body as ordered, where those still open don't matter.

        A key option has a usual choice only where the donor car tells it.
        """
        row = tuple(settled.get(key) for key in self._keys)
        if row not in self._usual:
            self._usual[row] = {o: c for o, c in self._agreed(row).items() if o not in self._keys} | self._own
        return self._usual[row]

    def differs(self, settled: Mapping[str, str], alone: int) -> bool:
        """Whether a settled structural choice is one that the donor's series can't have had; `alone`: them as a set.

        With no established donor it is the ordered series; body and market are always the ordered ones.
        """
        row = tuple((self._own.get(key) or settled.get(key)) for key in self._keys)
        if row not in self._had:
            self._had[row] = self._any_of(row)
        return bool(alone & self._compared & ~self._had[row])

    def _agreed(self, row: tuple[str | None, ...]) -> dict[str, str]:
        first, *others = self._specifications(row)
        return {o: c for o, c in first.items() if all(other[o] == c for other in others)}

    def _any_of(self, row: tuple[str | None, ...]) -> int:
        had = 0
        for specification in self._specifications(row):
            had |= self._layout.mask(specification)
        return had

    def _specifications(self, row: tuple[str | None, ...]) -> Iterator[dict[str, str]]:
        made = {key: choice for key, choice in zip(self._keys, row, strict=True) if choice is not None}
        return (self._specification(tuple(keys.values()), keys) for keys in key_rows(self._book, made))

    def _specification(self, row: tuple[str, ...], keys: Mapping[str, str]) -> dict[str, str]:
        if row not in self._rows:
            self._rows[row] = usual_specification(self._book, keys, self._donor)
        return self._rows[row]


def _series_of(book: Book, donor: Donor) -> dict[str, str]:
    """The series option with the donor's series, where there are both."""
    series = book.roles.get(Role.SERIES)
    known = series is not None and any(choice.id == donor.series for choice in book.option(series).choices)
    return {series: donor.series} if series is not None and known and donor.series is not None else {}

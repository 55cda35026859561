"""What has to lie ready before a shell is released: the lines of the book's kit that hold of it."""

from __future__ import annotations

from collections.abc import Mapping

from rules.donor.resolve import domains_of, holds_with
from rules.making import KitLine
from rules.model import Book
from rules.specification import Donor


def kit_of(book: Book, donor: Donor, settled: Mapping[str, str]) -> tuple[KitLine, ...]:
    """In the order of the book. `settled`: option → choice, every option."""
    domains = domains_of(book)
    return tuple(line for line in book.making.kit if holds_with(line.when, book, donor, settled, domains))

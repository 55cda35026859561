"""The list of standard shells for a spreadsheet or a program: one row for each shell on each price list.

Plain CSV as RFC 4180 writes it, without a byte-order mark, a header line first. Ids stand beside labels; amounts are in
major units with a point, their currency beside them; what is not priced is left empty, never 0.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from decimal import Decimal
from io import StringIO

from babel.numbers import get_currency_precision

from rules.donor.identity import write_number
from rules.donor.usual import key_options
from rules.model import Book, Words
from rules.proof import StandardShell
from rules.specification import Donor


def standard_shells_csv(book: Book, shells: tuple[StandardShell, ...], language: str = "en") -> str:
    """The whole table. Header names are ids and don't change with the language; labels do."""
    out = StringIO()
    writer = csv.writer(out)
    writer.writerow(header(book))
    for number, shell in enumerate(shells, start=1):
        writer.writerows([str(number), *row] for row in _rows(book, shell, language))
    return out.getvalue()


def header(book: Book) -> list[str]:
    """The columns: the shell's number, keys and donor car, what it waits for, its price, then every other option."""
    keys = key_options(book)
    named = [column for key in keys for column in (key, f"{key}_label")]
    rest = [option.id for option in book.options if option.id not in keys]
    return [
        *("shell", *named, "donor_number", "donor_gearbox", "needs"),
        *("price_list", "price_list_label", "currency", "price_from"),
        *rest,
    ]


def _rows(book: Book, shell: StandardShell, language: str) -> Iterator[list[str]]:
    keys = [cell for key in key_options(book) for cell in _choice(book, key, shell.keys[key], language)]
    rest = [shell.specification[option.id] for option in book.options if option.id not in shell.keys]
    donor = [_number(book, shell.donor), shell.donor.gearbox or ""]
    lists = {one.id: one for one in book.lists}
    for price in shell.prices:
        listed = lists[price.list]
        amount = "" if price.amount is None else major(price.amount, listed.currency)
        priced = [listed.id, _label(listed.label, language, listed.id), listed.currency, amount]
        yield [*keys, *donor, " ".join(shell.gates), *priced, *rest]


def major(minor: int, currency: str) -> str:
    """Whole minor units as a decimal number of major ones: 1350000 GBP → 13500.00."""
    return f"{Decimal(minor).scaleb(-get_currency_precision(currency)):f}"


def _choice(book: Book, option: str, choice: str, language: str) -> tuple[str, str]:
    return choice, _label(book.option(option).choice(choice).label, language, choice)


def _label(label: Words, language: str, id_: str) -> str:
    return label.get(language) or next(iter(label.values()), id_)


def _number(book: Book, donor: Donor) -> str:
    series = next((one for one in book.series if one.choice == donor.series), None)
    return "" if series is None or donor.number is None else write_number(series, donor.number)

"""The amounts of a book's text, all in one sheet of prices: read out, raised by a percentage, taken in from CSV.

An amount is named by what it prices: `body.coupe` a choice, `doors-allowance` a line, `storage` an extra.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from io import StringIO
from itertools import islice

from rules.drafting.entry import Entry, entry_of, rewritten
from rules.drafting.sheet import Sheet
from rules.money.rounding import half_up
from rules.reading.mistakes import Ledger, listed, offer, sentence, shown
from rules.reading.values import INCLUDED, amount, exponent_of
from rules.writing.layout import amount as written

#: The kinds of block that hold amounts.
PRICED = ("option", "line", "extra")

#: The first two columns of a sheet of prices; what follows are price lists.
NAME, LABEL = "price", "label"


@dataclass(frozen=True, slots=True)
class Priced:
    """One row of amounts as written. `piece`: its block, `row`: its row in the block's table, both from 0.

    `of`: the option's, line's or extra's id; `cells`: price list → what stands in its cell.
    """

    name: str
    of: str
    category: str
    label: str
    piece: int
    row: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with one line of a pasted sheet, counted from 1, and what to write instead."""

    line: int
    what: str
    instead: str


def lists_of(sheet: Sheet) -> dict[str, int]:
    """price list → decimals of its currency; two where the code is unknown."""
    entry = next((entry for entry in _entries(sheet) if entry.kind == "lists"), Entry("lists", ""))
    told = (cells for _, _, cells in entry.told() if {"list", "currency"} <= cells.keys())
    return {cells["list"]: 2 if (known := exponent_of(cells["currency"])) is None else known for cells in told}


def amounts_of(sheet: Sheet) -> tuple[Priced, ...]:
    """Every row of amounts, in the order of the text."""
    lists = tuple(lists_of(sheet))
    return tuple(
        row for piece, entry in enumerate(_entries(sheet)) if entry.kind in PRICED for row in _rows(piece, entry, lists)
    )


def raised(sheet: Sheet, names: Iterable[str], lists: Iterable[str], percent: Decimal, step: Decimal) -> Sheet:
    """The sheet with these amounts raised (lowered, where negative) by `percent`, half up to a multiple of `step`.

    `step` in major units, at least one minor; half up is away from nought. Dashes and empty cells stay.
    """
    wanted, chosen, exponents = frozenset(names), frozenset(lists), lists_of(sheet)
    changes = {
        (priced.piece, priced.row, each): _raised(cell, percent, step, exponents[each])
        for priced in amounts_of(sheet)
        if priced.name in wanted
        for each, cell in priced.cells.items()
        if each in chosen
    }
    return _with_cells(sheet, changes)


def as_csv(sheet: Sheet) -> str:
    """A heading and a line for each row of amounts (RFC 4180), their cells as the book has them."""
    lists, out = tuple(lists_of(sheet)), StringIO()
    writer = csv.writer(out)
    writer.writerow((NAME, LABEL, *lists))
    for priced in amounts_of(sheet):
        writer.writerow((priced.name, priced.label, *(priced.cells.get(each, "") for each in lists)))
    return out.getvalue()


def with_csv(sheet: Sheet, text: str) -> tuple[Sheet, tuple[Fault, ...]]:
    """The sheet with the amounts of a sheet of prices, or unchanged with all that is wrong with that.

    Columns may be apart by comma, semicolon or tab, and lists may be left out: those stay. Rows may be left out, too.
    """
    rows = [(line, [cell.strip() for cell in row]) for line, row in enumerate(_csv_rows(text), start=1) if any(row)]
    if not rows:
        return sheet, (Fault(1, "there is no line in it", f"begin with a line {NAME}, {LABEL}, and the price lists"),)
    head, exponents = rows[0][1], lists_of(sheet)
    if faults := tuple(_head_faults(head, exponents)):
        return sheet, faults
    known, ledger = {priced.name: priced for priced in amounts_of(sheet)}, Ledger("")
    changes: dict[tuple[int, int, str], str] = {}
    for line, row in rows[1:]:
        changes |= _changes(line, dict(zip(head, row, strict=False)), len(row) == len(head), known, exponents, ledger)
    if ledger.found:
        return sheet, tuple(Fault(found.line, found.what, found.instead) for found in sorted(ledger.found))
    return _with_cells(sheet, changes), ()


def _entries(sheet: Sheet) -> Iterator[Entry]:
    return map(entry_of, sheet.pieces)


def _rows(piece: int, entry: Entry, lists: tuple[str, ...]) -> Iterator[Priced]:
    label = next((value for name, value in entry.fields if name.startswith("label ")), entry.name)
    for number, _, cells in entry.told():
        name, said = _named(entry, label, cells)
        amounts = {each: cells[each] for each in lists if each in cells}
        yield Priced(name, entry.name, entry.value("category"), said, piece, number, amounts)


def _named(entry: Entry, label: str, cells: Mapping[str, str]) -> tuple[str, str]:
    if entry.kind != "option":
        return entry.name, label
    return f"{entry.name}.{cells.get('choice', '')}", f"{label}: {next(islice(cells.values(), 1, None), '')}"


def _raised(cell: str, percent: Decimal, step: Decimal, exponent: int) -> str:
    minor = None if not cell or cell in INCLUDED else amount(cell, exponent, 0, Ledger(""))
    if minor is None:
        return cell
    unit = max(step.scaleb(exponent), Decimal(1))
    return written(int(half_up(Decimal(minor) * (100 + percent) / 100 / unit) * unit), exponent)


def _csv_rows(text: str) -> Iterator[list[str]]:
    first = text.lstrip("\ufeff \r\n").split("\n", 1)[0]
    delimiter = max("\t;,", key=first.count)
    return csv.reader(StringIO(text.removeprefix("\ufeff")), delimiter=delimiter)


def _head_faults(head: list[str], lists: Mapping[str, int]) -> Iterator[Fault]:
    if NAME not in head:
        yield Fault(1, f"no column is called “{NAME}”", f"write {NAME}, {LABEL} and the price lists in the first line")
    for column in head:
        if column not in (NAME, LABEL, *lists):
            yield Fault(1, f"there is no price list “{shown(column)}”", f"the price lists are {listed(lists)}")
        elif head.count(column) > 1:
            yield Fault(1, f"the column “{column}” stands twice", "take one of them out")


def _changes(
    line: int, cells: dict[str, str], fits: bool, known: Mapping[str, Priced], exponents: Mapping[str, int],
    ledger: Ledger,
) -> dict[tuple[int, int, str], str]:  # fmt: skip
    name = cells.get(NAME, "")
    if not fits:
        ledger.add(
            line,
            sentence("the line has not as many cells as the first"),
            sentence("write a cell for each column, an empty one too"),
        )
    elif name not in known:
        ledger.add(
            line, sentence("the book prices nothing called “{name}”", name=shown(name)), offer(name, tuple(known))
        )
    else:
        for price_list in cells.keys() & exponents.keys():
            if cells[price_list] and cells[price_list] not in INCLUDED:
                amount(cells[price_list], exponents[price_list], line, ledger)
        at = known[name]
        return {(at.piece, at.row, each): cells[each] for each in cells.keys() & exponents.keys()}
    return {}


def _with_cells(sheet: Sheet, changes: Mapping[tuple[int, int, str], str]) -> Sheet:
    for piece in {piece for piece, _, _ in changes}:
        entry = entry_of(sheet.pieces[piece])
        head = entry.rows[0]
        rows = tuple(
            tuple(changes.get((piece, number, column), cell) for column, cell in zip(head, row, strict=True))
            if number and len(row) == len(head)
            else row
            for number, row in enumerate(entry.rows)
        )
        sheet = sheet.with_lines(piece, rewritten(sheet.pieces[piece], replace(entry, rows=rows)))
    return sheet

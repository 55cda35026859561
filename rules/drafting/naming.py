"""What a book's text declares, with labels, read as far as it can be: what fields of a form are filled from.

Lenient as `rules.reading.names` is: a block with mistakes still declares what it declares.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from rules.drafting.entry import Entry, entry_of
from rules.drafting.sheet import Piece, Sheet
from rules.reading.fields import parts_of
from rules.reading.names import TABLED

#: Fields by which a block is called in a list, the first that it has.
_CALLED = ("label", "title", "reason", "text", "changes")


@dataclass(frozen=True, slots=True)
class Named:
    """`label`: language → text, as far as it is said; `parts`: the choices of an option."""

    id: str
    label: Mapping[str, str]
    parts: tuple[Named, ...] = ()


@dataclass(frozen=True, slots=True)
class Declared:
    """`of`: kind (option, rule, stage, group, category, list …) → what is declared of it, in written order."""

    languages: tuple[str, ...]
    gearboxes: tuple[str, ...]
    roles: Mapping[str, str]
    of: Mapping[str, tuple[Named, ...]]


def declared(sheet: Sheet) -> Declared:
    """Everything that a text declares."""
    entries = [entry_of(piece) for piece in sheet.pieces]
    book = next((entry for entry in entries if entry.kind == "book"), Entry("book", ""))
    languages = tuple(parts_of(book.value("languages")))
    roles = next((dict(entry.fields) for entry in entries if entry.kind == "roles"), {})
    found: dict[str, list[Named]] = {}
    for entry in entries:
        for kind, named in _named(entry, languages):
            found.setdefault(kind, []).append(named)
    gearboxes = tuple(parts_of(book.value("gearboxes")))
    return Declared(languages, gearboxes, roles, {k: tuple(v) for k, v in found.items()})


def called(entry: Entry, languages: Iterable[str]) -> dict[str, str]:
    """language → how a block is called in a list."""
    for name in _CALLED:
        words = {code: entry.value(f"{name} {code}") for code in languages}
        if any(words.values()):
            return {code: text for code, text in words.items() if text}
    return {}


def call(piece: Piece, languages: Iterable[str]) -> tuple[str, str, dict[str, str]]:
    """A piece's kind, name and label."""
    entry = entry_of(piece)
    return entry.kind, entry.name, called(entry, languages)


def _named(entry: Entry, languages: tuple[str, ...]) -> Iterator[tuple[str, Named]]:
    if entry.kind in TABLED:
        yield from ((TABLED[entry.kind], named) for named in _of_table(entry, languages))
    elif entry.name:
        parts = tuple(_of_table(entry, languages)) if entry.kind == "option" else ()
        yield entry.kind, Named(entry.name, called(entry, languages), parts)


def _of_table(entry: Entry, languages: tuple[str, ...]) -> Iterator[Named]:
    for _, id_, cells in entry.told():
        yield Named(id_, {code: cells[code] for code in languages if cells.get(code)})

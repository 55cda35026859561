"""Every text for readers in a book's text, side by side in its languages; a missing one is an empty text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from rules.drafting.entry import Entry, entry_of, rewritten
from rules.drafting.forms import FORMS, Sort
from rules.drafting.naming import declared
from rules.drafting.sheet import Sheet
from rules.reading.phrases import NAMES


@dataclass(frozen=True, slots=True)
class Worded:
    """One text. `piece`: its block; `field`: its field or, in a table, what its columns begin with (label, clause …).

    `row`: of the block's table (1 is the first below the heading), None of a field; `of`: what the row is about.
    `needed` False: all languages may be left out together.
    """

    piece: int
    kind: str
    name: str
    field: str
    row: int | None
    of: str
    texts: Mapping[str, str]
    needed: bool

    @property
    def missing(self) -> bool:
        """Whether a language lacks it."""
        some = any(self.texts.values())
        return not all(self.texts.values()) and (self.needed or some)


def words_of(sheet: Sheet) -> tuple[Worded, ...]:
    """All of them, in the order of the text."""
    languages = declared(sheet).languages
    return tuple(
        worded
        for piece, entry in enumerate(map(entry_of, sheet.pieces))
        if entry.kind in FORMS
        for worded in (*_of_fields(piece, entry, languages), *_of_table(piece, entry, languages))
    )


def with_words(sheet: Sheet, worded: Worded, texts: Mapping[str, str]) -> Sheet:
    """The sheet with these texts in that place; an empty one of a field takes the field out."""
    old = sheet.pieces[worded.piece]
    entry = entry_of(old)
    new = _in_fields(entry, worded, texts) if worded.row is None else _in_table(entry, worded, texts)
    return sheet.with_lines(worded.piece, rewritten(old, new))


def _of_fields(piece: int, entry: Entry, languages: tuple[str, ...]) -> Iterator[Worded]:
    for field in FORMS[entry.kind].fields:
        if field.sort is Sort.WORDS:
            texts = {code: entry.value(f"{field.name} {code}") for code in languages}
            if field.needed or any(texts.values()):
                yield Worded(piece, entry.kind, entry.name, field.name, None, "", texts, field.needed)


def _of_table(piece: int, entry: Entry, languages: tuple[str, ...]) -> Iterator[Worded]:
    for field in ("label", *NAMES):
        columns = {code: _column(field, code) for code in languages}
        for number, id_, cells in entry.told():
            if cells.keys() >= set(columns.values()):
                texts = {code: cells[column] for code, column in columns.items()}
                yield Worded(piece, entry.kind, entry.name, field, number, id_, texts, field == "label")


def _column(field: str, language: str) -> str:
    return language if field == "label" else f"{field} {language}"


def _in_fields(entry: Entry, worded: Worded, texts: Mapping[str, str]) -> Entry:
    said = {f"{worded.field} {code}": text for code, text in texts.items()}
    kept = [(name, said.get(name, value)) for name, value in entry.fields]
    new = [(name, text) for name, text in said.items() if name not in dict(entry.fields)]
    return replace(entry, fields=tuple((name, text) for name, text in (*kept, *new) if text or name not in said))


def _in_table(entry: Entry, worded: Worded, texts: Mapping[str, str]) -> Entry:
    head, rows = entry.rows[0], list(entry.rows)
    cells = list(rows[worded.row or 0])
    for code, text in texts.items():
        cells[head.index(_column(worded.field, code))] = text
    rows[worded.row or 0] = tuple(cells)
    return replace(entry, rows=tuple(rows))

"""One block as an entry: its fields and its table, to be changed field by field and written back into its lines.

A field and a table that were not changed keep their lines to the letter, and so does every comment: it goes on standing
above the field or row that it stood above.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from rules.drafting.sheet import Piece
from rules.reading.blocks import Block, Field, blocks_of
from rules.reading.mistakes import Ledger
from rules.reading.names import declaring
from rules.writing import layout


@dataclass(frozen=True, slots=True)
class Entry:
    """`kind` and `name` of the head line; `fields` in written order; `rows`: the table, its heading row first.

    `whole` False: a line of it is neither field nor row, so that it can only be changed as text.
    """

    kind: str
    name: str
    fields: tuple[tuple[str, str], ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    whole: bool = True

    def value(self, name: str) -> str:
        """A field's value; empty where it has none."""
        return next((value for field, value in self.fields if field == name), "")

    def told(self) -> Iterator[tuple[int, str, dict[str, str]]]:
        """Each row, counted from 1: its id, and column → cell; those that don't fit the heading the reader tells of."""
        head, *rows = self.rows or ((),)
        at = declaring(self.kind, head)
        fits = ((number, row) for number, row in enumerate(rows, start=1) if len(row) == len(head))
        return ((number, row[at], dict(zip(head, row, strict=True))) for number, row in fits)


#: Kept for a few books: of a draft most pieces stay, and one answer looks at each several times.
@lru_cache(maxsize=2_048)
def entry_of(piece: Piece) -> Entry:
    """What a piece says, as far as its layout goes."""
    block = _block(piece)
    fields = tuple((field.name, field.value) for field in block.fields)
    rows = tuple(row.cells for row in block.rows)
    names = [name for name, _ in fields]
    whole = not block.broken and len(names) == len(set(names))
    return Entry(block.kind, " ".join(block.words), fields, rows, whole)


def lines_of(entry: Entry) -> tuple[str, ...]:
    """A new entry as lines, the table last."""
    return tuple(_Written(None, entry).lines())


def rewritten(piece: Piece, entry: Entry) -> tuple[str, ...]:
    """The lines of a piece that now says `entry`."""
    return tuple(_Written(piece, entry).lines())


def _block(piece: Piece) -> Block:
    return blocks_of(piece.text, Ledger(""))[0]


class _Written:
    """Writes one entry, taking over from the piece of before what still holds."""

    def __init__(self, piece: Piece | None, entry: Entry) -> None:
        self._entry = entry
        self._piece = piece
        self._before = None if piece is None else _block(piece)
        self._comments = {} if piece is None else _comments(piece)

    def lines(self) -> Iterator[str]:
        entry, table_after = self._entry, self._table_after()
        head = " ".join(word for word in (entry.kind, entry.name) if word)
        yield self._piece.lines[0] if self._piece is not None and self._piece.words == tuple(head.split()) else head
        for name, value in entry.fields:
            yield from self._field(name, value)
            if name == table_after:
                yield from self._table()
        if table_after is None:
            yield from self._table()
        yield from (comment for comments in self._comments.values() for comment in comments)

    def _table_after(self) -> str | None:
        """The field after which the table stood; None where it stands, or now has to stand, at the end."""
        if self._before is None or not self._before.rows:
            return None
        above = [field.name for field in self._before.fields if field.line < self._before.rows[0].line]
        kept = {name for name, _ in self._entry.fields}
        if len(above) == len(self._before.fields):
            return None
        return next((name for name in reversed(above) if name in kept), None)

    def _field(self, name: str, value: str) -> Iterator[str]:
        yield from self._comments.pop(("field", name), ())
        old = self._old_field(name)
        if old is not None and old.value == value:
            yield from self._old(old.line, len(old.pieces))
        else:
            yield from layout.block("", f"{name}: {value}".rstrip()).split("\n")[1:]

    def _table(self) -> Iterator[str]:
        rows = self._entry.rows
        if not rows:
            return
        same = self._before is not None and tuple(row.cells for row in self._before.rows) == rows
        written = self._old_rows() if same else [f"  {row}" for row in layout.table(rows[0], rows[1:])]
        for row, line in zip(rows, written, strict=True):
            yield from self._comments.pop(("row", row[0]), ())
            yield line

    def _old_field(self, name: str) -> Field | None:
        fields = [] if self._before is None else self._before.fields
        return next((field for field in fields if field.name == name), None)

    def _old(self, line: int, length: int) -> Sequence[str]:
        """Lines of before, by the number of the first; comments among them have a place of their own."""
        assert self._piece is not None
        found = [text for text in self._piece.lines[line - 1 :] if not _is_comment(text)]
        return found[:length]

    def _old_rows(self) -> list[str]:
        assert self._piece is not None
        assert self._before is not None
        return [self._piece.lines[row.line - 1] for row in self._before.rows]


def _is_comment(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#")


def _comments(piece: Piece) -> dict[tuple[str, str], list[str]]:
    """The comments by what they stand above: a field or a row by its name; those at the end under ("end", "")."""
    block = _block(piece)
    anchors: dict[int, tuple[str, str]] = {row.line: ("row", row.cells[0]) for row in block.rows}
    anchors |= {field.line: ("field", field.name) for field in block.fields}
    found: dict[tuple[str, str], list[str]] = {}
    waiting: list[str] = []
    for number, line in enumerate(piece.lines, start=1):
        if _is_comment(line):
            waiting.append(line)
        elif waiting and number in anchors:
            found.setdefault(anchors[number], []).extend(waiting)
            waiting = []
    found.setdefault(("end", ""), []).extend(waiting)
    return found

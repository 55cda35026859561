"""Tables: a heading row, then rows of as many cells. Knows columns, not what they mean."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches

from rules.reading.blocks import Block, Row
from rules.reading.mistakes import Ledger, offer, sentence, shown


@dataclass(frozen=True, slots=True)
class Table:
    """`columns` as the heading row names them; only rows of the right width."""

    columns: tuple[str, ...]
    line: int
    rows: tuple[Row, ...]

    def dicts(self) -> Iterator[tuple[int, dict[str, str]]]:
        """(line, column → cell) of each row."""
        return ((row.line, dict(zip(self.columns, row.cells, strict=True))) for row in self.rows)


def table_of(block: Block, ledger: Ledger, name: str, example: str) -> Table | None:
    """The block's table; None, and a mistake, where it has none or its heading can't be used."""
    if not block.rows:
        ledger.add(
            block.line,
            sentence("{name} has no table", name=name),
            sentence("add rows like “| {example} |”", example=example),
        )
        return None
    head, *rows = block.rows
    if not _usable(head, ledger):
        return None
    return Table(head.cells, head.line, tuple(row for row in rows if _fits(row, head, ledger)))


def known_columns(table: Table, needed: Iterable[str], known: Iterable[str] | None, ledger: Ledger) -> bool:
    """Whether the table has the needed columns; a mistake for each missing and each unknown one (None: any may be)."""
    needed = tuple(needed)
    allowed = (*needed, *(known or ()))
    missing = [column for column in needed if column not in table.columns]
    strange = [column for column in table.columns if column not in allowed] if known is not None else []
    meant = [near for column in strange for near in get_close_matches(column, missing, n=1)]
    for column in strange:
        ledger.add(
            table.line, sentence("the table takes no column “{column}”", column=shown(column)), offer(column, allowed)
        )
    for column in missing:
        if column not in meant:
            ledger.add(
                table.line,
                sentence("the table has no column “{column}”", column=column),
                sentence("add it: the columns are {needed}", needed=", ".join(needed)),
            )
    return not missing


def _usable(head: Row, ledger: Ledger) -> bool:
    doubled = sorted(cell for cell, times in Counter(head.cells).items() if times > 1 and cell)
    if "" in head.cells:
        ledger.add(
            head.line,
            sentence("a column of the table has no name"),
            sentence("name every column in the table's first row"),
        )
    for column in doubled:
        ledger.add(
            head.line,
            sentence("the column “{column}” stands twice in the table", column=shown(column)),
            sentence("take one of them out"),
        )
    return not doubled and "" not in head.cells


def _fits(row: Row, head: Row, ledger: Ledger) -> bool:
    if len(row.cells) == len(head.cells):
        return True
    what = sentence(
        "the row has {count} cells, the table {count_2} columns", count=len(row.cells), count_2=len(head.cells)
    )
    ledger.add(
        row.line,
        what,
        sentence("write a cell for each of: {cells} (an empty one as “|  |”)", cells=", ".join(head.cells)),
    )
    return False

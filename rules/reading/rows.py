"""Tables whose rows each declare an id and say something in every language: what most small tables of a book are."""

from __future__ import annotations

from rules.reading.blocks import Block
from rules.reading.columns import COLUMNS
from rules.reading.desk import Desk
from rules.reading.fields import check_proper, no_placeholder
from rules.reading.mistakes import listed, sentence
from rules.reading.tables import known_columns, table_of

#: A row's line and cells.
Told = tuple[int, dict[str, str]]


def rows_of(block: Block, desk: Desk) -> list[Told]:
    """The rows of a block's table."""
    columns = COLUMNS[block.kind]
    every = (*columns, *desk.languages)
    table = table_of(block, desk.ledger, " ".join((block.kind, *block.words)), " | ".join(every))
    if table is None or not known_columns(table, every, (), desk.ledger):
        return []
    rows = list(table.dicts())
    for line, row in rows:
        check_proper(row[columns[0]], columns[0], line, desk.ledger)
        for language in desk.languages:
            no_placeholder(row[language], language, line, desk.ledger)
    return rows


def told_rows(block: Block, desk: Desk) -> list[Told]:
    """As `rows_of`, each row told in every language."""
    rows = rows_of(block, desk)
    for line, row in rows:
        if missing := [language for language, text in words_of(row, desk).items() if not text]:
            what = sentence("the row says nothing in {missing}", missing=listed(missing))
            desk.ledger.add(line, what, sentence("write it in every language of the book"))
    return rows


def words_of(row: dict[str, str], desk: Desk) -> dict[str, str]:
    """The text of a row in every language."""
    return {language: row[language] for language in desk.languages}


def check_once(named: str, block: Block, first: dict[str, int], desk: Desk) -> None:
    """A mistake where a second block has a table of the same thing. `first`: what blocks are of → the first's line."""
    if first.setdefault(named, block.line) != block.line:
        what = sentence(
            "{kind} of “{named}” stand here a second time, first on line {first}",
            kind=block.kind,
            named=named,
            first=first[named],
        )
        desk.ledger.add(block.line, what, sentence("put both into one table"))

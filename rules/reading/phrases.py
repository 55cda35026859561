"""Phrases: how the choices of an option are said within a sentence. Optional: labels speak where none is written."""

from __future__ import annotations

from collections.abc import Iterable

from rules.model import Words
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import no_placeholder
from rules.reading.mistakes import sentence, shown
from rules.reading.rows import check_once
from rules.reading.tables import Table, known_columns, table_of

NAMES = ("clause", "shell")


def note_phrases(blocks: Iterable[Block], desk: Desk) -> None:
    """Put what the blocks say on the desk: (option, choice) → clause, shell; in every language or none."""
    first: dict[str, int] = {}
    for block in blocks:
        option = "-".join(block.words)
        desk.fields(block, ())
        if desk.names.check_option(option, block.line, desk.ledger):
            check_once(option, block, first, desk)
            _note(option, block, desk)


def _note(option: str, block: Block, desk: Desk) -> None:
    columns = ("choice", *(f"{name} {code}" for name in NAMES for code in desk.languages))
    table = table_of(block, desk.ledger, f"phrases {option}", " | ".join(columns))
    if table is not None and known_columns(table, columns, (), desk.ledger):
        _rows(option, table, desk)


def _rows(option: str, table: Table, desk: Desk) -> None:
    for line, row in table.dicts():
        choice = row["choice"]
        if (option, choice) in desk.phrases:
            desk.ledger.add(
                line,
                sentence("the choice “{choice}” stands here twice", choice=shown(choice)),
                sentence("take one of them out"),
            )
        if desk.names.check_choice(option, choice, line, desk.ledger):
            clause, shell = (_words(name, choice, line, row, desk) for name in NAMES)
            desk.phrases.setdefault((option, choice), (clause, shell))


def _words(name: str, choice: str, line: int, row: dict[str, str], desk: Desk) -> Words:
    words = {code: row[f"{name} {code}"] for code in desk.languages if row[f"{name} {code}"]}
    for code, text in words.items():
        no_placeholder(text, f"{name} {code}", line, desk.ledger)
    if words and len(words) < len(desk.languages):
        what = sentence("the {name} of “{choice}” is not there in every language", name=name, choice=shown(choice))
        desk.ledger.add(line, what, sentence("fill every cell of it, or none"))
    return words

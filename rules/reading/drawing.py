"""Which element of the shell drawing shows which choice. Elements are names: the line art itself is known elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterable

from rules.model import Drawn, Place
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.mistakes import listed, sentence, shown
from rules.reading.tables import known_columns, table_of

COLUMNS = ("option", "choice", "element")
_ELEMENT = re.compile(r"[A-Za-z0-9]+(?:[-/][A-Za-z0-9]+)*", re.ASCII)

#: A row and the line it stands on.
_Row = tuple[Drawn, int]


def read_drawing(blocks: Iterable[Block], desk: Desk) -> tuple[Drawn, ...]:
    """The rows of all the tables, in written order; an option with any row has one for each of its choices."""
    told = [row for block in blocks for row in _rows(block, desk)]
    found = [row for row in told if _is_known(*row, desk)]
    _check_apart(found, desk)
    _check_whole([row for row in found if _is_sound(row, told, found)], desk)
    return tuple(drawn for drawn, _ in found)


def _rows(block: Block, desk: Desk) -> list[_Row]:
    desk.only_table(block)
    table = table_of(block, desk.ledger, "drawing", " | ".join(COLUMNS))
    if table is None or not known_columns(table, COLUMNS, (), desk.ledger):
        return []
    places = ((line, row, Place(desk.ledger.file, line)) for line, row in table.dicts())
    return [(Drawn(row["option"], row["choice"], row["element"], place), line) for line, row, place in places]


def _is_known(drawn: Drawn, line: int, desk: Desk) -> bool:
    if not desk.names.check_option(drawn.option, line, desk.ledger):
        return False
    if not _ELEMENT.fullmatch(drawn.element):
        what = (
            sentence("“{element}” can't name an element", element=shown(drawn.element))
            if drawn.element
            else sentence("the row names no element")
        )
        desk.ledger.add(
            line, what, sentence("write words of letters, digits and hyphens with a stroke between, like body/coupe")
        )
    return desk.names.check_choice(drawn.option, drawn.choice, line, desk.ledger)


def _check_apart(found: list[_Row], desk: Desk) -> None:
    """No choice twice, and no two choices of one option as the same element: they would look alike."""
    lines: dict[tuple[str, str], int] = {}
    looks: dict[tuple[str, str], str] = {}
    for drawn, line in found:
        first = lines.setdefault((drawn.option, drawn.choice), line)
        other = looks.setdefault((drawn.option, drawn.element), drawn.choice)
        if first != line:
            what = sentence(
                "“{choice}” of “{option}” is drawn a second time, first on line {first}",
                choice=drawn.choice,
                option=drawn.option,
                first=first,
            )
            desk.ledger.add(line, what, sentence("take one of the rows out"))
        elif other != drawn.choice and drawn.element:
            what = sentence(
                "“{choice}” of “{option}” would look like “{other}”",
                choice=drawn.choice,
                option=drawn.option,
                other=other,
            )
            desk.ledger.add(line, what, sentence("give it an element of its own"))


def _is_sound(row: _Row, told: list[_Row], found: list[_Row]) -> bool:
    """Whether every row of its option is known: a misspelt choice is one mistake, not a missing one besides."""
    option = row[0].option
    return sum(drawn.option == option for drawn, _ in told) == sum(drawn.option == option for drawn, _ in found)


def _check_whole(found: list[_Row], desk: Desk) -> None:
    """An option is drawn in all its choices or not at all."""
    for option, line in {drawn.option: line for drawn, line in reversed(found)}.items():
        choices = {drawn.choice for drawn, _ in found if drawn.option == option}
        missing = [choice for choice in desk.names.choices.get(option, ()) if choice not in choices]
        if missing:
            what = sentence("“{option}” is drawn, but not as {missing}", option=option, missing=listed(missing))
            desk.ledger.add(line, what, sentence("add a row for each, or take the option out of the drawing"))

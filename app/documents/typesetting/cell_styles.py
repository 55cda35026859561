"""How each cell of a table is padded and placed: cells that are alike share one style.

The library would make a style for each cell and set every command on each of them.
"""

from __future__ import annotations

from collections.abc import Iterable
from copy import copy
from functools import lru_cache
from typing import Any

from reportlab.platypus import Table
from reportlab.platypus.tables import LINECOMMANDS, CellStyle  # type: ignore[attr-defined]

Command = tuple[Any, ...]

#: What is said of the table as a whole; all else is said of each cell by itself.
_OF_TABLES = frozenset(("BACKGROUND", "SPAN", "NOSPLIT", *LINECOMMANDS))


def of_cells(command: Command) -> bool:
    return command[0] not in _OF_TABLES


def styled(*settings: Command) -> CellStyle:
    """The library's style with these settings: commands without a place."""
    made = CellStyle("")
    for setting in settings:
        made = _with(made, setting)
    return made


def cell_styles(rows: int, columns: int, base: CellStyle, commands: Iterable[Command]) -> list[list[CellStyle]]:
    """The style of each cell, row by row, after these commands. It is shared: whoever changes one copies it first."""
    styles = [[base] * columns for _ in range(rows)]
    for name, (left, top), (right, bottom), *values in commands:
        across, setting = _range(left, right, columns), (name, *values)
        for row in styles[_range(top, bottom, rows)]:
            row[across] = [_with(style, setting) for style in row[across]]
    return styles


def _range(first: int, last: int, length: int) -> slice:
    """Both ends included; a negative one counts from the end."""
    start, end = (place + length if place < 0 else place for place in (first, last))
    return slice(start, end + 1)


@lru_cache(maxsize=1024)
def _with(style: CellStyle, setting: Command) -> CellStyle:
    """As the library reads the command, on a table of one cell."""
    made, (name, *values) = copy(style), setting
    Table([[""]], cellStyles=[[made]], style=[(name, (0, 0), (-1, -1), *values)])
    return made

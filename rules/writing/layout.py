"""Blocks, fields, tables and amounts as text. Knows the layout, not what a book contains."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from rules.model import Words

WIDTH = 118


def block(head: str, *fields: str) -> str:
    """A head line and its fields and rows, indented."""
    return "\n".join((head, *(line for each in fields for line in _wrapped(each))))


def _wrapped(said: str) -> list[str]:
    """A field in lines of at most WIDTH, those after the first indented deeper; a row of a table is never broken."""
    if said.startswith("|"):
        return [f"  {said}"]
    lines, line = [], ""
    for word in said.split(" "):
        if line and len(line) + len(word) >= WIDTH and not word.startswith(("|", "#")):
            lines.append(line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    return [f"  {first}" if at == 0 else f"    {first}" for at, first in enumerate((*lines, line))]


def field(name: str, value: str) -> list[str]:
    """The field, or nothing where there is no value."""
    return [f"{name}: {value}"] if value else []


def yes(name: str, said: bool) -> list[str]:
    """`name: yes`, or nothing."""
    return field(name, "yes" if said else "")


def words(name: str, said: Words, languages: Sequence[str]) -> list[str]:
    """A field for each language in which it is said."""
    return [f"{name} {code}: {said[code]}" for code in languages if code in said]


def table(columns: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """A table with its columns set below each other. ValueError where a row has not a cell for each."""
    cells = [[cell.replace("|", "\\|") for cell in row] for row in (columns, *rows)]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    return [f"| {' | '.join(map(str.ljust, row, widths))} |" for row in cells]


def amount(minor: int | None, decimals: int) -> str:
    """Major units, thousands apart: `11 850`, `13 200.50`; nothing where it is not priced."""
    if minor is None:
        return ""
    major = Decimal(minor).scaleb(-decimals)
    return f"{int(major) if major == int(major) else major:,}".replace(",", " ")


def plain(number: Decimal) -> str:
    """A decimal without exponent."""
    return f"{number:f}"

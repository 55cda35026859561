"""Ruled tables as the papers use them, and their few kinds of rule. It knows no words and no figures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Table, TableStyle

from app.documents.fonts import TEXT
from app.documents.lettering import HAIR, HEAVY, RULE, THIN

Cell = Flowable | Sequence[Flowable] | str
Command = tuple[Any, ...]

#: What a cell's two sides take of its width, in points.
CELL_SIDES = 2.4 * mm

#: Tight cells; the paper's face for empty cells too, or an unembedded one slips in, and no height of their own.
_BASE: tuple[Command, ...] = (
    ("FONT", (0, 0), (-1, -1), TEXT, 4, 5),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), CELL_SIDES / 2),
    ("RIGHTPADDING", (0, 0), (-1, -1), CELL_SIDES / 2),
    ("TOPPADDING", (0, 0), (-1, -1), 0.55 * mm),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 0.75 * mm),
)


#: Between two tables beside each other.
_BETWEEN = 2 * mm

#: A row higher than that may be torn where a sheet ends.
_HIGH = 60 * mm


class _Ruled(Table):
    """Its widths are given in points, so it is as high in one place as in another: measured once."""

    def _calc(self, availWidth: float, availHeight: float) -> None:  # noqa: N803 - the library's names
        """The library stops where the room ends: then it is measured again, in case there is more of it."""
        if getattr(self, "_hmax", -1) < self._nrows:  # type: ignore[attr-defined]
            super()._calc(availWidth, availHeight)  # type: ignore[misc]

    def split(self, availWidth: float, availHeight: float) -> list[Flowable]:  # noqa: N803 - the library's names
        """The library tears the first row that doesn't fit: one that is not high goes over whole."""
        self._calc(availWidth, availHeight)
        first: float = self._rowHeights[min(self.repeatRows, self._nrows - 1)]  # type: ignore[attr-defined]
        self.splitInRow = int(first > _HIGH)
        return list(super().split(availWidth, availHeight))


def ruled(rows: Sequence[Sequence[Cell]], widths: Sequence[float], *commands: Command, heads: int = 0) -> Table:
    """A table over the given widths (points); the first `heads` rows are repeated where it breaks.

    A row as high as that of a long note is split too.
    """
    table = _Ruled(
        [[list(cell) if isinstance(cell, tuple) else cell for cell in row] for row in rows],
        colWidths=list(widths),
        repeatRows=heads,
        splitInRow=1,
        hAlign="LEFT",
    )
    table.setStyle(TableStyle([*_BASE, *commands]))
    return table


def abreast(rows: Sequence[Sequence[Cell]], width: float, parts: Sequence[float], *commands: Command) -> Table:
    """The rows, of which there is one at least, in two tables beside each other: their first half left.

    `parts`: how the columns of each share its width.
    """
    half, wide = (len(rows) + 1) // 2, half_of(width)
    tables = [ruled(some, shares(wide, *parts), *commands) for some in (rows[:half], rows[half:]) if some]
    return ruled([tables], [width - wide, wide][: len(tables)], *bare())


def half_of(width: float) -> float:
    """How wide each of two tables beside each other is."""
    return width / 2 - _BETWEEN / 2


def boxed(width: float = THIN) -> Command:
    return ("BOX", (0, 0), (-1, -1), width, RULE)


def under(row: int, width: float = HAIR) -> Command:
    """A rule under one row."""
    return ("LINEBELOW", (0, row), (-1, row), width, RULE)


def over(row: int, width: float = HAIR) -> Command:
    """A rule over one row."""
    return ("LINEABOVE", (0, row), (-1, row), width, RULE)


def between(first: int = 0, width: float = HAIR) -> Command:
    """Hairlines under every row from `first` on but the last."""
    return ("LINEBELOW", (0, first), (-1, -2), width, RULE)


def upright(first: int = 0, last: int = -2, width: float = HAIR) -> Command:
    """Upright rules right of the columns from `first` to `last`."""
    return ("LINEAFTER", (first, 0), (last, -1), width, RULE)


def headed(row: int = 0) -> tuple[Command, ...]:
    """A head row: heavy over, thin under."""
    return over(row, HEAVY), under(row, THIN)


def padded(room: float) -> tuple[Command, ...]:
    """The same room on all four sides of every cell."""
    sides = ("LEFTPADDING", "RIGHTPADDING", "TOPPADDING", "BOTTOMPADDING")
    return tuple((side, (0, 0), (-1, -1), room) for side in sides)


def bare() -> tuple[Command, ...]:
    """No padding at all: for a table that only places things."""
    return padded(0)


def shares(width: float, *parts: float) -> list[float]:
    """A width divided in proportion to the parts."""
    whole = sum(parts)
    return [width * part / whole for part in parts]


def dense() -> tuple[Command, ...]:
    """Less air over and under, for rows of figures."""
    return ("TOPPADDING", (0, 0), (-1, -1), 0.2 * mm), ("BOTTOMPADDING", (0, 0), (-1, -1), 0.5 * mm)

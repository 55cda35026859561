"""Ruled tables as the papers use them, and their few kinds of rule. It knows no words and no figures."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from typing import Any

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Table, TableStyle
from reportlab.platypus.tables import CellStyle

from app.documents.typesetting.cell_styles import Command as Command
from app.documents.typesetting.cell_styles import cell_styles, of_cells, styled
from app.documents.typesetting.fonts import TEXT
from app.documents.typesetting.lettering import HAIR, HEAVY, RULE, THIN
from app.documents.typesetting.row_heights import row_heights

Cell = Flowable | Sequence[Flowable] | str
Point = tuple[float, float]

#: What a cell's two sides take of its width, in points.
CELL_SIDES = 2.4 * mm

#: Tight cells; the paper's face for empty cells too, or an unembedded one slips in, and no height of their own.
_CELL = styled(
    ("FONT", TEXT, 4, 5),
    ("VALIGN", "TOP"),
    ("LEFTPADDING", CELL_SIDES / 2),
    ("RIGHTPADDING", CELL_SIDES / 2),
    ("TOPPADDING", 0.55 * mm),
    ("BOTTOMPADDING", 0.75 * mm),
)


#: Between two tables beside each other.
_BETWEEN = 2 * mm

#: A row higher than that may be torn where a sheet ends.
_HIGH = 60 * mm


class _Ruled(Table):
    """Its widths and heights are given in points, so it is as large in one place as in another: laid once."""

    _size: tuple[float, float] | None = None

    def wrap(self, availWidth: float, availHeight: float) -> tuple[float, float]:  # noqa: N803 - the library's names
        self._size = self._size or super().wrap(availWidth, availHeight)
        return self._size

    def _drawCell(self, cell: Any, style: CellStyle, at: Point, size: Point) -> None:  # noqa: N802 - the library's name
        """As the library does, at less cost, where things stand one below the other at the left: nearly everywhere.

        In an empty cell there is nothing to draw.
        """
        if isinstance(cell, str) or (style.valign, style.alignment) != ("TOP", "LEFT"):
            if cell:
                super()._drawCell(cell, style, at, size)  # type: ignore[misc]
            return
        x, y = at[0] + style.leftPadding, at[1] + size[1] - style.topPadding
        room = size[0] - style.leftPadding - style.rightPadding
        above: Flowable | None = None
        for flowable in cell:
            if above:
                y = y - above.getSpaceAfter() - flowable.getSpaceBefore()
            y -= flowable.wrap(room, size[1])[1]
            flowable.drawOn(self.canv, x, y)
            above = flowable

    def split(self, availWidth: float, availHeight: float) -> list[Flowable]:  # noqa: N803 - the library's names
        """The library tears the first row that doesn't fit: one that is not high goes over whole."""
        first: float = self._rowHeights[min(self.repeatRows, self._nrows - 1)]  # type: ignore[attr-defined]
        self.splitInRow = int(first > _HIGH)
        if self.splitInRow:
            # Where the library tears a row it changes the styles of its cells.
            self._cellStyles = [[copy(style) for style in row] for row in self._cellStyles]  # type: ignore[has-type]
        return list(super().split(availWidth, availHeight))


def ruled(rows: Sequence[Sequence[Cell]], widths: Sequence[float], *commands: Command, heads: int = 0) -> Table:
    """A table over the given widths (points); the first `heads` rows are repeated where it breaks.

    A row as high as that of a long note is split too.
    """
    cells = [[_listed(cell) for cell in row] for row in rows]
    styles = cell_styles(len(rows), len(widths), _CELL, filter(of_cells, commands))
    return _Ruled(
        cells,
        colWidths=list(widths),
        rowHeights=row_heights(cells, widths, styles, commands),
        style=TableStyle([command for command in commands if not of_cells(command)]),
        cellStyles=styles,
        normalizedData=1,
        repeatRows=heads,
        splitInRow=1,
        hAlign="LEFT",
    )


def _listed(cell: Cell) -> list[Flowable] | str:
    return cell if isinstance(cell, str) else [cell] if isinstance(cell, Flowable) else list(cell)


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

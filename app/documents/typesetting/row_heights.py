"""How high each row of a table is, found before there is a table: the library takes several times as long for it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from reportlab.platypus import Flowable
from reportlab.platypus.tables import CellStyle

from app.documents.typesetting.cell_styles import Command

#: More than any sheet, in points.
_ENDLESS = 72_000


def row_heights(
    rows: Sequence[Sequence[Sequence[Flowable] | str]],
    widths: Sequence[float],
    styles: Sequence[Sequence[CellStyle]],
    commands: Iterable[Command],
) -> list[float]:
    """Each as high as its highest cell, in points. Cells of one row may be joined; of several rows they may not."""
    joined = _joined(widths, len(rows), commands)
    return [
        max(
            _height(cell, joined.get((place, column), width), style)
            for column, (cell, width, style) in enumerate(zip(row, widths, of_row, strict=True))
        )
        for place, (row, of_row) in enumerate(zip(rows, styles, strict=True))
    ]


def _joined(widths: Sequence[float], rows: int, commands: Iterable[Command]) -> Mapping[tuple[int, int], float]:
    """Row and column of each cell that takes the room of those right of it → how wide it is."""
    found = {}
    for name, (left, top), (right, bottom), *_ in commands:
        if name == "SPAN":
            assert top == bottom, "cells of several rows are not joined"
            found[top % rows, left] = sum(widths[left : right % len(widths) + 1])
    return found


def _height(cell: Sequence[Flowable] | str, width: float, style: CellStyle) -> float:
    if isinstance(cell, str):
        return style.leading * len(cell.split("\n")) + (style.bottomPadding + style.topPadding)
    return _stacked(cell, width - style.leftPadding - style.rightPadding) + (style.bottomPadding + style.topPadding)


def _stacked(flowables: Sequence[Flowable], width: float) -> float:
    """One below the other, without the room before the first and after the last."""
    height, above = 0.0, None
    for flowable in flowables:
        if above:
            height += above.getSpaceAfter() + flowable.getSpaceBefore()
        height += flowable.wrap(width, _ENDLESS)[1]
        above = flowable
    return height

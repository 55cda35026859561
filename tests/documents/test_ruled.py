"""Where a ruled table breaks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Table

from app.documents import fonts
from app.documents.lettering import text
from app.documents.ruled import ruled

WIDTH = 100 * mm


@pytest.fixture(autouse=True)
def lettered() -> Path:
    fonts.register()
    return fonts.FOLDER


def table(*rows: int) -> Table:
    """Each row of so many lines, of about 4 mm."""
    made = ruled([[tuple(text(f"line {line}") for line in range(lines))] for lines in rows], [WIDTH])
    made.wrap(WIDTH, 1000 * mm)
    return made


def cells_of(part: Flowable) -> list[list[Any]]:
    assert isinstance(part, Table)
    return list(part._cellvalues)  # type: ignore[attr-defined]


def rows_of(part: Flowable) -> int:
    return len(cells_of(part))


def test_a_row_that_somebody_ticks_and_signs_is_never_torn_by_the_end_of_a_sheet() -> None:
    first, rest = table(3, 3).split(WIDTH, 22 * mm)
    assert (rows_of(first), rows_of(rest)) == (1, 1)
    assert rest.split(WIDTH, 8 * mm) == []


def test_a_row_that_fills_half_a_sheet_is_torn_and_loses_no_line() -> None:
    first, rest = table(30).split(WIDTH, 60 * mm)
    lines = [line.words for part in (first, rest) for line in cells_of(part)[0][0]]
    assert lines == [f"line {line}" for line in range(30)]

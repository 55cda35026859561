"""How a ruled table is drawn, and where it breaks."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, Spacer, Table

from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import BODY, HEADING, RIGHT, SMALL, STRONG, TINT, caption, marked, text
from app.documents.typesetting.ruled import CELL_SIDES, bare, between, boxed, dense, headed, ruled, under, upright

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


def many_kinds() -> list[list[Any]]:
    """Of each kind of cell one: empty, one line, lines and a heading, a long text, a table, markup."""
    long = "A text that goes over several lines in a column as narrow as this one is. " * 2
    inner = ruled([[text("left"), text("right", RIGHT)]], [15 * mm, 10 * mm], *bare(), boxed())
    return [
        [caption("one"), caption("two"), caption("three")],
        [text("joined, and wider than the first of them is", STRONG), "", ""],
        [text("one line"), "", text("£1,234.00", RIGHT)],
        [(text("first", HEADING), text("second", BODY), text("third", SMALL)), Spacer(4 * mm, 9 * mm), inner],
        [text(long), marked(f"<b>Bold.</b> {long}", SMALL), ""],
    ]


COMMANDS = (
    *headed(), *dense(), between(1), upright(), under(-1), ("BACKGROUND", (0, 1), (-1, 1), TINT),
    ("SPAN", (0, 1), (-1, 1)), ("VALIGN", (1, 2), (1, -1), "MIDDLE"), ("ALIGN", (1, 3), (1, 3), "CENTER"),
    ("TOPPADDING", (0, -1), (-1, -1), 3 * mm), ("LEFTPADDING", (2, 0), (2, -1), 4 * mm),
)  # fmt: skip
WIDTHS = [30 * mm, 38 * mm, 32 * mm]


def as_the_library_draws_it() -> Table:
    base = (
        ("FONT", (0, 0), (-1, -1), fonts.TEXT, 4, 5), ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), CELL_SIDES / 2), ("RIGHTPADDING", (0, 0), (-1, -1), CELL_SIDES / 2),
        ("TOPPADDING", (0, 0), (-1, -1), 0.55 * mm), ("BOTTOMPADDING", (0, 0), (-1, -1), 0.75 * mm),
    )  # fmt: skip
    rows = [[list(cell) if isinstance(cell, tuple) else cell for cell in row] for row in many_kinds()]
    return Table(rows, colWidths=WIDTHS, style=[*base, *COMMANDS], hAlign="LEFT")


def drawn(table: Table) -> tuple[bytes, str]:
    """How it looks, and its words in the order in which they are read."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(120 * mm, 120 * mm))
    _, height = table.wrapOn(canvas, WIDTH, 500 * mm)
    table.drawOn(canvas, 10 * mm, 110 * mm - height)
    canvas.save()
    page = pypdfium2.PdfDocument(out.getvalue())[0]
    return page.render(scale=3).to_pil().tobytes(), page.get_textpage().get_text_range()


def test_a_table_looks_as_the_library_would_draw_it() -> None:
    # Outside: reportlab's own table, its rows measured, its cells styled and drawn by itself; looked at by PDFium.
    ours, theirs = drawn(ruled(many_kinds(), WIDTHS, *COMMANDS)), drawn(as_the_library_draws_it())
    assert ours[1] == theirs[1]
    assert ours[0] == theirs[0]


def test_a_table_whose_row_is_torn_moves_nothing_in_another() -> None:
    middle = ("VALIGN", (0, 0), (-1, -1), "MIDDLE")

    def other() -> Table:
        return ruled([[text("one"), tuple(text(f"line {line}") for line in range(5))]], [WIDTH / 2, WIDTH / 2], middle)

    before = drawn(other())
    high = ruled([[tuple(text(f"line {line}") for line in range(30))]], [WIDTH], middle)
    assert len(high.split(WIDTH, 60 * mm)) == 2
    assert drawn(other()) == before

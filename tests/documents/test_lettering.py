"""A line of text, against the library's own."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO

import pytest
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import set_line

LINES = ("Plain (words) with a \\ in them", "£1,234.00 – 12 %", "Kotflügel · Türen", "Ελληνικά, кириллица", "", " ")


@pytest.fixture(autouse=True, scope="module")
def lettered() -> None:
    fonts.register()


def written(draw: Callable[[Canvas, str, float, str], None], text: str, bold: str) -> bytes:
    out = BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=0)
    for place, words in enumerate(LINES):
        draw(canvas, words, 700 - 10.3 * place, bold if place % 2 else text)
    canvas.save()
    return out.getvalue()


def by_the_library(canvas: Canvas, words: str, y: float, face: str) -> None:
    canvas.setFont(face, 8.2)
    canvas.drawString(40.123456, y, words)


def by_us(canvas: Canvas, words: str, y: float, face: str) -> None:
    set_line(canvas, words, 40.123456, y, face, 8.2)


def test_a_line_is_written_to_the_byte_as_the_library_writes_it() -> None:
    # Outside: reportlab's `drawString`, and its own face.
    for face in (fonts.TEXT, fonts.BOLD):
        pdfmetrics.registerFont(TTFont(f"Own-{face}", str(fonts.FOLDER / fonts.FILES[face])))
    theirs = written(by_the_library, f"Own-{fonts.TEXT}", f"Own-{fonts.BOLD}")
    assert written(by_us, fonts.TEXT, fonts.BOLD) == theirs

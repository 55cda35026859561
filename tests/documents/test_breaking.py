"""Lines of plain words, against those of reportlab's own paragraph."""

from __future__ import annotations

from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Paragraph

from app.documents.typesetting import fonts
from app.documents.typesetting.breaking import PlainParagraph
from app.documents.typesetting.lettering import BODY, FINE, STRONG, text

WORDS = st.lists(st.text("aeimnWÄß£-.,", min_size=1, max_size=14), min_size=1, max_size=40)


@pytest.fixture(autouse=True, scope="module")
def lettered() -> None:
    fonts.register()


@settings(max_examples=60, deadline=None)
@given(WORDS, st.floats(20, 400), st.sampled_from([BODY, STRONG, FINE]))
def test_words_are_broken_where_the_library_breaks_them(words: list[str], width: float, look: ParagraphStyle) -> None:
    # Outside: reportlab's Paragraph, which breaks what it reads as markup; a word too long for any line among them.
    theirs, ours = Paragraph(" ".join(words), look), _plain(" ".join(words), look)
    assert ours.wrap(width, 1000) == theirs.wrap(width, 1000)
    assert ours.blPara.lines == theirs.blPara.lines  # type: ignore[attr-defined]


def _plain(words: str, look: ParagraphStyle) -> PlainParagraph:
    return PlainParagraph("", look, frags=[Paragraph("x", look).frags[0].clone(text=words)])  # type: ignore


def test_a_paragraph_that_was_torn_loses_no_word_and_can_be_laid_whole_again() -> None:
    words = " ".join(f"word{number}" for number in range(60))
    made = text(words, BODY)
    whole = made.wrap(120, 1000)
    torn = made.split(120, 40)
    assert " ".join(_words(part) for part in torn) == words
    assert made.wrap(120, 1000) == whole


def test_a_paragraph_that_would_not_be_torn_can_be_drawn_whole() -> None:
    made, canvas = text("word " * 60, BODY), Canvas(BytesIO())
    assert made.split(120, 8) == []
    made.wrapOn(canvas, 120, 1000)
    made.drawOn(canvas, 0, 0)
    canvas.save()


def _words(part: object) -> str:
    return " ".join(" ".join(piece.words) for piece in part.frags)  # type: ignore[attr-defined]

"""Ink, text styles and safe markup: how every paper of the firm is lettered."""

from __future__ import annotations

from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.enums import TA_CENTER, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import Paragraph

from app.documents.fonts import BOLD, TEXT, printable

INK = HexColor("#14202E")
RULE = HexColor("#14202E")
FAINT = HexColor("#8A94A0")
TINT = HexColor("#EEF1F4")
STAMP = HexColor("#8C1D12")
WHITE = Color(1, 1, 1)

HAIR, THIN, HEAVY = 0.35, 0.6, 1.4


def style(name: str, size: float = 9, lead: float | None = None, **rest: Any) -> ParagraphStyle:
    """A paragraph style in the paper's face and ink."""
    plain: dict[str, Any] = {
        "fontName": TEXT,
        "fontSize": size,
        "leading": lead or round(size * 1.28, 2),
        "textColor": INK,
        "allowWidows": 0,
        "allowOrphans": 0,
        "splitLongWords": 1,
    }
    return ParagraphStyle(name, **(plain | rest))


BODY = style("body", spaceAfter=1.2 * mm)
CELL = style("cell")
SMALL = style("small", 7.6)
ROW = style("row", 8.2, 9.8)
ROW_STRONG = style("row-strong", 8.2, 9.8, fontName=BOLD)
REASON = style("reason", 7.2, 8.6)
FINE = style("fine", 6.8, textColor=HexColor("#46525F"))
STRONG = style("strong", fontName=BOLD)
RIGHT = style("right", alignment=TA_RIGHT)
RIGHT_STRONG = style("right-strong", alignment=TA_RIGHT, fontName=BOLD)
RIGHT_SMALL = style("right-small", 7.6, alignment=TA_RIGHT)
CENTRE = style("centre", alignment=TA_CENTER)
CAPTION = style("caption", 6.6, fontName=BOLD, textColor=HexColor("#46525F"))
CAPTION_RIGHT = style("caption-right", 6.6, fontName=BOLD, textColor=HexColor("#46525F"), alignment=TA_RIGHT)
HEADING = style("heading", 11, fontName=BOLD, spaceBefore=4 * mm, spaceAfter=1.6 * mm, keepWithNext=1)
OPENING = style("opening", 11, fontName=BOLD, spaceBefore=4 * mm, spaceAfter=1.6 * mm)
OPENING_SMALL = style("opening-small", 9, fontName=BOLD, spaceBefore=2.4 * mm, spaceAfter=0.8 * mm)
SUBHEADING = style("subheading", 9, fontName=BOLD, spaceBefore=2.4 * mm, spaceAfter=0.8 * mm, keepWithNext=1)
ANSWER = style("answer", 13, fontName=BOLD)
ANSWER_SMALL = style("answer-small", 9.6, fontName=BOLD)
SUM = style("sum", 15, fontName=BOLD, alignment=TA_RIGHT)
SERIES = style("series", 26, 27, fontName=BOLD)


def safe(text: str) -> str:
    """Text of any origin as paragraph markup: escaped, line ends kept."""
    return escape(printable(text)).replace("\n", "<br/>")


def strong(text: str) -> str:
    """The same in bold."""
    return f"<b>{safe(text)}</b>"


def text(words: str, look: ParagraphStyle = CELL) -> Paragraph:
    """A paragraph of plain text."""
    return Paragraph(safe(words), look)


def caption(words: str, look: ParagraphStyle = CAPTION) -> Paragraph:
    """A small capital caption, as over the fields of a title block."""
    return Paragraph(safe(words.upper()), look)

"""Ink, text styles and safe markup: how every paper of the firm is lettered."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache, cached_property, lru_cache
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.enums import TA_CENTER, TA_RIGHT
from reportlab.lib.rl_accel import escapePDF, fp_str
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import getFont, stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, Paragraph

from app.documents.typesetting.breaking import Measured, PlainParagraph, word_width
from app.documents.typesetting.fonts import BOLD, TEXT, printable

INK = RULE = HexColor("#14202E")
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
HEADING = style("heading", 11, fontName=BOLD, spaceBefore=3.2 * mm, spaceAfter=1.4 * mm, keepWithNext=1)
OPENING = style("opening", 11, fontName=BOLD, spaceBefore=4 * mm, spaceAfter=1.6 * mm)
OPENING_SMALL = style("opening-small", 9, fontName=BOLD, spaceBefore=2.4 * mm, spaceAfter=0.8 * mm)
SUBHEADING = style("subheading", 9, fontName=BOLD, spaceBefore=1.6 * mm, spaceAfter=0.2 * mm, keepWithNext=1)
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


#: Words in which no markup can be and no room to be tidied up.
_SIMPLE = re.compile(r"[^\s&<>]+(?: [^\s&<>]+)*")


@cache
def _plain(look: ParagraphStyle) -> Any:
    """A piece of plain text as the library reads it out of markup."""
    return Paragraph("x", look).frags[0]


class Lettered(Flowable):
    """Plain words in one style: set at once where one line holds them, else as a paragraph, which takes far longer."""

    def __init__(self, words: str, look: ParagraphStyle) -> None:
        super().__init__()
        self.look = self.style = look
        self.words, self._natural = measured(words, look.fontName, look.fontSize)
        self._lines = "\n" in self.words
        self._long: Paragraph | None = None

    def getSpaceBefore(self) -> float:  # noqa: N802 - the library's name
        return float(self.look.spaceBefore)

    def getSpaceAfter(self) -> float:  # noqa: N802 - the library's name
        return float(self.look.spaceAfter)

    def minWidth(self) -> float:  # noqa: N802 - the library's name
        return 0

    @cached_property
    def _paragraph(self) -> Paragraph:
        """Words with one space between them are taken as they are; what else there may be is read as markup."""
        if _SIMPLE.fullmatch(self.words):
            return PlainParagraph("", self.look, frags=[_plain(self.look).clone(text=self.words)])
        return Measured(safe(self.words), self.look)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self._long = None if self._natural <= width and not self._lines else self._paragraph
        self.width, self.height = self._long.wrap(width, height) if self._long else (width, self.look.leading)
        return self.width, self.height

    def split(self, width: float, height: float) -> list[Flowable]:
        self.wrap(width, height)
        return list(self._long.split(width, height)) if self._long else []

    def drawOn(self, canvas: Canvas, x: float, y: float, _sW: float = 0) -> None:  # noqa: N802, N803 - the library's names
        """One line is set where it stands: to save and move the canvas for it would take as long."""
        if self._long or type(self) is not Lettered:
            return super().drawOn(canvas, x, y, _sW)  # type: ignore[call-arg]
        return self._set_line(canvas, x, y)

    def draw(self) -> None:
        if self._long:
            self._long.canv = self.canv
            return self._long.draw()
        return self._set_line(self.canv, 0, 0)

    def _set_line(self, canvas: Canvas, x: float, y: float) -> None:
        look = self.look
        spare = (self.width - self._natural) * _SHARES.get(look.alignment, 0.0)
        canvas.setFillColor(look.textColor)
        set_line(canvas, self.words, x + spare, y + self.height - look.fontSize, look.fontName, look.fontSize)


#: The share of the room beside a line that goes before it.
_SHARES: Mapping[object, float] = {TA_RIGHT: 1.0, TA_CENTER: 0.5}


@lru_cache(maxsize=4096)
def measured(words: str, font: str, size: float) -> tuple[str, float]:
    """Words as they can be set, and how wide they are on one line, in points.

    Kept: most words of a paper are the book's and the firm's, and on the next paper, too.
    """
    shown = printable(words)
    return shown, stringWidth(shown, font, size)


def set_line(canvas: Canvas, words: str, x: float, y: float, font: str, size: float) -> None:
    """One line in the ink that the canvas has: to the byte what its `drawString` writes, at half the cost."""
    face, document = getFont(font), canvas._doc  # type: ignore[attr-defined]
    pieces = " ".join(
        f"{face.getSubsetInternalName(subset, document)} {_lettering(size)} ({escapePDF(piece)}) Tj"  # type: ignore[attr-defined]
        for subset, piece in face.splitString(words, document)  # type: ignore[attr-defined]
    )
    canvas.addLiteral(f"BT 1 0 0 1 {fp_str(x, y)} Tm {pieces} T* ET")


@lru_cache(maxsize=256)
def _lettering(size: float) -> str:
    """Size and leading as the format writes them."""
    return f"{fp_str(size)} Tf {fp_str(size * 1.2)} TL"


def text(words: str, look: ParagraphStyle = CELL) -> Flowable:
    """Plain text of any origin in one style."""
    return Lettered(words, look)


def marked(markup: str, look: ParagraphStyle = CELL) -> Flowable:
    """What `safe` and `strong` have made of text, put together."""
    return Measured("", look, frags=[piece.clone() for piece in _pieces(markup, look)])


@lru_cache(maxsize=1024)
def _pieces(markup: str, look: ParagraphStyle) -> list[Any]:
    """As the library reads them. Kept: what is marked up is mostly the book's, and on the next paper, too."""
    return list(Paragraph(markup, look).frags)  # type: ignore[attr-defined]


def whole_words(words: str, look: ParagraphStyle, width: float) -> Flowable:
    """The same, lettered smaller where its longest word would be broken in a column of that width (points)."""
    widest = max((word_width(word, look.fontName, look.fontSize) for word in printable(words).split()), default=0)
    return text(words, look if widest <= width else _smaller(look, width / widest))


@cache
def _smaller(look: ParagraphStyle, share: float) -> ParagraphStyle:
    return ParagraphStyle(f"{look.name}-smaller", look, fontSize=look.fontSize * share)


class Headed(Lettered):
    """A heading that a reader also finds in the document's outline; its canvas is one of `stationery`."""

    def draw(self) -> None:
        super().draw()
        self.canv.note_heading(  # type: ignore[attr-defined]
            " ".join(self.words.split()), self.height
        )


def heading(words: str) -> Flowable:
    """The heading of a part of page one or of the last; it stays with what follows."""
    return Headed(words, HEADING)


def opening(words: str) -> Flowable:
    """The heading of a part that fills a sheet or more."""
    return Headed(words, OPENING)


def caption(words: str, look: ParagraphStyle = CAPTION) -> Flowable:
    """A small capital caption, as over the fields of a title block."""
    return Lettered(words.upper(), look)

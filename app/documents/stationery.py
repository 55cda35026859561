"""The firm's sheet, common to all its papers: border, centring marks, title block, page x of y, DRAFT across a draft.

It knows nothing of any one paper: a paper hands it a title block and a story, and gets bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from copy import copy
from dataclasses import dataclass
from functools import partial
from io import BytesIO
from math import hypot
from typing import Any

from reportlab import rl_config
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    KeepTogether,
    PageTemplate,
)

from app.documents.contents import Sheet
from app.documents.fonts import BOLD, TEXT, printable
from app.documents.lettering import FAINT, HEAVY, INK, RULE, THIN

SIZES = {Sheet.A4: A4, Sheet.LETTER: LETTER}

#: Margins of the drawn border; the binding edge is wider, as on a drawing sheet.
BINDING, EDGE = 20 * mm, 10 * mm
BLOCK = 12.5 * mm
PAD = 5 * mm


#: Bytes as bytes, not as letters: a quarter smaller, and sooner written.
rl_config.useA85 = 0


@dataclass(frozen=True, slots=True)
class Field:
    """One field of the title block: a small caption over its value; `share` of the width."""

    caption: str
    value: str
    share: float
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Stationery:
    """What is on every sheet of one paper. `pages` is a template with {page} and {pages}; `across` lies behind it.

    `size`: width and height of the sheet, in points.
    """

    size: tuple[float, float]
    title: str
    author: str
    subject: str
    language: str
    fields: tuple[Field, ...]
    page_caption: str
    pages: str
    across: str = ""


def firm_sheets(
    say: Callable[..., str],
    locale: str,
    size: tuple[float, float],
    firm: str,
    title: str,
    *fields: Field,
    subject: str = "",
    across: str = "",
) -> Stationery:
    """With the words that are on every sheet of the firm's, as `say` says them. `subject`: where it isn't the title."""
    return Stationery(
        size=size,
        title=title,
        author=firm,
        subject=subject or title,
        language=locale.replace("_", "-"),
        fields=fields,
        page_caption=say("block.sheet"),
        pages=say("block.pages", page="{page}", pages="{pages}"),
        across=across,
    )


def inner(size: tuple[float, float]) -> tuple[float, float]:
    """Width and height that a story may fill on a sheet of that size, in points."""
    width, height = size
    return width - BINDING - EDGE - 2 * PAD, height - 2 * EDGE - BLOCK - 1.7 * PAD


def inner_width(sheet: Sheet) -> float:
    """The width that a story may fill, in points."""
    return inner(SIZES[sheet])[0]


def fits_one_sheet(story: list[Flowable], sheet: Sheet) -> bool:
    """Whether one sheet holds the whole story."""
    height = sum(_height(flowable, inner_width(sheet)) for flowable in story)
    return height <= SIZES[sheet][1] - 2 * EDGE - BLOCK - 1.6 * PAD


def _height(flowable: Flowable, width: float) -> float:
    """With the room before and after, of which neighbours share some: a little more than it takes."""
    if isinstance(flowable, KeepTogether):
        parts: list[Flowable] = flowable._content  # type: ignore[attr-defined]
        return sum((_height(part, width) for part in parts), 0.0)
    if isinstance(flowable, CondPageBreak):
        return 0
    return float(flowable.wrap(width, 10_000)[1] + flowable.getSpaceBefore() + flowable.getSpaceAfter())


@dataclass(frozen=True, slots=True)
class Arranged:
    """A story, the number of sheets that it fills, and how much of the last one, 0 to 1."""

    story: list[Flowable]
    sheets: int
    last: float

    @property
    def thin(self) -> bool:
        """Whether the last sheet holds little more than a few lines."""
        return self.sheets > 1 and self.last < _THIN


#: Under two fifths a sheet looks left over.
_THIN = 0.4


def print_best(look: Stationery, stories: Iterable[list[Flowable]]) -> bytes:
    """The story that comes out best: one is printed, others are only laid out. They may share their parts."""
    return print_sheets(look, best(arranged(look, story) for story in stories).story)


def best(tried: Iterator[Arranged]) -> Arranged:
    """The first, unless it ends on a thin sheet: then of all the one with the fewest sheets, and none of them thin."""
    first = next(tried)
    return min((first, *tried), key=lambda one: (one.sheets, one.thin)) if first.thin else first


def arranged(look: Stationery, story: list[Flowable]) -> Arranged:
    """How the story comes out; nothing of it is drawn, and it can be printed afterwards."""
    document = _document(look, BytesIO(), PageTemplate("sheet", [_room(look, _Rehearsed)]))
    document.rehearse(story[:])
    return Arranged(story, document.sheets, document.filled)


def print_sheets(look: Stationery, story: list[Flowable]) -> bytes:
    """The story on the firm's sheets; the same story gives the same bytes."""
    out = BytesIO()
    _document(look, out, _template(look)).build(story, canvasmaker=partial(_Counted, look))
    return out.getvalue()


def _document(look: Stationery, out: BytesIO, template: PageTemplate) -> _Document:
    return _Document(
        out,
        pagesize=look.size,
        title=_stated(look.title),
        author=_stated(look.author),
        subject=_stated(look.subject),
        creator=_stated(look.author),
        lang=look.language,
        invariant=1,
        initialFontName=TEXT,
        pageTemplates=[template],
    )


class _Document(BaseDocTemplate):
    """Notes after each thing that it lays on which sheet it is, and how much of that is filled."""

    sheets, filled = 0, 0.0

    def rehearse(self, story: list[Flowable]) -> None:
        """Lays the story out and writes nothing. What that leaves on its parts is taken off: they are laid again."""
        marks: list[tuple[Any, ...]] = []
        self._doSave, self._multiBuildEdits = 0, marks.append
        self.build(story)
        for put_back, *what in marks:
            put_back(*what)

    def afterFlowable(self, flowable: Flowable) -> None:  # noqa: N802 - the library's name
        frame: Any = getattr(self, "frame", None)
        # Behind a page break there is none until something is laid on the next sheet.
        if frame is not None:
            self.sheets, self.filled = self.page, 1 - (frame._y - frame._y1p) / frame._aH


class _Room(Frame):
    """The room of a sheet. What is kept together is measured against a copy of it, and a frame holds no parts."""

    def __deepcopy__(self, memo: object) -> _Room:
        return copy(self)


class _Rehearsed(_Room):
    """Room in which things are laid and none is drawn."""

    def add(self, flowable: Any, canv: Canvas, trySplit: int = 0) -> Any:  # noqa: N803 - the library's name
        flowable.drawOn = _undrawn
        try:
            return super().add(flowable, canv, trySplit)
        finally:
            del flowable.drawOn


def _undrawn(*_: object, **__: object) -> None:
    """In place of drawing."""


def _stated(words: str) -> str:
    """Words as the file's own particulars can hold them: any letter at all, but no half of one."""
    return words.encode("utf-8", "replace").decode("utf-8")


class _Counted(Canvas):
    """A canvas that holds its pages back until it knows how many there are, and numbers them then."""

    def __init__(self, look: Stationery, *args: Any, **rest: Any) -> None:
        super().__init__(*args, **rest)
        self._look, self._held = look, list[dict[str, Any]]()
        self._headings: list[tuple[str, float]] = []

    def note_heading(self, words: str, height: float) -> None:
        """A heading for the outline, `height` above where the canvas stands."""
        self._headings.append((words, self.absolutePosition(0, height)[1]))

    def showPage(self) -> None:  # noqa: N802 - the library's name
        self._held.append(dict(self.__dict__))
        self._headings = []
        self._startPage()  # type: ignore[attr-defined]

    def save(self) -> None:
        held = self._held
        for page in held:
            self.__dict__.update(page)
            _draw_number(self, self._look, len(held))
            self._enter_headings()
            super().showPage()
        super().save()

    def _enter_headings(self) -> None:
        """Only now: a place in the outline belongs to the page that is being finished."""
        for place, (words, top) in enumerate(self._headings):
            key = f"{self.getPageNumber()}-{place}"
            self.bookmarkPage(key, fit="XYZ", left=0, top=top)
            self.addOutlineEntry(words, key, 0)


def _room(look: Stationery, kind: type[Frame]) -> Frame:
    """Where on a sheet a story stands."""
    width, height = look.size
    return kind(
        BINDING,
        EDGE + BLOCK,
        width - BINDING - EDGE,
        height - 2 * EDGE - BLOCK,
        leftPadding=PAD,
        rightPadding=PAD,
        topPadding=PAD,
        bottomPadding=0.6 * PAD,
    )


def _template(look: Stationery) -> PageTemplate:
    return PageTemplate(
        "sheet",
        [_room(look, _Room)],
        onPage=lambda canvas, _: _draw_sheet(canvas, look),
        onPageEnd=lambda canvas, _: _draw_block(canvas, look),
    )


def _draw_sheet(canvas: Canvas, look: Stationery) -> None:
    canvas.setViewerPreference("DisplayDocTitle", "true")
    if look.across:
        _draw_across(canvas, look)
    _draw_border(canvas, *look.size)


def _draw_across(canvas: Canvas, look: Stationery) -> None:
    width, height = look.size
    canvas.saveState()
    canvas.translate(width / 2, height / 2)
    canvas.rotate(52)
    canvas.setFillGray(0.9)
    size = min(120.0, 120 * 0.74 * hypot(width, height) / stringWidth(look.across, BOLD, 120))
    canvas.setFont(BOLD, size)
    canvas.drawCentredString(0, -0.35 * size, look.across)
    canvas.restoreState()


def _draw_border(canvas: Canvas, width: float, height: float) -> None:
    canvas.setStrokeColor(RULE)
    canvas.setLineWidth(HEAVY)
    canvas.rect(BINDING, EDGE, width - BINDING - EDGE, height - 2 * EDGE)
    canvas.setLineWidth(THIN)
    middle, half = (width + BINDING - EDGE) / 2, height / 2
    canvas.line(middle, height - EDGE + 3 * mm, middle, height - EDGE - 2 * mm)
    canvas.line(middle, EDGE - 3 * mm, middle, EDGE)
    canvas.line(BINDING - 3 * mm, half, BINDING + 2 * mm, half)
    canvas.line(width - EDGE + 3 * mm, half, width - EDGE - 2 * mm, half)


#: The share of the title block that the page's number takes, at its right end.
_NUMBER = 0.1


def _draw_block(canvas: Canvas, look: Stationery) -> None:
    """The title block, after all else on the sheet, so that it is read aloud last."""
    width, unit = _block(look)
    canvas.setStrokeColor(RULE)
    canvas.setLineWidth(THIN)
    canvas.line(BINDING, EDGE + BLOCK, BINDING + width, EDGE + BLOCK)
    left = BINDING
    for field in look.fields:
        _draw_field(canvas, field, left, field.share * unit)
        left += field.share * unit
        canvas.line(left, EDGE, left, EDGE + BLOCK)


def _draw_number(canvas: Canvas, look: Stationery, pages: int) -> None:
    width, unit = _block(look)
    words = look.pages.format(page=canvas.getPageNumber(), pages=pages)
    left = BINDING + width - _NUMBER * unit
    _draw_field(canvas, Field(look.page_caption, words, _NUMBER, strong=True), left, _NUMBER * unit)


def _block(look: Stationery) -> tuple[float, float]:
    """The width of the title block, and of one whole share of it."""
    width = look.size[0] - BINDING - EDGE
    return width, width / (sum(field.share for field in look.fields) + _NUMBER)


def _draw_field(canvas: Canvas, field: Field, left: float, width: float) -> None:
    canvas.setFillColor(FAINT)
    draw_fitted(canvas, field.caption.upper(), left + 1.6 * mm, EDGE + BLOCK - 3.6 * mm, width - 2.6 * mm, 5.6, BOLD)
    canvas.setFillColor(INK)
    font, size = (BOLD, 11) if field.strong else (TEXT, 9)
    draw_fitted(canvas, field.value, left + 1.6 * mm, EDGE + 3.6 * mm, width - 2.6 * mm, size, font)


def draw_fitted(canvas: Canvas, words: str, x: float, y: float, width: float, size: float, font: str) -> None:
    """One line of text, lettered smaller where it would not fit, so that nothing is ever cut off."""
    shown = printable(words)
    full = stringWidth(shown, font, size) or 1
    canvas.setFont(font, size * min(1, width / full))
    canvas.drawString(x, y, shown)

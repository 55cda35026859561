"""The firm's sheet, common to all its papers: border, centring marks, title block, page x of y, DRAFT across a draft.

It knows nothing of any one paper: a paper hands it a title block and a story, and gets bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from io import BytesIO
from math import hypot
from typing import Any

from reportlab import rl_config
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from app.documents.contents import Sheet
from app.documents.typesetting.arrangements import Arranged, best
from app.documents.typesetting.fonts import BOLD, TEXT
from app.documents.typesetting.laying import Laid, Room, lay
from app.documents.typesetting.lettering import FAINT, HEAVY, INK, RULE, THIN, measured, set_line
from app.documents.typesetting.room_taken import at_most, fewest_sheets

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
    return at_most(story, inner_width(sheet)) <= _room(SIZES[sheet]).inner[1]


def print_best(look: Stationery, stories: Iterable[list[Flowable]]) -> bytes:
    """The story that comes out best: all are laid out as far as that is needed to know it, and one is printed.

    They may share their parts.
    """
    return _print(look, best_arranged(look, stories).laid)


def best_arranged(look: Stationery, stories: Iterable[list[Flowable]]) -> Arranged:
    """The story that comes out best; nothing of it is drawn."""
    room = _room(look.size)
    return best(
        stories, lambda story: Arranged(story, lay(story, room)), lambda story: fewest_sheets(story, *room.inner)
    )


def print_sheets(look: Stationery, story: list[Flowable]) -> bytes:
    """The story on the firm's sheets; the same story gives the same bytes."""
    return _print(look, lay(story, _room(look.size)))


def _print(look: Stationery, laid: Laid) -> bytes:
    out = BytesIO()
    canvas = _canvas(look, out)
    for number, sheet in enumerate(laid.sheets, start=1):
        _draw_sheet(canvas, look)
        for placed in sheet:
            placed.draw(canvas)
        _draw_block(canvas, look, look.pages.format(page=number, pages=len(laid.sheets)))
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _canvas(look: Stationery, out: BytesIO) -> _Sheets:
    """With what the file says of itself."""
    canvas = _Sheets(out, pagesize=look.size, invariant=1, initialFontName=TEXT, lang=look.language)
    canvas.setTitle(_stated(look.title))
    canvas.setAuthor(_stated(look.author))
    canvas.setSubject(_stated(look.subject))
    canvas.setCreator(_stated(look.author))
    canvas.setViewerPreference("DisplayDocTitle", "true")
    return canvas


def _stated(words: str) -> str:
    """Words as the file's own particulars can hold them: any letter at all, but no half of one."""
    return words.encode("utf-8", "replace").decode("utf-8")


class _Sheets(Canvas):
    """A canvas that enters the headings on a sheet into the outline, and says no ink twice."""

    def __init__(self, *args: Any, **rest: Any) -> None:
        super().__init__(*args, **rest)
        self._headings: list[tuple[str, float]] = []

    def setFillColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803 - the library's names
        """The ink that it has is not said again."""
        if aColor is not self._fillColorObj or alpha is not None:  # type: ignore[attr-defined]
            super().setFillColor(aColor, alpha)

    def setStrokeColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803 - the library's names
        if aColor is not self._strokeColorObj or alpha is not None:  # type: ignore[attr-defined]
            super().setStrokeColor(aColor, alpha)

    def note_heading(self, words: str, height: float) -> None:
        """A heading for the outline, `height` above where the canvas stands."""
        self._headings.append((words, self.absolutePosition(0, height)[1]))

    def showPage(self) -> None:  # noqa: N802 - the library's name
        self._enter_headings()
        super().showPage()

    def _enter_headings(self) -> None:
        """Only now: a place in the outline belongs to the page that is being finished."""
        for place, (words, top) in enumerate(self._headings):
            key = f"{self.getPageNumber()}-{place}"
            self.bookmarkPage(key, fit="XYZ", left=0, top=top)
            self.addOutlineEntry(words, key, 0)
        self._headings = []


def _room(size: tuple[float, float]) -> Room:
    """Where on a sheet of that size a story stands."""
    width, height = size
    box = BINDING, EDGE + BLOCK, width - BINDING - EDGE, height - 2 * EDGE - BLOCK
    return Room(size, *box, side=PAD, top=PAD, foot=0.6 * PAD)


def _draw_sheet(canvas: Canvas, look: Stationery) -> None:
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


def _draw_block(canvas: Canvas, look: Stationery, number: str) -> None:
    """The title block, after all else on the sheet, so that it is read aloud last; `number` at its right end."""
    width, unit = _block(look)
    canvas.setStrokeColor(RULE)
    canvas.setLineWidth(THIN)
    canvas.line(BINDING, EDGE + BLOCK, BINDING + width, EDGE + BLOCK)
    left = BINDING
    for field in look.fields:
        _draw_field(canvas, field, left, field.share * unit)
        left += field.share * unit
        canvas.line(left, EDGE, left, EDGE + BLOCK)
    left = BINDING + width - _NUMBER * unit
    _draw_field(canvas, Field(look.page_caption, number, _NUMBER, strong=True), left, _NUMBER * unit)


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
    shown, full = measured(words, font, size)
    set_line(canvas, shown, x, y, font, size * min(1, width / (full or 1)))

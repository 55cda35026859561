"""The shop's calendar on one A3 sheet, landscape: a row for each stage, shells as tickets. No amount is on it.

It lays out what was planned and plans nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from reportlab.lib.pagesizes import A3, landscape
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Flowable

from app.documents.contents import Firm
from app.documents.saying.figures import Figures
from app.documents.saying.phrases import sentences
from app.documents.typesetting import fonts
from app.documents.typesetting.fonts import BOLD, TEXT, printable
from app.documents.typesetting.lettering import FAINT, HAIR, HEAVY, INK, STAMP, THIN, TINT, WHITE
from app.documents.typesetting.stationery import Field, Stationery, draw_fitted, firm_sheets, inner, print_sheets
from rules.model import Words

SIZE = landscape(A3)

#: Of the column with the stages' names, of the head, of a row's bar, and the most and least that a ticket is high.
_NAMES, _HEAD, _BAR = 34 * mm, 12 * mm, 5.5 * mm
_HIGHEST, _LOWEST = 12 * mm, 3.4 * mm

#: Narrower than that no number of a shell can be read.
_LEGIBLE = 5 * mm


@dataclass(frozen=True, slots=True)
class PlanTicket:
    """A shell at a stage from column `start` to before `end`. `kind`: the place of its kind among the kinds.

    `change`: a changeover counts against it, -1 before it, 1 behind it, 0 none. `state`: planned, waits, begun or late.
    """

    short: str
    says: str
    start: int
    end: int
    kind: int = 0
    change: int = 0
    state: str = "planned"


@dataclass(frozen=True, slots=True)
class PlanLoad:
    """A week of a stage, each as a decimal in text, and as shares (0 to 1) of what it takes."""

    used: str
    takes: str
    share: float
    line: float
    over: bool


@dataclass(frozen=True, slots=True)
class PlanRow:
    """`limit`: what the stage takes, in words."""

    label: Words
    limit: str
    loads: tuple[PlanLoad, ...]
    tickets: tuple[PlanTicket, ...]


@dataclass(frozen=True, slots=True)
class PlanPaper:
    """`weeks`: their Mondays. `closed`: columns without work. `down`: sentences on tools. `kinds`: their names."""

    firm: Firm
    dated: date
    weeks: tuple[date, ...]
    closed: tuple[int, ...]
    rows: tuple[PlanRow, ...]
    kinds: tuple[Words, ...]
    down: tuple[str, ...] = ()
    language: str = "en"
    locale: str = "en_GB"


def plan_pdf(paper: PlanPaper, font_folder: Path = fonts.FOLDER) -> bytes:
    """The sheet as PDF bytes, identical for identical input; `FontsMissing` where the fonts aren't laid."""
    fonts.register(font_folder)
    return print_sheets(_look(paper), [_Sheet(paper)])


def _say(paper: PlanPaper, key: str, **slots: object) -> str:
    return sentences(paper.language)[key].format_map(slots)


def _look(paper: PlanPaper) -> Stationery:
    figures = Figures(paper.locale, "")
    last = paper.weeks[-1] + timedelta(days=4)
    span = _say(paper, "plan.span", first=figures.short_day(paper.weeks[0]), last=figures.short_day(last))
    return firm_sheets(
        partial(_say, paper),
        paper.locale,
        SIZE,
        paper.firm.name,
        _say(paper, "plan.title"),
        Field(_say(paper, "block.from"), paper.firm.name, 0.2),
        Field(_say(paper, "block.paper"), _say(paper, "plan.title"), 0.3, strong=True),
        Field(_say(paper, "plan.weeks"), span, 0.2),
        Field(_say(paper, "plan.as-of"), figures.short_day(paper.dated), 0.2),
        subject=span,
    )


class _Sheet(Flowable):
    """The whole sheet of weeks, as high as the frame."""

    def __init__(self, paper: PlanPaper) -> None:
        super().__init__()
        self.paper = paper
        self.width, self.height = inner(SIZE)
        self.lanes = [list(_laned(row.tickets)) for row in paper.rows]

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        top = self._head()
        for row, lanes in zip(self.paper.rows, self.lanes, strict=True):
            top = self._row(row, lanes, top)
        self._foot(top)

    @property
    def day(self) -> float:
        return (self.width - _NAMES) / (5 * len(self.paper.weeks))

    @property
    def ticket(self) -> float:
        """How high a ticket is, so that all rows find room."""
        many = sum(max((lane + 1 for _, lane in lanes), default=1) for lanes in self.lanes)
        room = self.height - _HEAD - 12 * mm - len(self.lanes) * (_BAR + 2 * mm)
        return max(min(room / max(many, 1), _HIGHEST), _LOWEST)

    def _x(self, column: int) -> float:
        return _NAMES + min(max(column, 0), 5 * len(self.paper.weeks)) * self.day

    def _head(self) -> float:
        figures, top = Figures(self.paper.locale, ""), self.height
        for place, monday in enumerate(self.paper.weeks):
            x = self._x(5 * place) + 1 * mm
            week = _say(self.paper, "plan.week", week=monday.isocalendar().week)
            self._words(week, x, top - 4 * mm, 5 * self.day - 2 * mm, 8.5, BOLD)
            self._words(figures.short_day(monday), x, top - 7.4 * mm, 5 * self.day - 2 * mm, 6.5, TEXT)
            for n in range(5):
                number = str((monday + timedelta(days=n)).day)
                self._words(number, self._x(5 * place + n) + self.day / 2 - 1.3 * mm, top - 11 * mm, 4 * mm, 6, TEXT)
        return top - _HEAD

    def _row(self, row: PlanRow, lanes: Sequence[tuple[PlanTicket, int]], top: float) -> float:
        high = self.ticket
        bottom = top - _BAR - max((lane + 1 for _, lane in lanes), default=1) * high - 2 * mm
        self._ground(top, bottom)
        draw_fitted(self._canvas(), row.label[self.paper.language], 0, top - 5 * mm, _NAMES - 2 * mm, 9, BOLD)
        self._words(row.limit, 0, top - 8.6 * mm, _NAMES - 2 * mm, 6.5, TEXT)
        for place, load in enumerate(row.loads):
            self._bar(load, self._x(5 * place), top)
        for ticket, lane in lanes:
            self._card(ticket, top - _BAR - (lane + 1) * high, high - 0.7 * mm)
        return bottom

    def _ground(self, top: float, bottom: float) -> None:
        canvas = self._pen(THIN)
        for column in self.paper.closed:
            self._hatched(self._x(column), bottom, self.day, top - bottom)
        canvas.setStrokeColor(FAINT)
        canvas.setLineWidth(HAIR)
        for column in range(5 * len(self.paper.weeks) + 1):
            if column % 5:
                canvas.line(self._x(column), top, self._x(column), bottom)
        canvas.setStrokeColor(INK)
        canvas.setLineWidth(THIN)
        for place in range(len(self.paper.weeks) + 1):
            canvas.line(self._x(5 * place), top, self._x(5 * place), bottom)
        canvas.setLineWidth(HEAVY)
        canvas.line(0, top, self.width, top)

    def _hatched(self, x: float, y: float, width: float, height: float) -> None:
        canvas = self._pen(HAIR, FAINT)
        canvas.saveState()
        path = canvas.beginPath()
        path.rect(x, y, width, height)
        canvas.clipPath(path, stroke=0, fill=0)
        canvas.setFillColor(TINT)
        canvas.rect(x, y, width, height, stroke=0, fill=1)
        step = 1.6 * mm
        for n in range(int((width + height) / step) + 1):
            canvas.line(x + n * step - height, y, x + n * step, y + height)
        canvas.restoreState()

    def _bar(self, load: PlanLoad, left: float, top: float) -> None:
        """How full the week is, and the planned line as a stroke across it; no day's line runs through the figures."""
        canvas, wide = self._pen(THIN), 5 * self.day - 14 * mm
        x, y = left + 1 * mm, top - 3.6 * mm
        used, font = f"{load.used} / {load.takes}", BOLD if load.over else TEXT
        canvas.setFillColor(WHITE)
        canvas.rect(x + wide, y - 0.4 * mm, stringWidth(used, font, 6.5) + 1.6 * mm, 2.6 * mm, stroke=0, fill=1)
        canvas.rect(x, y, wide, 1.8 * mm, stroke=1, fill=1)
        canvas.setFillColor(STAMP if load.over else FAINT)
        canvas.rect(x, y, wide * min(load.share, 1), 1.8 * mm, stroke=0, fill=1)
        canvas.setLineWidth(HEAVY)
        if load.share or load.line:
            canvas.line(x + wide * load.line, y - 0.7 * mm, x + wide * load.line, y + 2.5 * mm)
        canvas.setFillColor(STAMP if load.over else INK)
        self._words(used, x + wide + 1 * mm, y, 11 * mm, 6.5, font)

    def _card(self, ticket: PlanTicket, y: float, high: float) -> None:
        """Kinds differ by the edge at the left, states by the frame: neither by colour alone."""
        x, end = self._x(ticket.start) + 0.25 * mm, self._x(ticket.end) - 0.25 * mm
        canvas = self._pen(THIN, STAMP if ticket.state == "late" else INK)
        canvas.setFillColor(TINT if ticket.state == "begun" else WHITE)
        canvas.setDash([1.6, 1.2] if ticket.state == "waits" else [])
        canvas.rect(x, y, end - x, high, stroke=1, fill=1)
        canvas.setDash([])
        canvas.setFillColor(canvas_ink := STAMP if ticket.state == "late" else INK)
        canvas.rect(x, y, 0.9 * mm, high, stroke=0, fill=1)
        if ticket.kind:
            canvas.setFillColor(WHITE)
            canvas.rect(x + 0.3 * mm, y + 0.15 * mm, 0.3 * mm, high - 0.3 * mm, stroke=0, fill=1)
            canvas.setFillColor(canvas_ink)
        if ticket.state == "begun":
            canvas.rect(x, y, end - x, 0.5 * mm, stroke=0, fill=1)
        self._face(ticket, x + 1.4 * mm, y, end - x - 1.8 * mm, high)
        if ticket.change:
            self._wedge(x if ticket.change < 0 else end, y, high, ticket.change)

    def _face(self, ticket: PlanTicket, x: float, y: float, width: float, high: float) -> None:
        short = f"! {ticket.short}" if ticket.state == "late" else ticket.short
        if width < _LEGIBLE:
            return
        if high >= 6 * mm:
            draw_fitted(self._canvas(), short, x, y + high - 3.5 * mm, width, 8, BOLD)
            self._words(ticket.says, x, y + high - 6.6 * mm, width, 6.8, TEXT)
            return
        self._words(f"{short}  {ticket.says}", x, y + high / 2 - 0.8 * mm, width, 6.2, BOLD)

    def _wedge(self, x: float, y: float, high: float, side: int) -> None:
        canvas = self._pen(HAIR)
        path = canvas.beginPath()
        width = self.day * 0.8
        path.moveTo(x + side * 0.4 * mm, y)
        path.lineTo(x + side * 0.4 * mm, y + high)
        path.lineTo(x + side * width, y + high / 2)
        path.close()
        canvas.drawPath(path, stroke=0, fill=1)

    def _foot(self, top: float) -> None:
        canvas = self._pen(HEAVY)
        canvas.line(0, top, self.width, top)
        self._words("   ".join(self._legend()), 0, top - 5 * mm, self.width, 7, TEXT)
        for place, down in enumerate(self.paper.down):
            self._words(down, 0, top - (9 + 3.6 * place) * mm, self.width, 7, BOLD)

    def _legend(self) -> Iterator[str]:
        words = [kind[self.paper.language] for kind in self.paper.kinds]
        if len(words) > 1:
            yield _say(self.paper, "plan.kinds", solid=words[0], ruled=words[1])
        yield _say(self.paper, "plan.signs")

    def _words(self, words: str, x: float, y: float, width: float, size: float, font: str) -> None:
        """In one line, cut with an ellipsis rather than lettered too small to be read."""
        draw_fitted(self._canvas(), _cut(printable(words), width, size, font), x, y, width, size, font)

    def _pen(self, width: float, colour: Any = INK) -> Any:
        canvas = self._canvas()
        canvas.setStrokeColor(colour)
        canvas.setFillColor(INK)
        canvas.setLineWidth(width)
        return canvas

    def _canvas(self) -> Any:
        return self.canv  # type: ignore[attr-defined]


def _cut(words: str, width: float, size: float, font: str) -> str:
    while len(words) > 4 and stringWidth(words, font, size) > 1.12 * width:
        words = words[:-2].rstrip() + "…"
    return words


def _laned(tickets: Sequence[PlanTicket]) -> Iterator[tuple[PlanTicket, int]]:
    """Each with its lane, so that no two lie on each other; a changeover takes a column more."""
    ends: list[int] = []
    for ticket in sorted(tickets, key=lambda one: (one.start, -one.end)):
        start, end = ticket.start - (ticket.change < 0), ticket.end + (ticket.change > 0)
        lane = next((n for n, taken in enumerate(ends) if taken <= start), len(ends))
        ends[lane : lane + 1] = [end]
        yield ticket, lane

"""What is drawn rather than lettered: line samples, seals, tick boxes, the QR code. Shape speaks; colour only helps."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

import segno
from reportlab.lib.rl_accel import fp_str
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from app.documents.typesetting.fonts import BOLD, printable
from app.documents.typesetting.lettering import HAIR, HEAVY, INK, ROW, STAMP, THIN, WHITE, Lettered
from rules.answer import State, Verdict

#: The light margin that a QR code needs around it, in modules (ISO/IEC 18004).
QUIET = 4


class LineSample(Flowable):
    """The line in which a choice is drawn: usual thin, chosen heavy, forced dashed."""

    def __init__(self, state: State, length: float = 7 * mm) -> None:
        super().__init__()
        self.state, self.width, self.height = state, length, 2.2 * mm

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        self.draw_on(self.canv)

    def draw_on(self, canvas: Canvas) -> None:
        """Where the canvas stands."""
        line_of(canvas, self.state)
        canvas.line(0, self.height / 2, self.width, self.height / 2)


def line_of(canvas: Canvas, state: State) -> None:
    """Set the canvas, whose lines are whole, to the line of that state."""
    canvas.setStrokeColor(INK)
    canvas.setLineCap(0)
    if state is State.FORCED:
        canvas.setDash((2.2, 1.6))
    canvas.setLineWidth(_WIDTHS.get(state, THIN))


_WIDTHS = {State.CHOSEN: 2.2, State.FORCED: 1.3}


class Came(Flowable):
    """How a choice came about: its line and, after it, the word."""

    def __init__(self, state: State, words: str) -> None:
        super().__init__()
        self.sample, self.words = LineSample(state), Lettered(words, ROW)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.height = width, self.words.wrap(width - _BESIDE, height)[1]
        return self.width, self.height

    def draw(self) -> None:
        self.words.drawOn(self.canv, _BESIDE, 0)
        self.canv.translate(0, self.height - self.sample.height - 0.5 * mm)
        self.sample.draw_on(self.canv)


_BESIDE = 9 * mm


class TickBox(Flowable):
    """An empty box to be ticked with a pen when a thing is through; ticked where it was through already."""

    def __init__(self, side: float = 3.6 * mm, *, through: bool = False) -> None:
        super().__init__()
        self.side, self.through = side, through

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.side, self.side

    def draw(self) -> None:
        self.canv.setStrokeColor(INK)
        self.canv.setLineWidth(THIN)
        self.canv.rect(0, 0, self.side, self.side)
        if self.through:
            self.canv.setLineWidth(HEAVY)
            _polyline(self.canv, self.side, (0.2, 0.52), (0.42, 0.24), (0.82, 0.78))


class Seal(Flowable):
    """The sign of an answer, as it would be struck on the order: a shape of its own for each."""

    def __init__(self, verdict: Verdict, side: float = 14 * mm) -> None:
        super().__init__()
        self.verdict, self.side = verdict, side

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.side, self.side

    def draw(self) -> None:
        draw = {
            Verdict.AS_HAD: _ring_with_tick,
            Verdict.NOT_AS_HAD: _square_unequal,
            Verdict.ONCE: _gate,
            Verdict.CANT: _hatched_cross,
        }[self.verdict]
        self.canv.saveState()
        self.canv.setLineJoin(1)
        draw(self.canv, self.side)
        self.canv.restoreState()


def hatch(canvas: Canvas, x: float, y: float, width: float, height: float, pitch: float = 1.6 * mm) -> None:
    """45° hatching of a box."""
    clip = canvas.beginPath()
    clip.rect(x, y, width, height)
    canvas.saveState()
    canvas.clipPath(clip, stroke=0, fill=0)
    steps = int((width + height) / pitch) + 1
    for i in range(steps):
        canvas.line(x + i * pitch - height, y, x + i * pitch, y + height)
    canvas.restoreState()


def _ring_with_tick(canvas: Canvas, side: float) -> None:
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(HEAVY)
    canvas.circle(side / 2, side / 2, side * 0.47)
    canvas.setLineWidth(HAIR)
    canvas.circle(side / 2, side / 2, side * 0.41)
    canvas.setLineWidth(2.6)
    _polyline(canvas, side, (0.28, 0.52), (0.44, 0.34), (0.74, 0.68))


def _square_unequal(canvas: Canvas, side: float) -> None:
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(HEAVY)
    canvas.rect(side * 0.05, side * 0.05, side * 0.9, side * 0.9)
    canvas.setLineWidth(2.4)
    for height in (0.4, 0.6):
        _polyline(canvas, side, (0.24, height), (0.76, height))
    _polyline(canvas, side, (0.36, 0.22), (0.64, 0.78))


def _gate(canvas: Canvas, side: float) -> None:
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(HEAVY)
    canvas.setDash((2.2, 1.6))
    canvas.rect(side * 0.05, side * 0.05, side * 0.9, side * 0.9)
    canvas.setDash()
    canvas.setLineWidth(2.4)
    _polyline(canvas, side, (0.22, 0.22), (0.22, 0.78))
    _polyline(canvas, side, (0.78, 0.22), (0.78, 0.78))
    _polyline(canvas, side, (0.22, 0.36), (0.7, 0.66))


def _hatched_cross(canvas: Canvas, side: float) -> None:
    canvas.setStrokeColor(STAMP)
    canvas.setLineWidth(HAIR)
    hatch(canvas, 0, 0, side, side)
    canvas.setLineWidth(HEAVY)
    canvas.rect(0, 0, side, side)
    for width, colour in ((6.5, WHITE), (3.2, STAMP)):
        canvas.setStrokeColor(colour)
        canvas.setLineWidth(width)
        _polyline(canvas, side, (0.24, 0.24), (0.76, 0.76))
        _polyline(canvas, side, (0.24, 0.76), (0.76, 0.24))


def _polyline(canvas: Canvas, side: float, *points: tuple[float, float]) -> None:
    path = canvas.beginPath()
    path.moveTo(points[0][0] * side, points[0][1] * side)
    for x, y in points[1:]:
        path.lineTo(x * side, y * side)
    canvas.drawPath(path)


class Stamp(Flowable):
    """The rubber stamp of the desk, a little askew: a double frame when issued, a dashed one on a draft."""

    def __init__(self, head: str, foot: str, sure: bool, width: float = 33 * mm) -> None:
        super().__init__()
        self.head, self.foot, self.sure, self.width, self.height = head, foot, sure, width, 15 * mm

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        canvas, inner = self.canv, self.width - 6 * mm
        canvas.translate(self.width / 2, self.height / 2)
        canvas.rotate(3)
        canvas.setStrokeColor(STAMP)
        canvas.setFillColor(STAMP)
        self._frame(canvas)
        draw_centred(canvas, printable(self.head).upper(), 1.2 * mm, inner, 13)
        draw_centred(canvas, printable(self.foot), -4 * mm, inner, 9)

    def _frame(self, canvas: Canvas) -> None:
        if not self.sure:
            canvas.setDash((4, 2.4))
        for inset, line in ((0.5 * mm, 1.6), (1.5 * mm, HAIR)) if self.sure else ((0.5 * mm, 1.6),):
            canvas.setLineWidth(line)
            width, height = self.width - 2 * inset, 13 * mm - 2 * inset
            canvas.roundRect(-width / 2, -height / 2, width, height, 1.4 * mm)


def draw_centred(canvas: Canvas, words: str, y: float, width: float, size: float) -> None:
    """A bold line about x = 0, lettered smaller where it would not fit."""
    size *= min(1, width / (stringWidth(words, BOLD, size) or 1))
    canvas.setFont(BOLD, size)
    canvas.drawCentredString(0, y, words)


class Code(Flowable):
    """A QR code of `side` points over its modules, its light margin beyond; what it says stands beside it in words."""

    def __init__(self, says: str, side: float = 26 * mm) -> None:
        super().__init__()
        self.rows = _modules(says)
        self.module = side / len(self.rows)
        self.whole = side + 2 * QUIET * self.module

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.whole, self.whole

    def draw(self) -> None:
        self.canv.setFillColor(WHITE)
        self.canv.rect(0, 0, self.whole, self.whole, stroke=0, fill=1)
        self.canv.setFillGray(0)
        self.canv.addLiteral(f"n {' '.join(self._boxes())} f*")

    def _boxes(self) -> Iterator[str]:
        """The dark modules as the format writes boxes; of the numbers few differ, and each is written out once."""
        side = [fp_str(place * self.module) for place in range(len(self.rows) + 2 * QUIET)]
        tops = [fp_str(self.whole - (QUIET + row + 1) * self.module) for row in range(len(self.rows))]
        for row, start, end in _bars(self.rows):
            yield f"{side[QUIET + start]} {tops[row]} {side[end - start]} {side[1]} re"


@lru_cache(maxsize=64)
def _modules(says: str) -> tuple[bytes, ...]:
    """The dark and light modules, 1 and 0; kept, for a quotation is printed in several languages and sizes."""
    return tuple(map(bytes, segno.make(says, error="m", micro=False).matrix))


#: Dark modules beside each other.
_BAR = re.compile(b"\x01+")


def _bars(rows: Iterable[bytes]) -> Iterator[tuple[int, int, int]]:
    """Row, first module, and the one behind the last."""
    return ((y, *bar.span()) for y, row in enumerate(rows) for bar in _BAR.finditer(row))

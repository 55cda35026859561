"""The shell drawing on paper: the same display list drawn as lines onto the sheet, never as a picture of dots."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import chain, groupby
from operator import itemgetter

from reportlab.lib.colors import white
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject
from reportlab.platypus import Flowable

from app.documents.drawings.drawing import Drawing, Lettering, Part
from app.documents.drawings.linework.stroke import Point, Stroke
from app.documents.drawings.pens import HATCH, Pen, pen_of
from app.documents.typesetting.fonts import BOLD, TEXT, printable
from app.documents.typesetting.lettering import INK
from rules.answer import State


class DrawnShell(Flowable):
    """A drawing `width` points wide. `weight`: how many points a thin line's step is."""

    def __init__(self, drawing: Drawing, width: float, weight: float = 0.55) -> None:
        super().__init__()
        self.drawing, self.width, self.weight = drawing, width, weight
        self.scale = width / drawing.width
        self.height = drawing.height * self.scale

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        self.canv.saveState()
        self.canv.setStrokeColor(INK)
        self.canv.setFillColor(INK)
        self.canv.setLineJoin(1)
        for part in self.drawing.parts:
            self._draw_part(self.canv, part)
        for part in self.drawing.parts:
            for letters in part.letters:
                self._draw_letters(self.canv, letters, clear=bool(part.rules))
        self.canv.restoreState()

    def _draw_part(self, canvas: Canvas, part: Part) -> None:
        for pen, paths in _penned(part.strokes, part.hatch, part.state, self.scale, self.height):
            canvas.setLineWidth(pen.width * self.weight)
            canvas.setDash([step * self.weight for step in pen.dash])
            for path in paths:
                canvas.drawPath(path, stroke=1, fill=int(pen.fill))

    def _draw_letters(self, canvas: Canvas, letters: Lettering, clear: bool) -> None:
        """`clear`: on ground of their own, for they stand among hatching."""
        face, size = BOLD if letters.bold else TEXT, max(letters.size * self.scale, 1.6 * mm)
        said, (x, y) = printable(letters.text), self._at(letters.at)
        if clear:
            canvas.setFillColor(white)
            wide = canvas.stringWidth(said, face, size) + 1.2
            canvas.rect(x - 0.6, y - 0.6, wide, size * 0.8 + 0.6, stroke=0, fill=1)
            canvas.setFillColor(INK)
        canvas.setFont(face, size)
        canvas.drawString(x, y, said)

    def _at(self, point: Point) -> Point:
        return _on_paper(point, self.scale, self.height)


@lru_cache(maxsize=1024)
def _penned(
    strokes: Sequence[Stroke], hatch: Sequence[Stroke], state: State | None, scale: float, height: float
) -> list[tuple[Pen, list[PDFPathObject]]]:
    """What each pen draws, one after the other: written out once for each size, for drawings share most of theirs.

    It is one path; what is filled is filled one by one, or places filled twice might stay empty.
    """
    penned = [*((pen_of(stroke.ink, state), stroke) for stroke in strokes), *((HATCH, stroke) for stroke in hatch)]
    found = []
    for pen, group in groupby(penned, key=itemgetter(0)):
        drawn = [stroke for _, stroke in group]
        together = [[stroke] for stroke in drawn] if pen.fill else [drawn]
        found.append((pen, [_path(some, scale, height) for some in together]))
    return found


def _path(strokes: Sequence[Stroke], scale: float, height: float) -> PDFPathObject:
    path = PDFPathObject()
    for step in chain.from_iterable(stroke.steps for stroke in strokes):
        _take(path, step[0], [coordinate for point in step[1:] for coordinate in _on_paper(point, scale, height)])
    return path


def _on_paper(point: Point, scale: float, height: float) -> Point:
    """From millimetres of the drawing, downwards, to points of the sheet, upwards."""
    return point[0] * scale, height - point[1] * scale


def _take(path: PDFPathObject, kind: str, points: list[float]) -> None:
    match kind:
        case "M":
            path.moveTo(*points)
        case "L":
            path.lineTo(*points)
        case "C":
            path.curveTo(*points)
        case _:
            path.close()

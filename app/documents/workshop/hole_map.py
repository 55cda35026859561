"""The map of holes and brackets: the shell from above, every place with its letter and a sign of what is done there.

Signs differ by shape, not by colour: a ring with a cross is drilled or fitted, a full disc blanked, a dotted ring left.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from app.documents.drawings.drawing import Drawing, Part, elements_of
from app.documents.drawings.flowable import DrawnShell
from app.documents.drawings.linework.shell import COMMON, ELEMENTS, HALF_WIDTH, LENGTH
from app.documents.drawings.linework.stroke import Ink, Point
from app.documents.typesetting.fonts import BOLD
from app.documents.typesetting.lettering import HAIR, INK, THIN, WHITE
from rules.model import Book, Role
from rules.workshop.work import Do, Place

#: Room for letters above and below the shell, and beside nose and tail, in millimetres of the car.
_ABOVE, _BESIDE = 330.0, 190.0

#: The least room from letter to letter, and their size.
_APART, _LETTER = 8.2 * mm, 12


@dataclass(frozen=True, slots=True)
class Tag:
    """A letter on the rim of the map: `x` of the letter, `at` of the place, points on the flowable."""

    place: Place
    x: float
    at: tuple[float, float]


class HoleMap(Flowable):
    """`width` points wide, nose to the left, the car's right up."""

    def __init__(self, book: Book, settled: Mapping[str, str], places: Sequence[Place], width: float) -> None:
        super().__init__()
        self._shell = DrawnShell(outline(book, settled, _BESIDE, _ABOVE), width, weight=0.5)
        self.width, self.height, self.scale = width, self._shell.height, self._shell.scale
        self._tags = [*self._row([p for p in places if p.y > 0]), *self._row([p for p in places if p.y <= 0])]

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.width, self.height

    def _at(self, place: Place) -> tuple[float, float]:
        return (_BESIDE + place.x) * self.scale, self.height / 2 + place.y * self.scale

    def _row(self, places: list[Place]) -> list[Tag]:
        """Letters over their places where there is room, else moved apart; order kept, so that no two lines cross."""
        found = sorted(places, key=lambda place: (place.x, -abs(place.y)))
        xs = spread([self._at(place)[0] for place in found], _APART, self.width)
        return [Tag(place, x, self._at(place)) for place, x in zip(found, xs, strict=True)]

    def draw(self) -> None:
        self._shell.drawOn(self.canv, 0, 0)
        self.canv.setStrokeColor(INK)
        for tag in self._tags:
            self._draw_tag(tag)

    def _draw_tag(self, tag: Tag) -> None:
        canvas, (x, y) = self.canv, tag.at
        up = tag.place.y > 0
        rim = self.height - 4.2 * mm if up else 4.2 * mm
        canvas.setLineWidth(HAIR)
        canvas.line(x, y, tag.x, rim - 2.4 * mm if up else rim + 2.4 * mm)
        draw_sign(canvas, tag.place.do, x, y, 1.5 * mm)
        canvas.setFont(BOLD, _LETTER)
        canvas.setFillColor(INK)
        canvas.drawCentredString(tag.x, rim - 1.5 * mm, tag.place.letter)


class Sign(Flowable):
    """The sign of what is done at a place, for the key and the list."""

    def __init__(self, do: Do) -> None:
        super().__init__()
        self.do = do

    def wrap(self, *_: float) -> tuple[float, float]:
        return 5 * mm, 5 * mm

    def draw(self) -> None:
        self.canv.setStrokeColor(INK)
        draw_sign(self.canv, self.do, 2.5 * mm, 2 * mm, 1.8 * mm)


def draw_sign(canvas: Canvas, do: Do, x: float, y: float, radius: float) -> None:
    """Ring with a cross, full disc, dotted ring."""
    canvas.setLineWidth(THIN)
    canvas.setFillColor(INK if do is Do.BLANK else WHITE)
    canvas.setDash([1, 1] if do is Do.LEAVE else [])
    canvas.circle(x, y, radius, fill=1)
    canvas.setDash([])
    if do is Do.DRILL:
        canvas.line(x - 1.5 * radius, y, x + 1.5 * radius, y)
        canvas.line(x, y - 1.5 * radius, x, y + 1.5 * radius)


def spread(wanted: Sequence[float], apart: float, width: float) -> list[float]:
    """Places along a line in the order given, at least `apart`, within the width: swept to the right, then back."""
    apart = min(apart, width / max(len(wanted), 1))
    found: list[float] = []
    for want in wanted:
        found.append(max(want, found[-1] + apart if found else apart / 2))
    limit = width - apart / 2
    for place in range(len(found) - 1, -1, -1):
        found[place] = min(found[place], limit)
        limit = found[place] - apart
    return found


def outline(book: Book, settled: Mapping[str, str], beside: float, above: float) -> Drawing:
    """What every shell has, its body's lines and its steering wheel: enough to know where one is. Nose left, right up.

    `beside`, `above`: room beside nose and tail, and above and below, in millimetres of the car.
    """
    elements = elements_of(book)
    options = [book.roles[role] for role in (Role.BODY, Role.STEERING) if role in book.roles]
    found = (elements.get((option, settled.get(option, ""))) for option in options)
    art = (COMMON, *(ELEMENTS[element] for element in found if element))

    def placed(point: Point) -> Point:
        return beside + point[0], HALF_WIDTH + above - point[1]

    strokes = tuple(stroke.moved(placed) for one in art for stroke in one.plan if stroke.ink is not Ink.PHANTOM)
    whole = Part("shell", "", "", None, strokes)
    return Drawing(LENGTH + 2 * beside, 2 * (HALF_WIDTH + above), (whole,), "", ())

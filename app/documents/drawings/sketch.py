"""Where to cut a customer's part out of the donor car: a display list as the shell's drawing is, for screen and paper.

The cut line is straight along each side that has a margin, so that it can be marked with a rule; beyond it nothing
matters. What must not be cut into is hatched. Words and shapes say it, never colour.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from app.documents.drawings.drawing import Drawing, Lettering, Part
from app.documents.drawings.linework.parts import PARTS, PartArt
from app.documents.drawings.linework.stroke import Box, Ink, Point, Stroke, box, extent, hatching, inked, line
from app.documents.saying.phrases import sentences
from rules.model import ALL_ROUND, Book, Cut

#: Writes a length in millimetres for the reader.
Length = Callable[[Decimal], str]

_AIR = 60.0
#: The sheet is never narrower than this, so that letters keep to a size that can be read.
_LEAST = 1300.0
#: How wide a letter is to its height, generously.
_SET = 0.58


@dataclass(frozen=True, slots=True)
class _Laid:
    """The part on its sheet: its box and the cut's, y upwards; how high letters are, how much room is beside."""

    part: Box
    cut: Box
    size: float
    beside: float

    @property
    def width(self) -> float:
        return self.cut[2] - self.cut[0] + 2 * self.beside

    @property
    def height(self) -> float:
        return self.cut[3] - self.cut[1] + 2 * (2.6 * self.size + _AIR)

    def place(self, point: Point) -> Point:
        """From the part's millimetres, upwards, to the sheet's, downwards."""
        x0, y1 = self.cut[0] - self.beside, self.cut[3] + 2.6 * self.size + _AIR
        return point[0] - x0, y1 - point[1]


def unknown_sketches(book: Book) -> tuple[Cut, ...]:
    """Cuts of the book whose sketch the line art hasn't."""
    return tuple(cut for cut in book.cuts if cut.sketch and cut.sketch not in PARTS)


def strange_sides(cut: Cut) -> tuple[str, ...]:
    """Sides that have a margin and that the sketch doesn't show."""
    art = PARTS.get(cut.sketch)
    return () if art is None else tuple(side for side in cut.margins if side not in (*art.sides, ALL_ROUND))


def sides_of(cut: Cut) -> tuple[str, ...]:
    """The sides that its sketch shows."""
    art = PARTS.get(cut.sketch)
    return () if art is None else art.sides


def known_sketches() -> tuple[str, ...]:
    return tuple(PARTS)


def margins_of(cut: Cut) -> Mapping[str, int]:
    """Side → millimetres, for each side that the sketch shows and that is cut."""
    art = PARTS.get(cut.sketch)
    if ALL_ROUND in cut.margins:
        return dict.fromkeys(() if art is None else art.sides, cut.margins[ALL_ROUND])
    return cut.margins


def sketch_of(cut: Cut, name: str, language: str, length: Length) -> Drawing | None:
    """The sketch of the part called `name`; None where the book names none that the line art knows."""
    art = PARTS.get(cut.sketch)
    if art is None:
        return None
    known, margins = sentences(language), margins_of(cut)
    labels = {side: (known[f"cut.side-{side}"], length(Decimal(mm))) for side, mm in margins.items()}
    laid = _laid(art, margins, labels)
    parts = (_spare(art, laid), _outline(art, laid), *_cuts(art, laid, labels))
    title = known["cut.sketch-title"].format(part=name)
    return Drawing(laid.width, laid.height, parts, title, tuple(_lines(art, labels, known)))


def _laid(art: PartArt, margins: Mapping[str, int], labels: Mapping[str, tuple[str, str]]) -> _Laid:
    left, low, right, high = part = extent((*art.outline, *art.details))
    left_mm, right_mm, low_mm, high_mm = (margins.get(side, 0) for side in art.sides)
    cut = (left - left_mm, low - low_mm, right + right_mm, high + high_mm)
    size = max(cut[2] - cut[0], _LEAST) * 0.036
    longest = max((len(word) for side in art.sides[:2] for word in labels.get(side, ())), default=0)
    spread = max(0.0, (_LEAST - (cut[2] - cut[0])) / 2)
    return _Laid(part, cut, size, max(longest * size * _SET + _AIR * 1.5, spread, _AIR))


def _outline(art: PartArt, laid: _Laid) -> Part:
    strokes = (*art.outline, *art.details)
    return Part("part", "", "", None, tuple(stroke.moved(laid.place) for stroke in strokes))


def _spare(art: PartArt, laid: _Laid) -> Part:
    hatch: list[Stroke] = []
    for left, low, right, high in art.spare:
        (x, y), (far_x, far_y) = laid.place((left, high)), laid.place((right, low))
        hatch += (*hatching(x, y, far_x, far_y, laid.size * 0.6), box(x, y, far_x, far_y))
    return Part("spare", "", "", None, (), hatch=tuple(hatch))


def _cuts(art: PartArt, laid: _Laid, labels: Mapping[str, tuple[str, str]]) -> Iterator[Part]:
    for edge, side in enumerate(art.sides):
        if side in labels:
            start, end = _edge(laid.cut, edge)
            saw = inked(Ink.CUT, line(laid.place(start), laid.place(end)))
            letters = tuple(_labelled(edge, laid, labels[side]))
            yield Part(f"cut/{side}", "", "", None, (*saw, *_measured(edge, laid)), letters=letters)


def _edge(of: Box, edge: int) -> tuple[Point, Point]:
    """The left, right, lower or upper edge of a box."""
    left, low, right, high = of
    corners = (
        ((left, low), (left, high)),
        ((right, low), (right, high)),
        ((left, low), (right, low)),
        ((left, high), (right, high)),
    )
    return corners[edge]


def _measured(edge: int, laid: _Laid) -> tuple[Stroke, ...]:
    """A dimension line from the part's edge to the cut, with a tick at both ends."""
    (at_x, at_y), (to_x, to_y) = _middle(laid.part, edge), _middle(laid.cut, edge)
    tick = laid.size * 0.35
    ends = [(at_x, to_y) if edge > 1 else (to_x, at_y), (at_x, at_y)]
    ticks = (line(laid.place((x - tick, y - tick)), laid.place((x + tick, y + tick))) for x, y in ends)
    return line(*(laid.place(point) for point in ends)), *ticks


def _middle(of: Box, edge: int) -> Point:
    (x, y), (to_x, to_y) = _edge(of, edge)
    return (x + to_x) / 2, (y + to_y) / 2


def _labelled(edge: int, laid: _Laid, words: tuple[str, str]) -> Iterator[Lettering]:
    """Side and margin, beyond the cut line: what is there is of no use to anybody."""
    (x, y), size = laid.place(_middle(laid.cut, edge)), laid.size
    for row, word in enumerate(words):
        wide = len(word) * size * _SET
        left = {0: x - _AIR / 2 - wide, 1: x + _AIR / 2}.get(edge, x - wide / 2)
        foot = {2: y + size * 1.35, 3: y - size * 1.75}.get(edge, y - size * 0.2) + row * size * 1.25
        yield Lettering((left, foot), size, word, bold=row == 1)


def _lines(art: PartArt, labels: Mapping[str, tuple[str, str]], known: Mapping[str, str]) -> Iterator[str]:
    if not labels:
        yield known["cut.whole"]
    for side, (name, margin) in labels.items():
        if side in art.sides:
            yield known["cut.line"].format(side=name, margin=margin)

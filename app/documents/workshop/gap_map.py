"""The gap map: the shell from above, each point with its gap in metal, what paint will leave of it, and what it left.

Taper and left–right are drawn as lines between the points that they compare, because each point alone can pass. A point
out of its limits is a full square, one within them a ring, one that nobody has read a dotted ring; a comparison that
fails is drawn heavy and dashed: never by colour alone. It is a display list, as the shell drawing is, so that screen
and paper draw the same, and its lines say the same in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from app.documents.drawings.drawing import Drawing, Lettering, Part
from app.documents.drawings.linework.shell import HALF_WIDTH
from app.documents.drawings.linework.stroke import Ink, Stroke, box, hidden, inked, line, ring, solid
from app.documents.drawings.linework.stroke import Point as Spot
from app.documents.saying.voice import Voice
from app.documents.workshop.hole_map import outline, spread
from rules.inspection.judging import Compared, Judged, Mark, Predicted
from rules.inspection.subject import Kind
from rules.making import Point
from rules.workshop.work import Measured

#: Room beside the shell and above it, in millimetres of the car, and the least from column to column.
_BESIDE, _ABOVE, _APART = 430.0, 800.0, 186.0
_SIZE, _ROW = 72.0, 92.0
#: How wide a letter is to its height.
_SET = 0.56
_DOT = 20.0


@dataclass(frozen=True, slots=True)
class GapMap:
    """What is drawn. `judged`: gaps in metal and in paint by their subjects' ids. `settled`: option → choice."""

    settled: Mapping[str, str]
    gaps: tuple[Measured, ...]
    judged: Mapping[str, Judged]
    predicted: Mapping[str, Predicted]
    compared: tuple[Compared, ...]


@dataclass(frozen=True, slots=True)
class _Column:
    """A point with its number, and where its column of figures stands."""

    number: int
    point: Point
    gap: Measured
    x: float
    slot: int

    @property
    def up(self) -> bool:
        """On the car's right, which lies above."""
        return self.point.y > 0

    @property
    def at(self) -> Spot:
        return _BESIDE + self.point.x, HALF_WIDTH + _ABOVE - self.point.y


def gap_map(shown: GapMap, voice: Voice) -> Drawing:
    """The drawing, in the voice's language."""
    return _Map(shown, voice).drawing()


class _Map:
    def __init__(self, shown: GapMap, voice: Voice) -> None:
        self.shown, self.voice, self.say = shown, voice, voice.say
        self.whole = outline(voice.book, shown.settled, _BESIDE, _ABOVE)
        self.columns = _columns(shown.gaps, self.whole.width)

    def drawing(self) -> Drawing:
        columns = sorted(self.columns.values(), key=lambda column: column.number)
        parts = (*self.whole.parts, self._heads(), *map(self._column, columns), *self._compared())
        lines = (*map(self._said, columns), *(self._said_of(one) for one in self.shown.compared))
        return Drawing(self.whole.width, self.whole.height, parts, self.say("map.title"), lines)

    def _heads(self) -> Part:
        """What the rows of figures are, at the left of each rim."""
        names = [self.say(f"map.{row}") for row in ("metal", "expected", "to", "painted")]
        letters = [
            Lettering((30.0, y), _SIZE * 0.78, name) for up in (True, False)
            for name, y in zip(names, self._rows(up), strict=True)
        ]  # fmt: skip
        return Part("rows", "", "", None, (), letters=tuple(letters))

    def _rows(self, up: bool) -> tuple[float, ...]:
        """The feet of the rows of figures, top down."""
        first = _ABOVE - 5.1 * _ROW if up else self.whole.height - _ABOVE + 2.3 * _ROW
        return tuple(first + place * _ROW for place in range(4))

    def _number_foot(self, up: bool) -> float:
        return self._rows(up)[-1] + _ROW * 1.15 if up else self._rows(up)[0] - _ROW * 1.15

    def _column(self, column: _Column) -> Part:
        rows, mark = self._rows(column.up), self._mark(column.point.id)
        figures = zip(self._figures(column.point.id), rows, (True, False, False, True), strict=True)
        letters = [_centred(column.x, y, words, bold) for words, y, bold in figures if words]
        foot = self._number_foot(column.up)
        letters.append(_centred(column.x, foot, str(column.number), True))
        x, y = column.at
        end = foot + 16 if column.up else foot - _SIZE
        leader = inked(Ink.HIDDEN, line((x, y), (column.x, end)))
        strokes = (*leader, *_sign(x, y, mark), *(_frame(column.x, rows) if mark is Mark.OUT else ()))
        return Part(f"point-{column.point.id}", "", "", None, strokes, letters=tuple(letters), words=self._said(column))

    def _mark(self, point: str) -> Mark:
        found = [one.mark for one in self._judged(point) if one is not None]
        return next((mark for mark in (Mark.OUT, Mark.BELOW_AIM, Mark.WITHIN) if mark in found), Mark.UNREAD)

    def _judged(self, point: str) -> tuple[Judged | None, Judged | None]:
        judged = self.shown.judged
        return judged.get(f"{Kind.GAP.value}:{point}"), judged.get(f"{Kind.PAINTED.value}:{point}")

    def _figures(self, point: str) -> tuple[str, str, str, str]:
        """Metal, what paint will leave from … to, painted; empty what is not known."""
        metal, painted = (self._measure(one.measured if one else None) for one in self._judged(point))
        expected = self.shown.predicted.get(point)
        said = self.voice.figures.expected
        span = ("", "") if expected is None else (said(expected.least), said(expected.most))
        return metal, *span, painted

    def _measure(self, value: Decimal | None) -> str:
        return "" if value is None else self.voice.figures.measure(value)

    def _compared(self) -> Iterator[Part]:
        """Those within their limits are thin lines from number to number, those that fail heavy, with their figure."""
        for place, one in enumerate(self.shown.compared):
            first, last = (self.columns[point] for point in one.points)
            failed = one.mark is Mark.OUT
            path = line(*self._between(first, last))
            stroke = inked(Ink.CUT if failed else Ink.CENTRE, path)
            words = f"{self._measure(one.by)} > {self._measure(one.most)}"
            at = self._beside(first, last)
            letters = (_centred(*at, words, True),) if failed else ()
            yield Part(f"compared-{place}", "", "", None, stroke, letters=letters, words=self._said_of(one))

    def _between(self, first: _Column, last: _Column) -> tuple[Spot, ...]:
        if first.up != last.up:
            return (first.x, self._edge(first)), (last.x, self._edge(last))
        level = self._outer(first.up)
        tick = 34.0 if first.up else -34.0
        return (first.x, level + tick), (first.x, level), (last.x, level), (last.x, level + tick)

    def _edge(self, column: _Column) -> float:
        """Beside the number, towards the car."""
        foot = self._number_foot(column.up)
        return foot + 30 if column.up else foot - _SIZE - 14

    def _outer(self, up: bool) -> float:
        """Beyond the figures, where tapers are drawn."""
        return self._rows(up)[0] - _ROW * 1.25 if up else self._rows(up)[-1] + _ROW * 0.6

    def _beside(self, first: _Column, last: _Column) -> Spot:
        middle = (first.x + last.x) / 2
        if first.up == last.up:
            return middle, self._outer(first.up) + (-18 if first.up else _SIZE + 14)
        return middle + 205, HALF_WIDTH + _ABOVE - 40 - (first.slot % 3) * 1.2 * _SIZE

    def _said(self, column: _Column) -> str:
        metal, least, most, painted = self._figures(column.point.id)
        none, span = self.say("map.unread"), f"{least}–{most}" if least else ""
        place = self._place(column)
        return self.say("map.said", number=column.number, place=place, metal=metal or none, expected=span or none,
                        painted=painted or none, mark=self.say(f"map.{self._mark(column.point.id).value}"))  # fmt: skip

    def _place(self, column: _Column) -> str:
        gap, point = self.voice.words(column.gap.gap.label), self.voice.words(column.point.label)
        return f"{gap}, {point}"

    def _said_of(self, one: Compared) -> str:
        first, last = (self.columns[point] for point in one.points)
        return self.say(f"map.{one.kind.value}", gap=self.voice.words(first.gap.gap.label), first=first.number,
                        last=last.number, by=self._measure(one.by), most=self._measure(one.most),
                        mark=self.say(f"map.{one.mark.value}"))  # fmt: skip


def numbers_of(gaps: Sequence[Measured]) -> Mapping[str, int]:
    """Point → its number on the map and in every list, from 1 in the order of the book."""
    return {point.id: at for at, point in enumerate((p for gap in gaps for p in gap.points), 1)}


def _columns(gaps: Sequence[Measured], width: float) -> Mapping[str, _Column]:
    """Over their points where there is room, else moved apart; two that face each other stand in one line."""
    numbers = numbers_of(gaps)
    every = {(point.x, abs(point.y), place) for place, gap in enumerate(gaps) for point in gap.points}
    slots = sorted(every)
    xs = spread([x for x, _, _ in slots], _APART, width - _BESIDE)
    at = {slot: (place, x) for place, (slot, x) in enumerate(zip(slots, xs, strict=True))}
    found: dict[str, _Column] = {}
    for place, gap in enumerate(gaps):
        for point in gap.points:
            slot, x = at[point.x, abs(point.y), place]
            found[point.id] = _Column(numbers[point.id], point, gap, _BESIDE * 0.9 + x, slot)
    return found


def _centred(x: float, y: float, words: str, bold: bool) -> Lettering:
    return Lettering((x - len(words) * _SIZE * _SET / 2, y), _SIZE, words, bold)


def _sign(x: float, y: float, mark: Mark) -> tuple[Stroke, ...]:
    if mark is Mark.OUT:
        return solid(box(x - _DOT, y - _DOT, x + _DOT, y + _DOT))
    return hidden(ring(x, y, _DOT)) if mark is Mark.UNREAD else (ring(x, y, _DOT),)


def _frame(x: float, rows: tuple[float, ...]) -> tuple[Stroke, ...]:
    """Round the figures of a point that is out of its limits."""
    return (box(x - _APART / 2 + 6, rows[0] - _SIZE - 8, x + _APART / 2 - 6, rows[-1] + 20),)

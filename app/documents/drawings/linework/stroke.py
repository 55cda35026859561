"""Strokes: straight, smooth and round, in millimetres. Geometry only; pens and renderers are elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import Enum

Point = tuple[float, float]
#: ("M", p) begins, ("L", p) a straight line, ("C", p, q, r) a cubic, ("Z",) closes.
Step = tuple[str, *tuple[Point, ...]]

#: A quarter of a circle as a cubic.
_KAPPA = 0.5523


class Ink(Enum):
    """What a stroke stands for. HIDDEN lies behind a panel: dotted, so that dashes stay free to mean *forced*.

    CUT is where a saw goes.
    """

    LINE = "line"
    HIDDEN = "hidden"
    SOLID = "solid"
    CENTRE = "centre"
    PHANTOM = "phantom"
    CUT = "cut"


@dataclass(frozen=True, slots=True)
class Stroke:
    steps: tuple[Step, ...]
    ink: Ink = Ink.LINE

    def moved(self, by: Callable[[Point], Point]) -> Stroke:
        """The same stroke with every point sent through `by`."""
        return replace(self, steps=tuple((step[0], *map(by, step[1:])) for step in self.steps))

    def points(self) -> Iterator[Point]:
        """All its points, control points among them: their box holds the stroke."""
        return (point for step in self.steps for point in step[1:])


def line(*points: Point, closed: bool = False) -> Stroke:
    """Straight from point to point."""
    steps: list[Step] = [("M", points[0]), *(("L", point) for point in points[1:])]
    return Stroke((*steps, ("Z",)) if closed else tuple(steps))


def curve(*points: Point, closed: bool = False) -> Stroke:
    """Smoothly through all the points (Catmull–Rom)."""
    around = (points[-1], *points, *points[:2]) if closed else (points[0], *points, points[-1])
    steps: list[Step] = [("M", points[0])]
    for before, start, end, after in zip(around, around[1:], around[2:], around[3:], strict=False):
        steps.append(("C", _ahead(before, start, end, 1), _ahead(start, end, after, -1), end))
    return Stroke((*steps, ("Z",)) if closed else tuple(steps))


def ring(x: float, y: float, across: float, up: float | None = None) -> Stroke:
    """A circle, or an ellipse, by its half axes."""
    up = across if up is None else up
    a, b = across * _KAPPA, up * _KAPPA
    return Stroke(
        (
            ("M", (x + across, y)),
            ("C", (x + across, y + b), (x + a, y + up), (x, y + up)),
            ("C", (x - a, y + up), (x - across, y + b), (x - across, y)),
            ("C", (x - across, y - b), (x - a, y - up), (x, y - up)),
            ("C", (x + a, y - up), (x + across, y - b), (x + across, y)),
            ("Z",),
        )
    )


def box(left: float, low: float, right: float, high: float) -> Stroke:
    """An upright rectangle."""
    return line((left, low), (right, low), (right, high), (left, high), closed=True)


def inked(ink: Ink, *strokes: Stroke) -> tuple[Stroke, ...]:
    """The same strokes in another ink."""
    return tuple(replace(stroke, ink=ink) for stroke in strokes)


def hidden(*strokes: Stroke) -> tuple[Stroke, ...]:
    return inked(Ink.HIDDEN, *strokes)


def solid(*strokes: Stroke) -> tuple[Stroke, ...]:
    return inked(Ink.SOLID, *strokes)


def mirrored(*strokes: Stroke) -> tuple[Stroke, ...]:
    """The strokes seen in the centre line, y = 0."""
    return tuple(stroke.moved(lambda point: (point[0], -point[1])) for stroke in strokes)


def both(*strokes: Stroke) -> tuple[Stroke, ...]:
    """The strokes and their mirror image."""
    return (*strokes, *mirrored(*strokes))


def blank(x: float, y: float, side: float = 85) -> tuple[Stroke, ...]:
    """The draughtsman's sign for *nothing here*: a small square struck through."""
    half = side / 2
    return box(x - half, y - half, x + half, y + half), line((x - half, y - half), (x + half, y + half))


#: left, low, right, high.
Box = tuple[float, float, float, float]


def clusters(strokes: tuple[Stroke, ...], air: float) -> list[Box]:
    """The boxes, `air` wider all round, of the places in which the strokes lie; places that touch are one."""
    boxes: list[Box] = []
    for stroke in strokes:
        left, low, right, high = extent((stroke,))
        grown = (left - air, low - air, right + air, high + air)
        while touching := [other for other in boxes if _touch(grown, other)]:
            boxes = [other for other in boxes if other not in touching]
            grown = _around(grown, *touching)
        boxes.append(grown)
    return boxes


def _touch(one: Box, other: Box) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]


def _around(*boxes: Box) -> Box:
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return min(lefts), min(lows), max(rights), max(highs)


def extent(strokes: tuple[Stroke, ...]) -> Box:
    """left, low, right, high of a box that holds the strokes."""
    points = [point for stroke in strokes for point in stroke.points()]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def hatching(left: float, low: float, right: float, high: float, pitch: float) -> tuple[Stroke, ...]:
    """45° hatching of a box, each line cut at its edges."""
    lines = []
    offset = low - right + pitch
    while offset < high - left:
        start = (max(left, low - offset), max(low, left + offset))
        end = (min(right, high - offset), min(high, right + offset))
        lines.append(line(start, end))
        offset += pitch
    return tuple(lines)


def _ahead(before: Point, at: Point, after: Point, way: int) -> Point:
    """The control point beside `at`, one sixth of the chord along the tangent there."""
    if way > 0:
        return at[0] + (after[0] - before[0]) / 6, at[1] + (after[1] - before[1]) / 6
    return at[0] - (after[0] - before[0]) / 6, at[1] - (after[1] - before[1]) / 6

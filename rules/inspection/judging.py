"""What readings say: each against its limit, and points against one another, since each alone can pass.

Taper is how much the points of one side of a gap differ; across, a point from the one facing it on the other side.
What paint will leave of a gap is worked out from its metal and the film at both of its edges. Limits are included.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import Enum

from rules.inspection.colour import Lab, difference
from rules.inspection.listing import within
from rules.inspection.subject import Kind, Limit, Phase, Subject, Value
from rules.making import Gap, Limits, Point, Side
from rules.workshop.work import Measured

_THOUSAND = 1000

#: Both edges of a gap are coated.
_EDGES = 2


class Mark(Enum):
    """How a reading stands; UNREAD: there is none, and none is ever taken as read."""

    WITHIN = "within"
    BELOW_AIM = "below-aim"
    OUT = "out"
    UNREAD = "unread"


@dataclass(frozen=True, slots=True)
class Judged:
    """`measured`: what the limit was held against; of a colour its difference, to two decimals."""

    subject: Subject
    mark: Mark
    value: Value | None = None
    measured: Decimal | None = None


class Between(Enum):
    """Which points of a gap are compared."""

    TAPER = "taper"
    ACROSS = "across"


@dataclass(frozen=True, slots=True)
class Compared:
    """Two points of a gap that differ by `by`, `wider` being the one with more; `id` names it as a subject."""

    kind: Between
    phase: Phase
    gap: str
    points: tuple[str, str]
    by: Decimal
    most: Decimal
    wider: str

    @property
    def mark(self) -> Mark:
        return Mark.WITHIN if self.by <= self.most else Mark.OUT

    @property
    def id(self) -> str:
        """`taper:df-top-left+df-bottom-left`; painted points are named `painted-taper:…`."""
        before = "" if self.phase is Phase.METAL else "painted-"
        return f"{before}{self.kind.value}:{'+'.join(self.points)}"


@dataclass(frozen=True, slots=True)
class Predicted:
    """What paint will leave at a point, from `least` to `most` millimetres."""

    point: str
    least: Decimal
    most: Decimal
    limit: Limit

    @property
    def id(self) -> str:
        return f"predicted:{self.point}"

    @property
    def mark(self) -> Mark:
        return Mark.WITHIN if self.limit.takes(self.least, self.most) else Mark.OUT


def judged(subject: Subject, value: Value | None, sample: Value | None = None) -> Judged:
    """How the value stands. `sample`: the colour that COLOUR is held against; without it that is unread."""
    if value is None or (subject.kind is Kind.COLOUR and sample is None):
        return Judged(subject, Mark.UNREAD, value)
    if subject.limit.expected:
        return Judged(subject, Mark.WITHIN if value == subject.limit.expected else Mark.OUT, value)
    if isinstance(value, Lab):
        measured = _apart(sample, value) if isinstance(sample, Lab) else None
    else:
        measured = Decimal(value)
    return Judged(subject, Mark.WITHIN if measured is None else _mark(measured, subject.limit), value, measured)


def _apart(sample: Lab, other: Lab) -> Decimal:
    return Decimal(str(difference(sample, other))).quantize(Decimal("0.01"), ROUND_HALF_UP)


def _mark(measured: Decimal, limit: Limit) -> Mark:
    if not limit.takes(measured, measured):
        return Mark.OUT
    return Mark.BELOW_AIM if limit.aim is not None and measured < limit.aim else Mark.WITHIN


def all_judged(subjects: Iterable[Subject], values: Mapping[str, Value]) -> tuple[Judged, ...]:
    """Every subject, by the values under its id."""
    sample = values.get(Kind.SAMPLE.value)
    return tuple(judged(one, values.get(one.id), sample) for one in subjects)


def compared(gaps: Iterable[Measured], values: Mapping[str, Value], phase: Phase) -> tuple[Compared, ...]:
    """Of every gap the points that were read: per side the two furthest apart, and each pair that faces each other."""
    kind = Kind.GAP if phase is Phase.METAL else Kind.PAINTED

    def read(point: Point) -> Decimal | None:
        value = values.get(f"{kind.value}:{point.id}")
        return value if isinstance(value, Decimal) else None

    return tuple(one for measured in gaps for one in _of_gap(measured, phase, read))


_Read = Callable[[Point], Decimal | None]


def _of_gap(measured: Measured, phase: Phase, read: _Read) -> Iterator[Compared]:
    gap = measured.gap
    if gap.taper is not None:
        for side in Side:
            yield from _taper(gap, phase, [point for point in measured.points if point.side is side], read, gap.taper)
    if gap.across is not None:
        for left, right in facing(measured.points):
            yield from _across(gap, phase, left, right, read, gap.across)


def _taper(gap: Gap, phase: Phase, points: list[Point], read: _Read, most: Decimal) -> Iterator[Compared]:
    known = [(value, at) for at, point in enumerate(points) if (value := read(point)) is not None]
    if len(known) > 1:
        low, high = min(known, key=lambda one: one[0]), max(reversed(known), key=lambda one: one[0])
        first, last = sorted((low[1], high[1]))
        pair = (points[first].id, points[last].id)
        yield Compared(Between.TAPER, phase, gap.id, pair, high[0] - low[0], most, points[high[1]].id)


def _across(gap: Gap, phase: Phase, left: Point, right: Point, read: _Read, most: Decimal) -> Iterator[Compared]:
    here, there = read(left), read(right)
    if here is not None and there is not None:
        wider = left if here >= there else right
        yield Compared(Between.ACROSS, phase, gap.id, (left.id, right.id), abs(here - there), most, wider.id)


def facing(points: Iterable[Point]) -> tuple[tuple[Point, Point], ...]:
    """Left points with the right ones in the same place on the other side."""
    points = tuple(points)
    rights = {(point.x, point.y): point for point in points if point.side is Side.RIGHT}
    lefts = (point for point in points if point.side is Side.LEFT)
    return tuple((left, rights[left.x, -left.y]) for left in lefts if (left.x, -left.y) in rights)


def film_of(values: Mapping[str, Value], limits: Limits) -> tuple[Decimal, Decimal]:
    """µm: the thinnest and thickest that was measured on any panel; where none was, what the book expects."""
    begins = f"{Kind.FILM.value}:"
    measured = [value for name, value in values.items() if name.startswith(begins) and isinstance(value, Decimal)]
    return (min(measured), max(measured)) if measured else limits.film


def predicted(
    gaps: Iterable[Measured], values: Mapping[str, Value], film: tuple[Decimal, Decimal]
) -> tuple[Predicted, ...]:
    """Of every point that was read in metal; `film` in µm on each of both edges."""
    found = []
    for measured in gaps:
        limit = within(measured.gap.painted)
        for point in measured.points:
            metal = values.get(f"{Kind.GAP.value}:{point.id}")
            if isinstance(metal, Decimal):
                least, most = (metal - _EDGES * coat / _THOUSAND for coat in (film[1], film[0]))
                found.append(Predicted(point.id, least, most, limit))
    return tuple(found)

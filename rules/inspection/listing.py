"""What is looked at on one shell: every subject in the order of the inspection, with its limits from the book."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_HALF_UP, ROUND_UP, Decimal

from rules.inspection.coating import WORST
from rules.inspection.subject import Found, Kind, Limit, Phase, Subject
from rules.making import Fixture, Limits, Target, Zone
from rules.model import Book, Role
from rules.model import Work as At
from rules.workshop.work import Do, Measured, Place, Task, Work

_SPOT = "21"

#: Of a book that has none: then nothing of it is judged but what has a target of its own.
NO_LIMITS = Limits(Decimal(0), Decimal(0), Decimal(0), (Decimal(0), Decimal(0)), WORST, Decimal(100))

#: Of what the firm sees to, and no inspector.
_NOT_LOOKED_AT = (Role.DELIVERY,)

_YES = Limit(expected="yes")


def subjects_of(book: Book, work: Work, settled: tuple[str, ...], limits: Limits) -> tuple[Subject, ...]:
    """Of one shell: all in metal first, then with its coat. `settled`: ids of the options that it was specified by."""
    return (*_in_metal(book, work, settled, limits), *_coated(book, work, limits))


def is_painted(book: Book, work: Work) -> bool:
    """Whether paint is put on it, by what the book says is done at its stages."""
    paint = {stage.id for stage in book.stages if stage.work is At.PAINT}
    return any(stage.stage in paint for stage in work.stages)


def _in_metal(book: Book, work: Work, settled: tuple[str, ...], limits: Limits) -> Iterator[Subject]:
    silent = {book.roles.get(role) for role in _NOT_LOOKED_AT}
    for option in settled:
        if option not in silent:
            yield Subject(Kind.FEATURE, Phase.METAL, option, _YES)
    for task in work.tasks:
        yield from _zones(task, limits)
    for datum in work.datums:
        yield Subject(Kind.DATUM, Phase.METAL, datum.id, within(datum.target))
    yield from _gaps(work.gaps, Phase.METAL)
    for place in work.places:
        yield Subject(Kind.HOLE, Phase.METAL, place.hole.id, Limit(expected=found_at(place).value))
    for thread in work.threads:
        yield Subject(Kind.THREAD, Phase.METAL, thread.id, Limit(least=Decimal(thread.count)))
    yield Subject(Kind.SURFACE, Phase.METAL, limit=_YES)


def _zones(task: Task, limits: Limits) -> Iterator[Subject]:
    """A spot-welded zone is measured; a seam is looked over."""
    spot = task.operation.process == _SPOT
    for zone in task.zones:
        count = Decimal(zone.welds)
        yield Subject(Kind.WELD, Phase.METAL, zone.id, Limit(least=count, most=count))
        if spot:
            yield from _spots(zone, limits)
        else:
            yield Subject(Kind.SEAM, Phase.METAL, zone.id, _YES)


def _spots(zone: Zone, limits: Limits) -> Iterator[Subject]:
    thinner = min(zone.sheets)
    nugget = Limit(least=times_root(limits.nugget, thinner), aim=times_root(limits.aim, thinner))
    yield Subject(Kind.NUGGET, Phase.METAL, zone.id, nugget)
    row = next((spot for spot in limits.spots if spot.sheet >= thinner), None)
    if row is not None:
        more = 1 + limits.three_sheets / 100 if len(zone.sheets) > 2 else Decimal(1)
        spacing = (row.spacing * more).quantize(row.spacing, ROUND_UP)
        yield Subject(Kind.SPACING, Phase.METAL, zone.id, Limit(least=spacing))
        yield Subject(Kind.OVERLAP, Phase.METAL, zone.id, Limit(least=row.overlap))


def times_root(factor: Decimal, sheet: Decimal) -> Decimal:
    """factor · √t in millimetres, to a thousandth, as it is printed: so a reading that reads the same is within."""
    return (factor * sheet.sqrt()).quantize(Decimal("0.001"), ROUND_HALF_UP)


def within(target: Target) -> Limit:
    """Its tolerance on either side, limits included."""
    return Limit(least=target.nominal - target.tolerance, most=target.nominal + target.tolerance)


def _gaps(gaps: tuple[Measured, ...], phase: Phase) -> Iterator[Subject]:
    metal = phase is Phase.METAL
    for measured in gaps:
        gap = measured.gap
        wide, level = within(gap.metal if metal else gap.painted), within(gap.flush)
        level = Limit(level.least, most=Decimal(0)) if gap.leading else level
        for point in measured.points:
            yield Subject(Kind.GAP if metal else Kind.PAINTED, phase, point.id, wide)
            yield Subject(Kind.FLUSH if metal else Kind.FLUSH_PAINTED, phase, point.id, level)


def found_at(place: Place) -> Found:
    """What has to be found there. What is left is open where no shell has it drilled: the tool pierced it."""
    if place.do is Do.BLANK:
        return Found.BLANKED
    pierced = place.hole.drill is None and place.hole.fixture is Fixture.HOLE
    return Found.PRESENT if place.do is Do.DRILL or pierced else Found.ABSENT


def _coated(book: Book, work: Work, limits: Limits) -> Iterator[Subject]:
    if work.coat is not None:
        low, high = work.coat.film
        for panel in work.panels:
            yield Subject(Kind.FILM, Phase.COATED, panel.id, Limit(least=low, most=high))
        yield Subject(Kind.ADHESION, Phase.COATED, limit=Limit(most=Decimal(limits.adhesion)))
    if is_painted(book, work):
        yield Subject(Kind.SAMPLE, Phase.COATED)
        yield Subject(Kind.COLOUR, Phase.COATED, limit=Limit(most=limits.colour))
        yield from _gaps(work.gaps, Phase.COATED)

"""What a concession or a piece of rework is about: one place or property of a shell, as in `weld:z-sills`. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from rules.workshop.work import Work


class About(StrEnum):
    """What sort of thing of the shell it is. The last four may stand alone, for all of the shell."""

    WELD = "weld"
    GAP = "gap"
    FLUSH = "flush"
    PAINTED = "painted"
    FLUSH_PAINTED = "flush-painted"
    DATUM = "datum"
    HOLE = "hole"
    THREAD = "thread"
    FEATURE = "feature"
    KIT = "kit"
    PART = "part"
    FILM = "film"
    ADHESION = "adhesion"
    COLOUR = "colour"
    SURFACE = "surface"


_ALONE = (About.FILM, About.ADHESION, About.COLOUR, About.SURFACE)


@dataclass(frozen=True, slots=True, order=True)
class Subject:
    """`of`: which zone, point, datum, hole, option, line of the kit …; empty for all of the shell."""

    about: About
    of: str = ""

    def __str__(self) -> str:
        return f"{self.about}:{self.of}" if self.of else self.about.value


def subject(text: str) -> Subject | None:
    """As it was written; None where it can be about nothing."""
    about, _, of = text.partition(":")
    if about not in set(About):
        return None
    found = Subject(About(about), of)
    return found if of or found.about in _ALONE else None


def has(work: Work, about: Subject) -> bool:
    """Whether this shell has it. What its work doesn't name, as a line of the kit, it is taken to have."""
    named = dict(_named(work)).get(about.about)
    return named is None or about.of in named


def subjects(work: Work) -> Iterator[Subject]:
    """All that this shell's work names, in build order, and what may stand for the whole shell."""
    for about, names in _named(work):
        yield from (Subject(about, name) for name in names)
    yield from (Subject(about) for about in _ALONE)


def _named(work: Work) -> Iterator[tuple[About, tuple[str, ...]]]:
    """A gap as a whole, and each of its points."""
    gaps = tuple(name for gap in work.gaps for name in (gap.gap.id, *(point.id for point in gap.points)))
    yield About.WELD, tuple(zone.id for task in work.tasks for zone in task.zones)
    for about in (About.GAP, About.FLUSH, About.PAINTED, About.FLUSH_PAINTED):
        yield about, gaps
    yield About.DATUM, tuple(datum.id for datum in work.datums)
    yield About.HOLE, tuple(place.hole.id for place in work.places)
    yield About.THREAD, tuple(thread.id for thread in work.threads)

"""What one shell needs of how the book makes shells, and in what it is not standard. Not whether it can be built."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum

from rules.condition import Condition
from rules.donor.resolve import domains_of, holds_with
from rules.donor.usual import key_options, usual_choice
from rules.making import Coat, Datum, Gap, Hole, Operation, Panel, Point, Sort, Thread, Zone
from rules.model import Book
from rules.specification import Donor

#: Letters of the map; I and O are read as figures.
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


class OpenOptions(ValueError):
    """A shell can't be made from a specification that leaves something open: `options` are their ids."""

    def __init__(self, options: tuple[str, ...]) -> None:
        super().__init__(f"The specification leaves these open: {', '.join(options)}. Settle them first.")
        self.options = options


class Do(Enum):
    """What is done at a place of the map."""

    DRILL = "drill"
    BLANK = "blank"
    LEAVE = "leave"


@dataclass(frozen=True, slots=True)
class Task:
    """An operation that the shell needs, and the weld zones that it makes."""

    operation: Operation
    zones: tuple[Zone, ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """A hole or bracket on this shell. `letter`: the same on every shell; `y` as this hand has it."""

    hole: Hole
    letter: str
    do: Do
    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Measured:
    """A gap that the shell has, and the points at which it is measured."""

    gap: Gap
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Departure:
    """A structural option that differs from the usual of the ordered series and market."""

    option: str
    choice: str
    usual: str


@dataclass(frozen=True, slots=True)
class StageWork:
    """Everything at one stage, in build order. `tasks` hold no masking: that is `masks`."""

    stage: str
    tasks: tuple[Task, ...]
    places: tuple[Place, ...]
    datums: tuple[Datum, ...]
    gaps: tuple[Measured, ...]
    masks: tuple[Operation, ...]


@dataclass(frozen=True, slots=True)
class Work:
    """`stages`: those with anything to do, in the book's order. `mirrored`: handed places lie on the other side.

    `coat`: what it leaves with; None where the book says none, or more than one.
    """

    stages: tuple[StageWork, ...]
    mirrored: bool
    departures: tuple[Departure, ...]
    coat: Coat | None = None
    threads: tuple[Thread, ...] = ()
    panels: tuple[Panel, ...] = ()

    @property
    def places(self) -> tuple[Place, ...]:
        """Every place of the map, by its letter."""
        return tuple(sorted((p for s in self.stages for p in s.places), key=lambda p: (len(p.letter), p.letter)))

    @property
    def gaps(self) -> tuple[Measured, ...]:
        """Every gap, in build order."""
        return tuple(gap for stage in self.stages for gap in stage.gaps)

    @property
    def datums(self) -> tuple[Datum, ...]:
        """Every datum and diagonal, in build order."""
        return tuple(datum for stage in self.stages for datum in stage.datums)

    @property
    def tasks(self) -> tuple[Task, ...]:
        """Every operation but masking, in build order."""
        return tuple(task for stage in self.stages for task in stage.tasks)


def work_of(book: Book, donor: Donor, settled: Mapping[str, str]) -> Work:
    """The work on a shell whose every option is `settled`; OpenOptions where one is not."""
    missing = tuple(option.id for option in book.options if option.id not in settled)
    if missing:
        raise OpenOptions(missing)
    domains = domains_of(book)

    def needed(when: Condition) -> bool:
        return holds_with(when, book, donor, settled, domains)

    mirrored = book.making.mirrored is not None and needed(book.making.mirrored)
    stages = (_stage(book, stage.id, mirrored, needed) for stage in book.stages)
    coats = [coat for coat in book.making.coats if needed(coat.when)]
    return Work(
        stages=tuple(stage for stage in stages if _anything(stage)),
        mirrored=mirrored,
        departures=_departures(book, donor, settled),
        coat=coats[0] if len(coats) == 1 else None,
        threads=tuple(thread for thread in book.making.threads if needed(thread.when)),
        panels=tuple(panel for panel in book.making.panels if needed(panel.when)),
    )


def letter_of(place: int) -> str:
    """The letter of the book's hole at `place`, counted from 0: A to Z, then AA, AB and so on."""
    more, last = divmod(place, len(_LETTERS))
    return (letter_of(more - 1) if more else "") + _LETTERS[last]


def _stage(book: Book, stage: str, mirrored: bool, needed: Callable[[Condition], bool]) -> StageWork:
    made = book.making
    due = [one for one in made.operations if one.stage == stage and needed(one.when)]
    holes = ((letter_of(at), hole) for at, hole in enumerate(made.holes) if hole.stage == stage)
    places = (_place(hole, letter, mirrored, needed) for letter, hole in holes)
    gaps = (gap for gap in made.gaps if gap.stage == stage and needed(gap.when))
    return StageWork(
        stage=stage,
        tasks=tuple(Task(one, _zones(book, one, needed)) for one in due if one.sort is not Sort.MASK),
        places=tuple(place for place in places if place is not None),
        datums=tuple(datum for datum in made.datums if datum.stage == stage and needed(datum.when)),
        gaps=tuple(Measured(gap, tuple(p for p in gap.points if needed(p.when))) for gap in gaps),
        masks=tuple(one for one in due if one.sort is Sort.MASK),
    )


def _zones(book: Book, operation: Operation, needed: Callable[[Condition], bool]) -> tuple[Zone, ...]:
    return tuple(zone for zone in book.making.zones if zone.operation == operation.id and needed(zone.when))


def _place(hole: Hole, letter: str, mirrored: bool, needed: Callable[[Condition], bool]) -> Place | None:
    """Nothing where none of its conditions holds: this shell has no such place."""
    ways = ((Do.DRILL, hole.drill), (Do.BLANK, hole.blank), (Do.LEAVE, hole.leave))
    do = next((way for way, when in ways if when is not None and needed(when)), None)
    y = -hole.y if mirrored and hole.handed else hole.y
    return None if do is None else Place(hole, letter, do, hole.x, y)


def _anything(stage: StageWork) -> bool:
    return any((stage.tasks, stage.places, stage.datums, stage.gaps, stage.masks))


def _departures(book: Book, donor: Donor, settled: Mapping[str, str]) -> tuple[Departure, ...]:
    keys = {key: settled[key] for key in key_options(book)}
    told = (option.id for option in book.options if option.structural)
    compared = ((option, settled[option], usual_choice(book, option, keys, donor)) for option in told)
    return tuple(Departure(option, choice, usual) for option, choice, usual in compared if choice != usual)

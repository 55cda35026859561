"""How a shell is made and measured, as a rule book says it: frozen types only. What one shell needs is in `workshop`.

Places are millimetres on the shell seen from above: `x` behind its nose, `y` to the car's right of the centre line.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import Enum

from rules.condition import Condition


@dataclass(frozen=True, slots=True)
class Process:
    """A welding process; `id` is its number by ISO 4063, `label` language → its name."""

    id: str
    label: Mapping[str, str]


class Sort(Enum):
    """What an operation is. HOLD: nobody goes on before it is signed. MASK: what is kept free of paint."""

    WORK = "work"
    HOLD = "hold"
    MASK = "mask"


@dataclass(frozen=True, slots=True)
class Operation:
    """One thing that is done at `stage` on a shell for which `when` holds; `process`: how it is welded, if it is."""

    id: str
    stage: str
    when: Condition
    text: Mapping[str, str]
    process: str | None = None
    sort: Sort = Sort.WORK


@dataclass(frozen=True, slots=True)
class Zone:
    """A weld zone: `welds` welds of the process of `operation`, through sheets of these thicknesses in millimetres."""

    id: str
    operation: str
    welds: int
    sheets: tuple[Decimal, ...]
    when: Condition
    label: Mapping[str, str]
    line: int = field(default=0, compare=False)


class Fixture(Enum):
    """What the map of holes and brackets shows."""

    HOLE = "hole"
    BRACKET = "bracket"


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole or bracket of the map, drilled, blanked or left alone where one of the conditions holds; else not there.

    `size`: millimetres across, None for a bracket. `handed`: on the other side of the centre line of a mirrored shell.
    """

    id: str
    fixture: Fixture
    stage: str
    size: Decimal | None
    x: int
    y: int
    handed: bool
    drill: Condition | None
    blank: Condition | None
    leave: Condition | None
    label: Mapping[str, str]
    line: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Target:
    """What a measure should be, and by how much it may miss that on either side, limits included; millimetres.

    `general`: the class of ISO 2768-1 that the tolerance was taken from; empty where the book gives its own.
    """

    nominal: Decimal
    tolerance: Decimal
    general: str = ""


class Side(Enum):
    """Of the car, as one sits in it."""

    LEFT = "left"
    RIGHT = "right"
    MIDDLE = "middle"


@dataclass(frozen=True, slots=True)
class Point:
    """Where a gap is measured, and how flush its sides are."""

    id: str
    side: Side
    x: int
    y: int
    when: Condition
    label: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Gap:
    """A gap with its targets at every point. `customers`: the part rule whose part is one of its sides.

    `taper`: by how much the points of one side may differ; `across`: a left point from the right one facing it.
    `leading`: the edge behind the gap meets the wind, and may not stand proud of the one before it.
    """

    id: str
    stage: str
    metal: Target
    painted: Target
    flush: Target
    when: Condition
    label: Mapping[str, str]
    points: tuple[Point, ...] = ()
    taper: Decimal | None = None
    across: Decimal | None = None
    customers: str | None = None
    leading: bool = False


class Reach(Enum):
    """What a datum is: a distance between two datum points, or a diagonal of four."""

    DISTANCE = "distance"
    DIAGONAL = "diagonal"


@dataclass(frozen=True, slots=True)
class Datum:
    """A measure of the structure that is taken at `stage`."""

    id: str
    reach: Reach
    stage: str
    target: Target
    when: Condition
    label: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Spot:
    """A row of the schedule of spot welds: least spacing and overlap for sheets up to this thickness; millimetres."""

    sheet: Decimal
    spacing: Decimal
    overlap: Decimal


@dataclass(frozen=True, slots=True)
class Limits:
    """What an inspector holds a shell against, beside the targets. t: the thinner sheet of a joint, millimetres.

    `nugget`, `aim`: times √t; `three_sheets`: percent more spacing; `film`: µm that close a gap at each of its two
    edges where none was measured; `adhesion`: the worst class by ISO 2409; `colour`: the largest ΔE00.
    """

    nugget: Decimal
    aim: Decimal
    three_sheets: Decimal
    film: tuple[Decimal, Decimal]
    adhesion: int
    colour: Decimal
    spots: tuple[Spot, ...] = ()


@dataclass(frozen=True, slots=True)
class Coat:
    """What a shell for which `when` holds is coated with: `film` from … to in µm, and days until it is overcoated."""

    id: str
    film: tuple[Decimal, Decimal]
    overcoat: int | None
    when: Condition
    label: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Thread:
    """`count` threads of one sort, which a gauge goes into."""

    id: str
    count: int
    when: Condition
    label: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel on which the film is measured."""

    id: str
    when: Condition
    label: Mapping[str, str]


class Supply(Enum):
    """What a line of a shell's kit is."""

    PRESSING = "pressing"
    ASSEMBLY = "sub-assembly"
    JIG = "jig"


@dataclass(frozen=True, slots=True)
class KitLine:
    """What has to lie ready before a shell is released, on those for which `when` holds."""

    id: str
    supply: Supply
    when: Condition
    label: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Making:
    """Everything of it. `mirrored`: on which shells handed places lie on the other side."""

    processes: tuple[Process, ...] = ()
    operations: tuple[Operation, ...] = ()
    zones: tuple[Zone, ...] = ()
    holes: tuple[Hole, ...] = ()
    mirrored: Condition | None = None
    gaps: tuple[Gap, ...] = ()
    datums: tuple[Datum, ...] = ()
    limits: Limits | None = None
    coats: tuple[Coat, ...] = ()
    threads: tuple[Thread, ...] = ()
    panels: tuple[Panel, ...] = ()
    kit: tuple[KitLine, ...] = ()

"""Do promises hold? A workshop lives through years of mishaps; each shell is held against what it was promised.

Time is counted in working days, as promises are, so no holiday matters. Chance comes only from the numbers that are
handed in: the same numbers give the same years.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from heapq import heappop, heappush
from itertools import accumulate
from math import ceil

#: Numbers evenly spread from 0 up to 1, one at each call.
Draw = Callable[[], float]

WEEK = 5
#: Working days of a year and of a month, a twelfth of it.
YEAR = 252
MONTH = 21
#: Days before and after a year that are lived through and not counted: at the beginning the shop is empty.
BEFORE, AFTER = 3 * MONTH, 2 * MONTH
_ALL = BEFORE + YEAR + AFTER

_EVEN = 1e-9


@dataclass(frozen=True, slots=True)
class Place:
    """A stage as it works. `per_week`: shells it takes in a week; `bays`: shells in it at once; None: no such limit.

    `changeover`: what a change of kind costs, in shells of the week.
    """

    id: str
    per_week: float | None = None
    bays: int | None = None
    changeover: float = 0.0


@dataclass(frozen=True, slots=True)
class Work:
    """A sort of shell. `days`: place → working days, for those that it passes; `kind`: what the changeover goes by.

    `tools`: what it depends on; `part_before`: the place before which a customer's part must have come, if any.
    """

    days: Mapping[str, float]
    kind: str = ""
    tools: frozenset[str] = frozenset()
    part_before: str | None = None


@dataclass(frozen=True, slots=True)
class Workshop:
    """`places` in the order in which shells pass them: the first has the slots. `mix`: each sort as often as it comes.

    `slack`: working days at the end of every promise in which no work is planned.
    """

    places: tuple[Place, ...]
    mix: tuple[Work, ...]
    slack: int = 0


@dataclass(frozen=True, slots=True)
class Mishaps:
    """Shares from 0 to 1, days are working days; as it stands nothing ever happens.

    `rework` of the shells stay `rework_days` longer at `rework_at`. Of those that wait for a customer's part
    `part_late` have it `part_days` after the day on which it was needed. One of `tools` is down once a year,
    for `tool_days`. `booth` stands still on `booth_days` days of each month, with all that is in it.
    """

    rework: float = 0.0
    rework_days: int = 0
    rework_at: str = ""
    part_late: float = 0.0
    part_days: int = 0
    tools: tuple[str, ...] = ()
    tool_days: int = 0
    booth: str = ""
    booth_days: int = 0


@dataclass(frozen=True, slots=True)
class Tried:
    """`late`: at n the shells that were ready n working days after the first promised day; those in time are at 0.

    `years`: of each year the share that was ready within the width asked about.
    """

    late: tuple[int, ...]
    years: tuple[float, ...]

    @property
    def shells(self) -> int:
        return sum(self.late)

    def kept(self, width: int) -> float:
        """The share that was ready no more than so many working days late; 1 where there was no shell."""
        return sum(self.late[: width + 1]) / self.shells if self.shells else 1.0

    def width_for(self, share: float) -> int:
        """The least width that keeps so large a share."""
        held = accumulate(self.late)
        return next((width for width, many in enumerate(held) if many >= share * self.shells - _EVEN), 0)


@dataclass(slots=True)
class Shell:
    """On its way. `at`: from when it can come into the next place; `extra`: place → days more there.

    `part_on`: from when its part is there; `due`: when it came into the place before which the part must be there.
    """

    work: Work
    slot: float
    at: float
    extra: Mapping[str, float] = field(default_factory=dict)
    part_on: float = 0.0
    due: float = 0.0


def a_year(workshop: Workshop, mishaps: Mishaps, load: float, draw: Draw) -> list[int]:
    """Working days by which each shell with its slot in the year was ready after its first promised day.

    `load`: the share of what each place can take, above 0, that is planned; all of it is there when it comes to it.
    """
    planned = replace(workshop, places=tuple(_to_the_line(place, load) for place in workshop.places))
    shells = list(_slots(planned, workshop, load, draw))
    promised = pass_through(planned, shells)
    lived = list(_befallen(workshop, mishaps, shells, draw))
    ready = pass_through(workshop, lived, mishaps.booth, _lost(mishaps, draw))
    return [
        max(0, ceil(came - due - workshop.slack - _EVEN))
        for shell, due, came in zip(shells, promised, ready, strict=True)
        if BEFORE <= shell.slot < BEFORE + YEAR
    ]


def tried(years: Iterable[Sequence[int]], width: int) -> Tried:
    """The years together, and what share of each was kept by that width."""
    late, shares = list[int](), list[float]()
    for year in years:
        late += [0] * (max(year, default=0) + 1 - len(late))
        for days in year:
            late[days] += 1
        shares.append(sum(days <= width for days in year) / len(year) if year else 1.0)
    return Tried(tuple(late), tuple(shares))


def pass_through(
    workshop: Workshop, shells: Sequence[Shell], stands_still: str = "", lost: Sequence[int] = ()
) -> list[float]:
    """When each is through the last place; who can come in first is served first.

    `stands_still`: the place where nothing is done on the days `lost`, in their order.
    """
    for place in workshop.places:
        queue = sorted((_from(shell, place), n) for n, shell in enumerate(shells) if place.id in shell.work.days)
        _serve(place, [(since, shells[n]) for since, n in queue], lost if place.id == stands_still else ())
    return [shell.at for shell in shells]


def _from(shell: Shell, place: Place) -> float:
    return max(shell.at, shell.part_on) if shell.work.part_before == place.id else shell.at


def _serve(place: Place, queue: Sequence[tuple[float, Shell]], lost: Sequence[int]) -> None:
    """`queue`: from when each can come in."""
    between = 0.0 if place.per_week is None else WEEK / place.per_week
    bays, free, kind = [0.0] * (place.bays or 0), 0.0, None
    for since, shell in queue:
        changed = kind is not None and shell.work.kind != kind
        ready = _worked(free, between * place.changeover, lost) if changed else free
        start = _next_worked(max(since, ready, heappop(bays) if bays else 0.0), lost)
        shell.at = _worked(start, shell.work.days[place.id] + shell.extra.get(place.id, 0.0), lost)
        free, kind = _worked(start, between, lost), shell.work.kind
        if place.bays is not None:
            heappush(bays, shell.at)
        if shell.work.part_before == place.id:
            shell.due = start


def _next_worked(start: float, lost: Sequence[int]) -> float:
    """The moment itself, or the end of the lost days that it falls into."""
    at = bisect_right(lost, start) - 1
    while 0 <= at < len(lost) and lost[at] <= start < lost[at] + 1:
        start, at = float(lost[at] + 1), at + 1
    return start


def _worked(start: float, days: float, lost: Sequence[int]) -> float:
    """When so many days have been worked that are not lost."""
    end, at = start + days, bisect_left(lost, start)
    while at < len(lost) and lost[at] < end - _EVEN:
        end, at = end + 1, at + 1
    return end


def _to_the_line(place: Place, load: float) -> Place:
    return place if place.per_week is None else replace(place, per_week=place.per_week * load)


def _slots(planned: Workshop, workshop: Workshop, load: float, draw: Draw) -> Iterator[Shell]:
    """One after the other as the first place is planned, no faster than every other place keeps up with.

    Each round of shells is the mix itself in an order of its own: chance decides who comes next, not what is wanted.
    """
    first, slowest = planned.places[0], WEEK / (load * _rate_behind(workshop))
    between = 0.0 if first.per_week is None else WEEK / first.per_week
    slot, bag, kind = 0.0, list[Work](), None
    while slot < _ALL:
        bag = bag or list(workshop.mix)
        work = bag.pop(int(draw() * len(bag)))
        if kind is not None and work.kind != kind:
            slot += between * first.changeover
        yield Shell(work, slot, slot)
        slot, kind = slot + max(between, slowest, _LEAST), work.kind


#: So that a workshop without any limit still takes one shell after the other.
_LEAST = 0.05


def _rate_behind(workshop: Workshop) -> float:
    """Shells of the mix a week that the places can take, but for the rate of the first."""
    rates, many = [float("inf")], len(workshop.mix)
    for n, place in enumerate(workshop.places):
        days = [work.days[place.id] for work in workshop.mix if place.id in work.days]
        if n and days and place.per_week is not None:
            rates.append(place.per_week * many / len(days))
        if sum(days) and place.bays is not None:
            rates.append(place.bays * WEEK * many / sum(days))
    return min(rates)


def _befallen(workshop: Workshop, mishaps: Mishaps, shells: Sequence[Shell], draw: Draw) -> Iterator[Shell]:
    """Each with what happens to it. One whose slot falls into the days of its tool waits until they are over."""
    tool, down = _tool_down(mishaps, draw)
    for shell in shells:
        reworked, late = draw() < mishaps.rework, draw() < mishaps.part_late
        waits = shell.work.tools and tool in shell.work.tools and down <= shell.slot < down + mishaps.tool_days
        yield Shell(
            work=shell.work,
            slot=shell.slot,
            at=down + mishaps.tool_days if waits else shell.slot,
            extra={mishaps.rework_at: float(mishaps.rework_days)} if reworked else {},
            part_on=shell.due + mishaps.part_days if late else 0.0,
        )


def _tool_down(mishaps: Mishaps, draw: Draw) -> tuple[str, float]:
    """Which, and from when."""
    which, day = draw(), draw()
    tools = mishaps.tools
    return (tools[int(which * len(tools))], BEFORE + day * YEAR) if tools and mishaps.tool_days else ("", 0.0)


def _lost(mishaps: Mishaps, draw: Draw) -> list[int]:
    lost: list[int] = []
    for month in range(_ALL // MONTH + 1):
        days = list(range(MONTH))
        lost += sorted(month * MONTH + days.pop(int(draw() * len(days))) for _ in range(mishaps.booth_days))
    return lost

"""What the stages can take: shells a week, shells at once, half slots for changeovers, and the line plans keep below.

A rate and the days a shell spends at a stage are two facts of the book: neither is ever worked out from the other.
Whose shell a visit is, is not known here.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

from rules.model import Book, Calendar, Stage
from rules.schedule.days import WorkingDays

_WEEK = timedelta(days=7)
_NONE = Decimal(0)

#: A shell in the queue of a stage: the day it comes in, and its kind.
Come = tuple[date, str]


@dataclass(frozen=True, slots=True)
class Visit:
    """A shell at a stage: in on `start`, on to the next on `end`. `kind`: its choice of what the stage changes for."""

    stage: str
    start: date
    end: date
    kind: str = ""


@dataclass(frozen=True, slots=True)
class StageLoad:
    """What is planned at one stage: in the order of days who comes (`queue`), and how many are in on a day."""

    queue: list[tuple[date, str]] = field(default_factory=list)
    within: dict[date, int] = field(default_factory=dict)
    by_week: dict[date, Decimal] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Changeover:
    """What a change of kind takes of the week of that Monday, in slots: it counts against the shell `of`.

    `behind`: that shell comes before the change; else after it.
    """

    week: date
    slots: Decimal
    of: Come
    behind: bool


@dataclass(frozen=True, slots=True)
class WeekLoad:
    """A stage's week: slots, or days of a bay. `takes` all that it could, `line` what is planned of it at most.

    `over`: with its neighbours the week lies above the line.
    """

    week: date
    used: Decimal
    takes: Decimal
    line: Decimal
    over: bool


@dataclass(frozen=True, slots=True)
class Shop:
    """The stages with what is planned at each. `free`: stages asked about as if they could take anything."""

    stages: Mapping[str, Stage]
    slot_stage: str
    calendar: Calendar
    working: WorkingDays
    loads: Mapping[str, StageLoad]
    free: frozenset[str] = frozenset()

    def fits(self, visit: Visit) -> bool:
        """Whether the visit can be planned besides all that is: within the week's rate, the bays and the line."""
        if visit.stage in self.free:
            return True
        stage, load = self.stages[visit.stage], self.loads.get(visit.stage, _EMPTY)
        if visit.stage == self.slot_stage and _at(load, visit.start):
            return False
        return self._keeps_rate(stage, load, visit) and self._keeps_bays(stage, load, visit)

    def takes(self, stage: Stage, week: date) -> Decimal | None:
        """Slots of the stage in the week of that Monday; none while it is closed; None: no rate is set."""
        if stage.per_week is None:
            return None
        return stage.per_week if any(map(self.working.is_working, _week_days(week))) else _NONE

    def planned(self, stage: Stage, weeks: Sequence[date]) -> Decimal:
        """What may be planned over the weeks together: the line's share of what the stage can take."""
        taken = sum(((self.takes(stage, week) or _NONE) for week in weeks), _NONE)
        return self._share(taken)

    def used(self, stage: str, week: date) -> Decimal:
        """Slots planned in the week of that Monday, changeovers among them."""
        return self.loads.get(stage, _EMPTY).by_week.get(week, _NONE)

    def week_load(self, stage: Stage, week: date) -> WeekLoad | None:
        """In slots where a rate is set, else in days of its bays; None: the stage knows neither."""
        if stage.per_week is not None:
            takes = self.takes(stage, week) or _NONE
            over = any(self._used_in(stage.id, weeks) > self.planned(stage, weeks) for weeks in self._windows(week))
            return WeekLoad(week, self.used(stage.id, week), takes, self._share(takes), over)
        if stage.bays is None:
            return None
        load = self.loads.get(stage.id, _EMPTY)
        takes, used = self._bay_days(stage.bays, (week,)), self._bay_days_used(load, (week,))
        over = any(
            self._bay_days_used(load, weeks) > self._share(self._bay_days(stage.bays, weeks))
            for weeks in self._windows(week)
        )
        return WeekLoad(week, used, takes, self._share(takes), over)

    def plus(self, visits: Iterable[Visit]) -> Shop:
        """With these visits planned besides; stages that can take anything are not counted."""
        loads = dict(self.loads)
        for visit in visits:
            stage = self.stages.get(visit.stage)
            if stage is None or (stage.per_week is None and stage.bays is None and stage.id != self.slot_stage):
                continue
            had = loads.get(stage.id, _EMPTY)
            load = StageLoad(list(had.queue), dict(had.within))
            _count(load, stage, visit)
            load.by_week.update(slots_used(stage, load.queue))
            loads[stage.id] = load
        return replace(self, loads=loads)

    def no_fuller_than(self, other: Shop, stage: Stage) -> bool:
        """No week of the stage, alone or with those the line joins it to, is above its limit, or more so than there."""
        return all(self._no_fuller(other, stage, week) for week in self.loads.get(stage.id, _EMPTY).by_week)

    def _no_fuller(self, other: Shop, stage: Stage, week: date) -> bool:
        takes = self.takes(stage, week)
        if takes is None:
            return True
        if self.used(stage.id, week) > max(takes, other.used(stage.id, week)):
            return False
        return all(
            self._used_in(stage.id, weeks) <= max(self.planned(stage, weeks), other._used_in(stage.id, weeks))
            for weeks in self._windows(week)
        )

    def _used_in(self, stage: str, weeks: Sequence[date]) -> Decimal:
        return sum((self.used(stage, one) for one in weeks), _NONE)

    def _share(self, takes: Decimal) -> Decimal:
        return takes * self.calendar.load_percent / 100

    def _bay_days(self, bays: int, weeks: Sequence[date]) -> Decimal:
        return Decimal(bays * sum(len(self._open_days(week)) for week in weeks))

    def _bay_days_used(self, load: StageLoad, weeks: Sequence[date]) -> Decimal:
        """On a day without work no bay is taken, and none is there to be taken."""
        return Decimal(sum(load.within.get(day, 0) for week in weeks for day in self._open_days(week)))

    def _keeps_rate(self, stage: Stage, load: StageLoad, visit: Visit) -> bool:
        if stage.per_week is None:
            return True
        more = _added(stage, load.queue, visit)
        return all(
            self._week_holds(stage, load, more, week) and self._line_holds(stage, load, more, week)
            for week, added in more.items()
            if added > 0
        )

    def _week_holds(self, stage: Stage, load: StageLoad, more: Mapping[date, Decimal], week: date) -> bool:
        return load.by_week.get(week, _NONE) + more.get(week, _NONE) <= (self.takes(stage, week) or _NONE)

    def _line_holds(self, stage: Stage, load: StageLoad, more: Mapping[date, Decimal], week: date) -> bool:
        for weeks in self._windows(week):
            planned = sum((load.by_week.get(one, _NONE) + more.get(one, _NONE) for one in weeks), _NONE)
            if planned > self.planned(stage, weeks):
                return False
        return True

    def _keeps_bays(self, stage: Stage, load: StageLoad, visit: Visit) -> bool:
        if stage.bays is None:
            return True
        days = [day for day in _days(visit) if self.working.is_working(day)]
        if any(load.within.get(day, 0) >= stage.bays for day in days):
            return False
        weeks = dict.fromkeys(week_of(day) for day in days)
        return all(
            self._bay_line_holds(stage.bays, load, days, window) for week in weeks for window in self._windows(week)
        )

    def _bay_line_holds(self, bays: int, load: StageLoad, days: Sequence[date], weeks: Sequence[date]) -> bool:
        """Days of a bay, held to the line's share of all the days that the bays are open."""
        own = sum(weeks[0] <= week_of(day) <= weeks[-1] for day in days)
        return self._bay_days_used(load, weeks) + own <= self._share(self._bay_days(bays, weeks))

    def _windows(self, week: date) -> Iterator[tuple[date, ...]]:
        """Every run of consecutive weeks that the line speaks of and the week is in."""
        many = self.calendar.load_weeks
        for first in range(1 - many, 1):
            yield tuple(week + _WEEK * (first + place) for place in range(many))

    def _open_days(self, week: date) -> list[date]:
        return [day for day in _week_days(week) if self.working.is_working(day)]


_EMPTY = StageLoad()


def slot_stage_of(book: Book) -> str:
    """The stage whose days are the slots: the first that does not lie before the slot; empty where there is none."""
    return next((stage.id for stage in book.stages if not stage.before_slot), "")


def shop(book: Book, working: WorkingDays, visits: Iterable[Visit] = (), free: frozenset[str] = frozenset()) -> Shop:
    """The book's stages with these visits planned."""
    stages = {stage.id: stage for stage in book.stages}
    loads: dict[str, StageLoad] = {}
    for visit in visits:
        _count(loads.setdefault(visit.stage, StageLoad()), stages.get(visit.stage), visit)
    for stage_id, load in loads.items():
        load.by_week.update(slots_used(stages.get(stage_id), load.queue))
    return Shop(stages, slot_stage_of(book), book.calendar, working, loads, free)


def slots_used(stage: Stage | None, queue: Sequence[Come]) -> dict[date, Decimal]:
    """Monday → slots taken, changeovers among them (see `_changeover`)."""
    used: dict[date, Decimal] = {}
    for day, _ in queue:
        used[week_of(day)] = used.get(week_of(day), _NONE) + 1
    for change in changeovers(stage, queue):
        used[change.week] = used.get(change.week, _NONE) + change.slots
    return used


def changeovers(stage: Stage | None, queue: Sequence[Come]) -> Iterator[Changeover]:
    """Every change from one kind of shell to the next, in the week that it counts in."""
    for one, then in pairwise(queue):
        yield from _changeover(stage, one, then)


def week_of(day: date) -> date:
    """The Monday of its week."""
    return day - timedelta(days=day.weekday())


def _count(load: StageLoad, stage: Stage | None, visit: Visit) -> None:
    insort(load.queue, (visit.start, visit.kind))
    if stage is not None and stage.bays is not None:
        for day in _days(visit):
            load.within[day] = load.within.get(day, 0) + 1


def _added(stage: Stage, queue: Sequence[Come], visit: Visit) -> dict[date, Decimal]:
    """What the visit adds to the weeks: its slot, changeovers before and after it, less the one it comes between."""
    own = (visit.start, visit.kind)
    place = bisect_left(queue, own)
    before, after = queue[max(place - 1, 0) : place], queue[place : place + 1]
    added = {week_of(visit.start): Decimal(1)}
    for pair, sign in _pairs(before, own, after):
        for change in _changeover(stage, *pair):
            added[change.week] = added.get(change.week, _NONE) + sign * change.slots
    return added


def _pairs(before: Sequence[Come], own: Come, after: Sequence[Come]) -> Iterator[tuple[tuple[Come, Come], int]]:
    yield from ((pair, 1) for pair in pairwise([*before, own, *after]))
    yield from ((pair, -1) for pair in pairwise([*before, *after]))


def _changeover(stage: Stage | None, one: Come, then: Come) -> Iterator[Changeover]:
    """Against the shell before it, across week-ends too; where a week or more lies between, against the one after.

    Else no shell of the other kind could ever follow a week that is full to the line.
    """
    slots = _change(stage, one[1], then[1])
    if slots:
        near = week_of(then[0]) - week_of(one[0]) <= _WEEK
        against = one if near else then
        yield Changeover(week_of(against[0]), slots, against, behind=near)


def _change(stage: Stage | None, kind: str, then: str) -> Decimal:
    return _NONE if stage is None or stage.changeover_of is None or kind == then else stage.changeover


def _at(load: StageLoad, day: date) -> bool:
    place = bisect_left(load.queue, (day, ""))
    return place < len(load.queue) and load.queue[place][0] == day


def _week_days(week: date) -> list[date]:
    return [week + timedelta(days=n) for n in range(5)]


def _days(visit: Visit) -> Iterator[date]:
    for n in range((visit.end - visit.start).days):
        yield visit.start + timedelta(days=n)

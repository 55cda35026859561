"""Working days, and how many a specification takes. Holidays are handed in; no clock and no slots are known here.

"+ n working days" does not count the day it starts from.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from rules.donor.resolve import domains_of, holds_with
from rules.model import Addition, Book, Closure, Stage
from rules.specification import Donor

_DAY = timedelta(days=1)
_SATURDAY = 5


class HolidaysUnknown(LookupError):
    """The count ran past the last day whose holidays were handed in: hand in more years."""


@dataclass(frozen=True, slots=True)
class WorkingDays:
    """Monday to Friday, less `holidays` and yearly `closures`; `known_to` is the last day the holidays are known of."""

    holidays: frozenset[date] = frozenset()
    closures: tuple[Closure, ...] = ()
    known_to: date = date.max

    def __post_init__(self) -> None:
        if all(self._is_closed(date(2024, 1, 1) + _DAY * n) for n in range(366)):
            raise ValueError("The closures cover the whole year. Leave some days open.")

    def is_working(self, day: date) -> bool:
        """Whether there is work on the day; HolidaysUnknown after `known_to`."""
        if day > self.known_to:
            raise HolidaysUnknown(f"Holidays are known to {self.known_to} only. Hand in those of {day.year} too.")
        return day.weekday() < _SATURDAY and day not in self.holidays and not self._is_closed(day)

    def closure_on(self, day: date) -> Closure | None:
        """The yearly closure that the day falls into, whatever else it is."""
        return next((one for one in self.closures if _covers(one, (day.month, day.day))), None)

    def first_from(self, day: date) -> date:
        """The day itself where there is work on it, else the next working day."""
        while not self.is_working(day):
            day += _DAY
        return day

    def add(self, start: date, count: int) -> date:
        """The day that comes `count` (0 or more) working days after `start`; 0: `start` or the next working day."""
        day = start if count else self.first_from(start)
        for _ in range(count):
            day = self.first_from(day + _DAY)
        return day

    def back(self, end: date, count: int) -> date:
        """The last working day from which `end` is `count` (0 or more) working days away, or fewer."""
        day = end
        for _ in range(count):
            day = self._last_until(day - _DAY)
        return self._last_until(day)

    def between(self, start: date, end: date) -> int:
        """How many working days lie after `start` up to `end`, the latter included: what `add` would be given."""
        return sum(self.is_working(start + _DAY * n) for n in range(1, (end - start).days + 1))

    def _last_until(self, day: date) -> date:
        while not self.is_working(day):
            day -= _DAY
        return day

    def _is_closed(self, day: date) -> bool:
        return self.closure_on(day) is not None


@dataclass(frozen=True, slots=True)
class AddedDays:
    """Days that one addition of the book (`id`) brings."""

    id: str
    days: int


@dataclass(frozen=True, slots=True)
class StageDays:
    """Working days of one stage: `days` in all, the additions that hold among them."""

    stage: str
    days: int
    added: tuple[AddedDays, ...]
    before_slot: bool


@dataclass(frozen=True, slots=True)
class Route:
    """The days of a specification. `gates`: what counts from the passing of a customer's part, side by side."""

    stages: tuple[StageDays, ...]
    gates: tuple[AddedDays, ...]

    @property
    def before_slot(self) -> int:
        """Days of the stages before the framing slot."""
        return sum(stage.days for stage in self.stages if stage.before_slot)

    @property
    def after_slot(self) -> int:
        """Days from the framing slot to ready."""
        return sum(stage.days for stage in self.stages if not stage.before_slot)

    @property
    def gate(self) -> int:
        """Days from the passing of the last customer's part to the earliest framing: the longest of them."""
        return max((added.days for added in self.gates), default=0)

    @property
    def to_slot(self) -> int:
        """Days from the opening of the gates to the earliest framing: stages and gates run side by side."""
        return max(self.before_slot, self.gate)

    @property
    def compared(self) -> int:
        """Days to hold against another specification's: the gates in full, not only what outlasts the stages."""
        return self.before_slot + self.gate + self.after_slot


@dataclass(frozen=True, slots=True)
class DateRange:
    """`framing`: the earliest day of framing; ready from `ready` to `ready_by`."""

    framing: date
    ready: date
    ready_by: date


def route_days(book: Book, made: Mapping[str, str], donor: Donor) -> Route:
    """The days by stage for the choices made (option → choice); what is still open adds nothing yet."""
    domains = domains_of(book)
    added = tuple(a for a in book.additions if holds_with(a.when, book, donor, made, domains))
    stages = tuple(_stage_days(stage, added) for stage in book.stages)
    return Route(stages, _days_of(a for a in added if a.from_gate))


def date_range(book: Book, made: Mapping[str, str], donor: Donor, working_days: WorkingDays, start: date) -> DateRange:
    """What a quotation names: ready … ready + spread, from the day `start` on which the gates open.

    Neither slots taken nor the load of the stages is known here: nothing is promised by it.
    """
    route = route_days(book, made, donor)
    framing = working_days.add(start, route.to_slot)
    ready = working_days.add(framing, route.after_slot)
    return DateRange(framing, ready, working_days.add(ready, book.calendar.spread))


def _stage_days(stage: Stage, added: tuple[Addition, ...]) -> StageDays:
    here = _days_of(addition for addition in added if addition.stage == stage.id and not addition.from_gate)
    return StageDays(stage.id, stage.days + sum(a.days for a in here), here, stage.before_slot)


def _days_of(additions: Iterable[Addition]) -> tuple[AddedDays, ...]:
    return tuple(AddedDays(addition.id, addition.days) for addition in additions)


def _covers(closure: Closure, day: tuple[int, int]) -> bool:
    if closure.start <= closure.end:
        return closure.start <= day <= closure.end
    return day >= closure.start or day <= closure.end

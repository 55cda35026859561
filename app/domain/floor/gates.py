"""The gates before a shell: which there are, when each opened or is expected to, and what waits behind it.

Days are set by hand until the workshop's own records set them; what nobody has dated is taken to open on the day of
asking, and is said to be. Decides nothing about slots.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from rules.answer import Depends
from rules.model import Book
from rules.schedule.capacity import slot_stage_of
from rules.schedule.days import Route
from rules.schedule.promise import GateDay

#: Gates of the whole order; the others are each shell's own.
OF_THE_ORDER = ("deposit", "specification")
#: Those that a person dates; a tool's day is its own expected return.
BY_HAND = (*OF_THE_ORDER, "parts", "approvals", "samples")

#: Gate and what it is about: the rule of a part, an approval or a sample, a tool; or nothing.
Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Said:
    """The day that somebody said a gate opened, or is expected to open."""

    day: date
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Gates:
    """`undated`: tools that are down and nobody knows until when: no day can be named before they are."""

    gates: tuple[GateDay, ...]
    undated: tuple[str, ...] = ()


def gates_of(
    book: Book,
    route: Route,
    depends: Depends,
    said: Mapping[Key, date],
    back: Mapping[str, date | None],
    today: date,
) -> Gates:
    """`said`: what was dated by hand; `back`: tool that is down → the day on which it is expected back."""
    slot = slot_stage_of(book)
    gates = [
        GateDay(name, said.get((name, of), today), before or slot, days, of, _opened(said, (name, of), today))
        for name, of, before, days in _wanted(book, route, depends, slot)
    ]
    tools = [(tool, back.get(tool)) for tool in depends.tools]
    gates += [GateDay("tools", day, slot, route.before_slot, tool) for tool, day in tools if day is not None]
    return Gates(tuple(gates), tuple(tool for tool, day in tools if day is None))


def _opened(said: Mapping[Key, date], key: Key, today: date) -> bool:
    return key in said and said[key] <= today


def _wanted(book: Book, route: Route, depends: Depends, slot: str) -> Iterator[tuple[str, str, str | None, int]]:
    for name in OF_THE_ORDER:
        yield name, "", slot, route.before_slot
    for rule in depends.approvals:
        yield "approvals", rule, slot, route.before_slot
    for rule in depends.parts:
        before = book.rule(rule).needed_before or slot
        yield "parts", rule, before, _from_passing(book, route, rule) if before == slot else 0
    for rule in depends.holds:
        if book.rule(rule).needed_before:
            yield "samples", rule, book.rule(rule).needed_before, 0


def _from_passing(book: Book, route: Route, rule: str) -> int:
    """Beside the work before the slot: the days of the addition that holds for the same shells, else the longest."""
    when = book.rule(rule).when
    own = [added.days for added in route.gates if any(a.id == added.id and a.when == when for a in book.additions)]
    return max(route.before_slot, *own) if own else max(route.before_slot, route.gate)

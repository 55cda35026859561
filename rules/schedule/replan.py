"""The promise of a shell in the workshop once something of it changes: what is done stays, what is left is dated anew.

Days that a change adds to a stage that is through already are spent at the first one that is not. Pure; who moves
because of it is decided elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from rules.model import Book
from rules.schedule.capacity import Shop, Visit
from rules.schedule.days import Route, StageDays
from rules.schedule.promise import Promise, Step, Wanted, first_fit, opened_before


def replanned(
    book: Book, made: Promise, before: Route, wanted: Wanted, through: Sequence[str], shop: Shop, today: date
) -> Promise:
    """`made` as it was promised, by the route `before`; `wanted`: the shell as it will be, with its gates.

    `through`: stages that are done. The promise itself where the change moves no day.
    """
    done = [step for step in made.steps if step.stage in through]
    left = list(_left(wanted, through, _owed(before, wanted.route, through)))
    ahead = tuple(_steps(made, wanted, left, done[-1].end if done else today, shop, today))
    steps = (*done, *ahead)
    if _days(steps) == _days(made.steps):
        return made
    ready = ahead[-1].end if ahead else made.ready
    return replace(made, steps=steps, ready=ready, ready_by=shop.working.add(ready, book.calendar.spread), bindings=())


def _owed(before: Route, after: Route, through: Sequence[str]) -> int:
    """Working days that the change brings to what is through."""
    had = {stage.stage: stage.days for stage in before.stages}
    return sum(max(0, one.days - had[one.stage]) for one in after.stages if one.stage in through)


def _left(wanted: Wanted, through: Sequence[str], owed: int) -> Iterator[StageDays]:
    for stage in wanted.route.stages:
        if stage.stage not in through and (stage.days or owed):
            yield replace(stage, days=stage.days + owed)
            owed = 0


def _steps(
    made: Promise, wanted: Wanted, left: Sequence[StageDays], at: date, shop: Shop, today: date
) -> Iterator[Step]:
    """From `at` on, when what is done lets it go on: by the plan, as long as nobody says what day that really was."""
    had = {step.stage: step.start for step in made.steps}
    for stage in left:
        could = max([at, *opened_before(wanted, shop, stage.stage)])
        start = _start(wanted, stage, had.get(stage.stage), could, shop, today)
        at = shop.working.add(start, stage.days)
        yield Step(stage.stage, could, start, at)


def _start(wanted: Wanted, stage: StageDays, planned: date | None, could: date, shop: Shop, today: date) -> date:
    """The day that it was planned for, where it is there already or still can be had; else the first that can."""
    if planned is not None and planned >= could:
        visit = Visit(stage.stage, planned, shop.working.add(planned, stage.days), wanted.kinds.get(stage.stage, ""))
        if planned <= today or shop.fits(visit):
            return planned
    return first_fit(wanted, shop, stage, could if planned is not None else max(could, today))


def _days(steps: Sequence[Step]) -> list[tuple[str, date, date]]:
    return [(step.stage, step.start, step.end) for step in steps]

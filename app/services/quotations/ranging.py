"""When the shells of a quotation would be ready, with the slots of this moment: for its paper. Reserves nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime

from app.dates_said import awaited_part
from app.domain.floor.gates import gates_of
from app.domain.quotations.quotation import Foreseen
from app.services.answering.pricing import day_of
from app.services.planning.dating import Working, back_of, due_of, promised, shop_of, wanted_of
from app.services.quotations.working_out import WorkedOut
from app.store.db import Store
from rules.answer import Answer, Verdict
from rules.model import Book
from rules.schedule.capacity import Shop
from rules.schedule.days import HolidaysUnknown, route_days
from rules.schedule.promise import Promise, Wanted, dated, visits_of

#: Shells of one quotation that are dated, at most: beyond that no range is worth its paper.
MOST = 60


def foreseen(store: Store, worked: WorkedOut, working: Working | None, now: datetime) -> WorkedOut:
    """The same with the range of each line, each shell planned behind the one before; without a calendar as it was."""
    many = sum(line.quantity for line in worked.draft.lines)
    if working is None or not 0 < many <= MOST or any(not _datable(worked, one) for one in range(len(worked.answers))):
        return worked
    book, today = worked.deal.book, day_of(worked.deal.book, now)
    with store.reading() as db:
        plan = _Plan(shop_of(db, book, working, today))
    return replace(worked, foreseen=tuple(_ranges(worked, plan, today)))


@dataclass(slots=True)
class _Plan:
    """The shop with the shells that come before."""

    full: Shop

    def take(self, made: Promise, wanted: Wanted) -> None:
        self.full = self.full.plus(visits_of(made, wanted.kinds))


def _datable(worked: WorkedOut, line: int) -> bool:
    one = worked.answers[line]
    return one is not None and one.answer.complete and one.answer.verdict is not Verdict.CANT


def _ranges(worked: WorkedOut, plan: _Plan, today: date) -> Iterator[Foreseen | None]:
    for line, one in zip(worked.draft.lines, worked.answers, strict=True):
        yield None if one is None else _range(worked, one.answer, line.quantity, plan, today)


def _range(worked: WorkedOut, said: Answer, quantity: int, plan: _Plan, today: date) -> Foreseen | None:
    """Its shells take their places in the plan."""
    book = worked.deal.book
    route = route_days(book, said.settled, worked.deal.donor)
    gates = gates_of(book, route, said.depends, {}, back_of(worked.tools), today)
    wanted = wanted_of(book, said.settled, route, gates)
    if gates.undated or not book.stages:
        return None
    try:
        first = _ahead(book, wanted, quantity, plan, today)
    except HolidaysUnknown:
        return None
    last = promised(book, wanted, plan.full, today)
    if last is None:
        return None
    plan.take(last, wanted)
    part = awaited_part(due_of(gates, last, plan.full.working))
    return Foreseen(
        on=today,
        ready=first or last.ready,
        ready_by=last.ready_by,
        binds=last.bindings[0] if last.bindings else None,
        part="" if part is None else part.gate.of,
        part_by=None if part is None else part.by,
    )


def _ahead(book: Book, wanted: Wanted, quantity: int, plan: _Plan, today: date) -> date | None:
    """All but the last: when the first of them is ready."""
    ready: date | None = None
    for _ in range(quantity - 1):
        made = dated(book, wanted, plan.full, today)
        plan.take(made, wanted)
        ready = ready or made.ready
    return ready

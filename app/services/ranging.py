"""When the shells of a quotation would be ready, with the slots of this moment: for its paper. Reserves nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime

from sqlite_utils import Database

from app.dates_said import awaited_part
from app.domain.gates import gates_of
from app.domain.quotation import Foreseen
from app.services.dating import Working, back_of, due_of, promised, shop_of, wanted_of
from app.services.pricing import day_of
from app.services.working_out import WorkedOut
from app.store.db import Store
from rules.answer import Answer, Verdict
from rules.capacity import Visit
from rules.days import HolidaysUnknown, route_days
from rules.promise import Wanted, dated, visits_of

#: Shells of one quotation that are dated, at most: beyond that no range is worth its paper.
MOST = 60


def foreseen(store: Store, worked: WorkedOut, working: Working | None, now: datetime) -> WorkedOut:
    """The same with the range of each line, each shell planned behind the one before; without a calendar as it was."""
    many = sum(line.quantity for line in worked.draft.lines)
    if working is None or not 0 < many <= MOST or any(not _datable(worked, one) for one in range(len(worked.answers))):
        return worked
    today = day_of(worked.deal.book, now)
    with store.reading() as db:
        return replace(worked, foreseen=tuple(_ranges(db, worked, working, today)))


def _datable(worked: WorkedOut, line: int) -> bool:
    one = worked.answers[line]
    return one is not None and one.answer.complete and one.answer.verdict is not Verdict.CANT


def _ranges(db: Database, worked: WorkedOut, working: Working, today: date) -> Iterator[Foreseen | None]:
    taken: list[Visit] = []
    for line, one in zip(worked.draft.lines, worked.answers, strict=True):
        said = None if one is None else one.answer
        yield None if said is None else _range(db, worked, said, line.quantity, working, today, taken)


def _range(
    db: Database,
    worked: WorkedOut,
    said: Answer,
    quantity: int,
    working: Working,
    today: date,
    taken: list[Visit],
) -> Foreseen | None:
    """Adds to `taken` what its shells would take of the stages."""
    book = worked.deal.book
    route = route_days(book, said.settled, worked.deal.donor)
    gates = gates_of(book, route, said.depends, {}, back_of(worked.tools), today)
    wanted = wanted_of(book, said.settled, route, gates)
    if gates.undated or not book.stages:
        return None
    try:
        first = _ahead(db, worked, wanted, quantity, working, today, taken)
    except HolidaysUnknown:
        return None
    full = shop_of(db, book, working, today, more=taken)
    last = promised(book, wanted, full, today)
    if last is None:
        return None
    taken += visits_of(last, wanted.kinds)
    part = awaited_part(due_of(gates, last, full.working))
    return Foreseen(
        on=today,
        ready=first or last.ready,
        ready_by=last.ready_by,
        binds=last.bindings[0] if last.bindings else None,
        part="" if part is None else part.gate.of,
        part_by=None if part is None else part.by,
    )


def _ahead(
    db: Database,
    worked: WorkedOut,
    wanted: Wanted,
    quantity: int,
    working: Working,
    today: date,
    taken: list[Visit],
) -> date | None:
    """All but the last: when the first of them is ready."""
    ready: date | None = None
    for _ in range(quantity - 1):
        made = dated(worked.deal.book, wanted, shop_of(db, worked.deal.book, working, today, more=taken), today)
        taken += visits_of(made, wanted.kinds)
        ready = ready or made.ready
    return ready

"""A shell as the workshop and the desk see it, as plain data. Shaping only, and without a word of money."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.domain.floor.shell import Deed, Progress, ShellState, barred, points
from app.domain.floor.stopping import Stopped
from app.services.floor.overseeing import OnFloor
from app.web import here
from app.web.views.floor_recorded import record_view
from app.web.views.ordered import shell_name
from app.wording import say
from rules.model import Book
from rules.workshop.late import Open, freeze_line

#: Deeds that are asked about by themselves; a stage's own are said of that stage.
_ALONE = (Deed.RELEASED, Deed.HELD, Deed.WENT_ON, Deed.REJECTED, Deed.CANCELLED, Deed.SENT_BACK)


def shell_view(one: OnFloor) -> dict[str, Any]:
    """All that the floor shows of it."""
    shell, stands = one.shell, one.shell.progress
    frozen = one.order.lines[one.line - 1].frozen_of(shell)
    come, ahead = points(shell.deeds, shell.route or one.route)
    may = list(_may(one, stands))
    line = freeze_line(one.book, frozen.settled, one.order.frozen.donor.facts(), come, ahead)
    return {
        "id": shell.id,
        "order": one.order.number,
        "letter": one.order.revision.letter,
        "shell": one.seat.place,
        "of": len(one.order.shells),
        "name": shell_name(one.book, frozen.settled),
        "serial": shell.serial,
        "sheet": sheet_view(one),
        "state": shell.state.value,
        "stage": stands.stage,
        "begins": Deed.BEGUN.value in may,
        "route": list(_route(one, stands)),
        "stops": [stop_view(one.book, stop) for stop in one.stops],
        "unchecked": one.unchecked,
        "coat_due": one.coat_due,
        "held": _held(one),
        "may": may,
        "changes": [change_view(change) for change in line],
        "deeds": list(_deeds(one)),
        "replaced": [before.serial for before in shell.replaced if before.serial],
        **record_view(one),
    }


def sheet_view(one: OnFloor) -> dict[str, Any] | None:
    """The revision that is built by, and where it lies; of one that was replaced the other's lies there."""
    sheet = one.shell.sheet
    if sheet is None or one.over:
        return None
    path = f"/api/orders/{one.order.number}/build-sheets/{one.line}/{one.shell.place}"
    return {"revision": sheet.revision, "day": sheet.day, "path": path}


def change_view(change: Open) -> dict[str, Any]:
    point, then = change.next or (None, None)
    told = {"id": change.change.id, "label": change.change.label, "taken": change.now.value}
    return {**told, "next": point, "next_taken": then and then.value}


def stop_view(book: Book, stop: Stopped) -> dict[str, Any]:
    """With the sentence that says what stops it."""
    language = here.language()
    things = book.making.kit if stop.what == "kit-short" else book.tools
    labels = {thing.id: thing.label.get(language, thing.id) for thing in things}
    says = say(f"stopped.{stop.what}", language, of=here.words(stop.why) or labels.get(stop.of, stop.of))
    return {"what": stop.what, "of": stop.of, "says": says}


def _route(one: OnFloor, stands: Progress) -> Iterator[dict[str, Any]]:
    stages = {stage.id: stage for stage in one.book.stages}
    for stop in one.shell.route or one.route:
        stage = stages.get(stop.stage)
        start, end = one.days.get(stop.stage, (None, None))
        yield {
            "stage": stop.stage,
            "label": {} if stage is None else stage.label,
            "work": stop.work.value,
            "stands": _stands(stands, stop.stage),
            "bays": None if stage is None else stage.bays,
            "start": start,
            "end": end,
        }


def _stands(stands: Progress, stage: str) -> str:
    return "at" if stage == stands.stage else "through" if stage in stands.through else "ahead"


def _may(one: OnFloor, stands: Progress) -> Iterator[str]:
    shell = one.shell
    for deed in _ALONE:
        if barred(deed, None, shell.deeds, shell.route) is None:
            yield deed.value
    for deed in (Deed.BEGUN, Deed.DONE):
        if stands.stage is not None and barred(deed, stands.stage, shell.deeds, shell.route) is None:
            yield deed.value
    if stands.state is ShellState.REJECTED and one.order.quotation:
        yield "second"
        if not one.over:
            yield "replaced"
    if shell.sheet is not None and stands.state not in (ShellState.REJECTED, ShellState.CANCELLED):
        yield "sheet-again"


def _held(one: OnFloor) -> str | None:
    held = [done.why for done in one.shell.deeds if done.deed is Deed.HELD]
    return held[-1] if held and one.shell.state is ShellState.ON_HOLD else None


def _deeds(one: OnFloor) -> Iterator[dict[str, Any]]:
    for shell in (*one.shell.replaced, one.shell):
        for done in shell.deeds:
            yield {
                "deed": done.deed.value,
                "stage": done.stage,
                "why": done.why,
                "at": done.at,
                "by_name": here.called(done.by),
                "signed_name": None if done.signed is None else here.called(done.signed),
            }

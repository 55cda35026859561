"""Primer is temporary: when a shell was primed, by when it has to be overcoated, and what may leave after that day."""

from __future__ import annotations

from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, ShellStands
from app.domain.inspection.inspection import Priming
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.floor.finding import note_shell
from app.services.floor.stopping import refuse_planned
from app.services.inspection.inspecting import Inspection, inspected
from app.services.once import Once, perform
from app.store import inspections
from app.store.db import Store
from app.store.inspections import Words


def primed(store: Store, actor: Actor, key: int, day: date, now: datetime, *, once: Once | None = None) -> None:
    """The day on which it was primed, or prepared and primed anew. Raises NotFound, BadInput, KeyReused, Underway."""

    def write(db: Database) -> int:
        one = inspected(store, db, actor, key, now)
        refuse_planned(one.found)
        refuse(_day_faults(one, day))
        coat = one.coat.id if one.coat else ""
        inspections.add_priming(db, one.found.shell.id, Priming(coat, day, now, actor.name))
        note_shell(db, one.found, "shell-primed", actor, now, day=day.isoformat())
        return one.found.shell.id

    perform(store, once, now, write)


def _day_faults(one: Inspection, day: date) -> list[Fault]:
    if one.coat is None or one.coat.overcoat is None:
        return [Fault("day", "no-overcoat")]
    if day > one.today:
        return [Fault("day", "in-the-future")]
    earlier = one.priming is not None and day < one.priming.day
    return [Fault("day", "before-priming")] if earlier else []


def acknowledge(
    store: Store, actor: Actor, key: int, said_by: str, words: str, now: datetime, *, once: Once | None = None
) -> None:
    """Somebody takes it after its day all the same, in writing: who, and in which words.

    Raises NotFound, BadInput, ShellStands where the day isn't past, KeyReused, Underway.
    """
    refuse((
        *blank_faults("said_by", said_by), *long_faults("said_by", said_by, LONGEST_LINE),
        *blank_faults("words", words), *long_faults("words", words, LONGEST_TEXT),
    ))  # fmt: skip

    def write(db: Database) -> int:
        one = inspected(store, db, actor, key, now)
        made = inspections.priming(db, one.found.shell.id)
        if one.overcoat is None or made is None or one.today <= one.overcoat.by:
            raise ShellStands(serial=one.serial, why="overcoat-in-time")
        inspections.add_words(db, made[0], Words(said_by, words, one.today, actor.name), now)
        note_shell(db, one.found, "overcoat-acknowledged", actor, now, said=said_by)
        return one.found.shell.id

    perform(store, once, now, write)

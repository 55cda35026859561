"""Concessions: asked for by whoever found that something is not as it should be, answered by another, named person."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import ConcessionAnswered, ConcessionStands, Fault, NotFound, OwnConcession, ShellStands
from app.domain.floor.shell import OVER, Barred
from app.domain.inspection.concession import Concession, ConcessionAnswer, waiting_for
from app.domain.inspection.subject import Subject, has, subject
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.floor import finding, overseeing
from app.services.floor.finding import FoundShell, found_shell, note_shell
from app.services.floor.overseeing import OnFloor
from app.services.once import Once, perform
from app.store import concessions as kept
from app.store.db import Store


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked for: `about` as in `gap:door-left-top`; `measured` and `limit` in words, with their unit."""

    about: str
    why: str
    measured: str = ""
    limit: str = ""


def ask(store: Store, actor: Actor, key: int, asked: Asked, now: datetime, *, once: Once | None = None) -> int:
    """The id of the concession asked for.

    Raises NotFound, ShellStands, ConcessionStands, BadInput, UnknownNames, KeyReused, Underway.
    """
    refuse(_asked_faults(asked))

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        about = subject_of(found, asked.about)
        refuse_over(found)
        waits = waiting_for(kept.of_shell(db, key), about)
        if waits is not None:
            raise ConcessionStands(by=waits.asked_by)
        made = kept.add(db, key, about, asked.why, asked.measured, asked.limit, actor.name, now)
        note_shell(db, found, "concession-asked", actor, now, subject=str(about), why=asked.why)
        return made

    return int(perform(store, once, now, write))


def answer(
    store: Store,
    actor: Actor,
    key: int,
    concession: int,
    granted: bool,
    why: str,
    now: datetime,
    *,
    day: date | None = None,
    once: Once | None = None,
) -> None:
    """Another person's yes or no, with his reason and the day he said it (None: today).

    Raises NotFound, OwnConcession, ConcessionAnswered, BadInput, KeyReused, Underway.
    """
    refuse((*blank_faults("reason", why), *long_faults("reason", why, LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        asked = _one(db, key, concession)
        today = found.whole.today
        refuse([Fault("day", "in-the-future")] if day is not None and day > today else [])
        if asked.answer is not None:
            raise ConcessionAnswered(by=asked.answer.by, why=asked.standing.value)
        if asked.asked_by == actor.name:
            raise OwnConcession(by=actor.name)
        kept.answer(db, concession, ConcessionAnswer(granted, why, day or today, actor.name, now))
        what = "concession-granted" if granted else "concession-refused"
        note_shell(db, found, what, actor, now, subject=str(asked.subject), why=why)
        return concession

    perform(store, once, now, write)


def waiting(store: Store, actor: Actor, now: datetime) -> tuple[tuple[Concession, OnFloor], ...]:
    """What nobody has answered, of shells that are still built, each with its shell; the longest waiting first."""
    with store.reading() as db:
        asked = kept.waiting(db)
        shells = {key: _shell(store, actor, key, now) for key in {one.shell for one in asked}}
    told = ((one, shells[one.shell]) for one in asked)
    return tuple((one, shell) for one, shell in told if shell is not None)


def subject_of(found: FoundShell, text: str) -> Subject:
    """Raises UnknownNames for what the shell hasn't."""
    about = subject(text)
    if about is None or not has(finding.work(found), about):
        refuse([Fault("subject", "unknown-subject", {"name": text})])
    assert about is not None
    return about


def refuse_over(found: FoundShell) -> None:
    """Raises ShellStands."""
    if found.shell.state in OVER:
        raise ShellStands(serial=found.shell.serial or "", why=Barred.OVER.value)


def _asked_faults(asked: Asked) -> Iterator[Fault]:
    yield from blank_faults("why", asked.why)
    yield from long_faults("why", asked.why, LONGEST_TEXT)
    yield from long_faults("measured", asked.measured, LONGEST_LINE)
    yield from long_faults("limit", asked.limit, LONGEST_LINE)


def _one(db: Database, shell: int, concession: int) -> Concession:
    for one in kept.of_shell(db, shell):
        if one.id == concession:
            return one
    raise NotFound(what="concession", name=str(concession))


def _shell(store: Store, actor: Actor, key: int, now: datetime) -> OnFloor | None:
    """None of one that was replaced, or that nobody builds any more."""
    try:
        found = overseeing.shell(store, actor, key, now)
    except NotFound:
        return None
    return None if found.shell.state in OVER else found

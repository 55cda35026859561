"""Rework: a shell sent back to a stage for what is to be mended, and mended there under a personal code, or not at all.

While anything is open no stage of the shell is signed. What was mended before the inspection undoes it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, NotFound, ShellStands
from app.domain.floor.rework import Rework, ReworkEnd
from app.domain.floor.shell import Barred, Deed
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.floor.conceding import subject_of
from app.services.floor.finding import FoundShell, found_shell, note_shell
from app.services.floor.signing import Signature, signed_by
from app.services.floor.stopping import refuse_barred
from app.services.once import Once, perform
from app.store import rework as kept
from app.store.db import Store

#: Nobody spends more on one piece of rework than a thousand hours: it is a slip of the finger.
MOST_MINUTES = 60_000


@dataclass(frozen=True, slots=True)
class Mended:
    """What whoever mended it says: how long it took, if he knows, and what he did, if it needs saying."""

    minutes: int | None = None
    note: str = ""


def send_back(
    store: Store,
    actor: Actor,
    key: int,
    about: str,
    what: str,
    stage: str,
    now: datetime,
    *,
    once: Once | None = None,
) -> int:
    """The id of the rework: `what` is to be mended about `about`, at `stage`.

    Raises NotFound, ShellStands, BadInput, UnknownNames, KeyReused, Underway.
    """
    refuse((*blank_faults("what", what), *long_faults("what", what, LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        refuse_barred(found, Deed.SENT_BACK, stage)
        made = kept.add(db, key, subject_of(found, about), what, stage, actor.name, now)
        note_shell(db, found, "shell-sent-back", actor, now, subject=about, stage=stage, why=what)
        return made

    return int(perform(store, once, now, write))


def mend(
    store: Store,
    actor: Actor,
    key: int,
    rework: int,
    mended: Mended,
    signature: Signature,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """Signed by whoever mended it.

    Raises NotFound, ShellStands, BadInput, CodeRefused, SlowDown, MayNotSign, KeyReused, Underway.
    """
    refuse(_mended_faults(mended))
    signer = signed_by(store, signature, None, now)

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        one = _open(db, found, Deed.MENDED, rework)
        ended = ReworkEnd(False, signer.name, found.whole.today, now, mended.minutes, mended.note)
        kept.end(db, one, ended, actor.name)
        facts = {"subject": str(one.subject), "stage": one.stage, "signed": signer.display_name}
        note_shell(db, found, "shell-mended", actor, now, **facts)
        return rework

    perform(store, once, now, write)


def withdraw(
    store: Store, actor: Actor, key: int, rework: int, why: str, now: datetime, *, once: Once | None = None
) -> None:
    """Nothing is mended after all, as where a concession was granted instead.

    Raises NotFound, ShellStands, BadInput, KeyReused, Underway.
    """
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        one = _open(db, found, Deed.WITHDRAWN, rework)
        kept.end(db, one, ReworkEnd(True, actor.name, found.whole.today, now, None, why), actor.name)
        facts = {"subject": str(one.subject), "stage": one.stage, "why": why}
        note_shell(db, found, "shell-rework-withdrawn", actor, now, **facts)
        return rework

    perform(store, once, now, write)


def _open(db: Database, found: FoundShell, deed: Deed, rework: int) -> Rework:
    one = next((one for one in kept.of_shell(db, found.shell.id) if one.id == rework), None)
    refuse_barred(found, Deed.SENT_BACK if one is None else deed, None if one is None else one.stage)
    if one is None:
        raise NotFound(what="rework", name=str(rework))
    if one.end is not None:
        raise ShellStands(serial=found.shell.serial or "", why=Barred.MENDED.value)
    return one


def _mended_faults(mended: Mended) -> Iterator[Fault]:
    yield from long_faults("note", mended.note, LONGEST_TEXT)
    if mended.minutes is not None and not 0 <= mended.minutes <= MOST_MINUTES:
        yield Fault("minutes", "too-large" if mended.minutes > 0 else "too-small", {"most": MOST_MINUTES, "least": 0})

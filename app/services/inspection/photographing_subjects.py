"""Photographs against a subject of an inspection: made anew when they come, kept with the shell."""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import BadInput, Fault, NotFound
from app.services.answering.checking import LONGEST_LINE, long_faults, refuse
from app.services.floor.finding import known_shell
from app.services.inspection.inspecting import inspected
from app.services.once import Once, perform
from app.services.quotations.photographing import MOST, remade_or_refused
from app.store import inspection_photographs as kept
from app.store.db import Store
from app.store.inspection_photographs import SubjectPhotograph


def add(
    store: Store,
    actor: Actor,
    key: int,
    subject: str,
    note: str,
    data: bytes,
    now: datetime,
    *,
    once: Once | None = None,
) -> int:
    """Its id. Raises NotFound, UnknownNames, BadInput (field `file`: why it can't be taken), KeyReused, Underway."""
    refuse(long_faults("note", note, LONGEST_LINE))
    picture = remade_or_refused(data)

    def write(db: Database) -> int:
        one = inspected(store, db, actor, key, now)
        known = {each.id for each in one.subjects}
        refuse([] if subject in known else [Fault("subject", "unknown-subject", {"name": subject})])
        if len(one.photographs) >= MOST:
            raise BadInput((Fault("file", "picture-many", {"most": MOST}),))
        taken = SubjectPhotograph(0, subject, note, picture.width, picture.height, now, actor.name)
        return kept.add(db, key, taken, picture.jpeg, picture.small)

    return int(perform(store, once, now, write))


def content(store: Store, actor: Actor, key: int, photograph: int, now: datetime, *, small: bool) -> bytes:
    """A JPEG. Raises NotFound."""
    with store.reading() as db:
        known_shell(store, db, actor, key, now)
        found = kept.content(db, key, photograph, small=small)
    if found is None:
        raise NotFound(what="photograph", name=str(photograph))
    return found

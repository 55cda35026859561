"""A dealer asks the office for a formal quotation of his draft. Whoever issues it answers that, in one transaction."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, Frozen, NotFound, NothingToIssue, RequestEnded, RequestStands
from app.domain.paging import SIZE, Page
from app.domain.quotations.request import End, Request, Stage
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.once import Once, perform
from app.services.quotations.owned import note as noted
from app.services.quotations.owned import own_revision
from app.store import requests as kept
from app.store.db import Store


def ask(
    store: Store, actor: Actor, number: str, letter: str, note: str, now: datetime, *, once: Once | None = None
) -> Request:
    """Puts the draft on the office's list. It stays a draft of the dealer's, who may go on writing it.

    Raises NotFound, Frozen, NothingToIssue, RequestStands, BadInput, KeyReused, Underway.
    """
    refuse(long_faults("note", note, LONGEST_TEXT))

    def write(db: Database) -> int:
        revision = own_revision(db, actor, number, letter, now)
        if revision.issued:
            raise Frozen(number=number, letter=letter)
        if not revision.lines:
            raise NothingToIssue()
        if any(one.stage is Stage.WAITING for one in kept.of_quotation(db, number)):
            raise RequestStands(number=number, letter=letter)
        noted(db, number, letter, "request-asked", actor, now)
        return kept.add(db, revision.id, note, actor.name, now)

    return request(store, actor, perform(store, once, now, write))


def take_off(
    store: Store, actor: Actor, request_id: int, why: str, now: datetime, *, once: Once | None = None
) -> Request:
    """The dealer withdraws it; the office refuses it, and has to say why.

    Raises NotFound, RequestEnded, BadInput, KeyReused, Underway.
    """
    stage = Stage.REFUSED if actor.dealer is None else Stage.WITHDRAWN
    refuse(_why_faults(why, stage))

    def write(db: Database) -> int:
        found = _own(db, actor, request_id)
        if found.stage is not Stage.WAITING:
            raise RequestEnded(number=found.number, why=found.stage.value)
        kept.end(db, found.id, End(stage, why, now, actor.name))
        noted(db, found.number, found.letter, f"request-{stage.value}", actor, now)
        return found.id

    return request(store, actor, perform(store, once, now, write))


def at_issue(db: Database, actor: Actor, number: str, now: datetime) -> None:
    """What was asked for of this quotation is answered by its being issued."""
    for one in kept.of_quotation(db, number):
        if one.stage is Stage.WAITING:
            kept.end(db, one.id, End(Stage.ANSWERED, "", now, actor.name))


def request(store: Store, actor: Actor, request_id: int) -> Request:
    """Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        return _own(db, actor, request_id)


def requests(
    store: Store, actor: Actor, *, waiting: bool = False, after: tuple[bool, int] | None = None, size: int = SIZE
) -> Page[Request]:
    """What waits first, the oldest at the top; then what has ended, the last asked for first; a dealer's own.

    `after`: whether the last one of the page before had ended, and its id.
    """
    with store.reading() as db:
        return kept.listed(db, actor.dealer, size, after, waiting=waiting)


def of_quotation(store: Store, actor: Actor, number: str, now: datetime) -> tuple[Request, ...]:
    """All that was asked for of it, the oldest first. Raises NotFound."""
    with store.reading() as db:
        own_revision(db, actor, number, "A", now)
        return kept.of_quotation(db, number)


def _own(db: Database, actor: Actor, request_id: int) -> Request:
    found = kept.get(db, request_id, actor.dealer)
    if found is None:
        raise NotFound(what="request", name=str(request_id))
    return found


def _why_faults(why: str, stage: Stage) -> Iterator[Fault]:
    if stage is Stage.REFUSED:
        yield from blank_faults("why", why)
    yield from long_faults("why", why, LONGEST_TEXT)

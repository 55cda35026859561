"""The office records that the evidence of an export came, or that it was none. Nothing is billed by it."""

from __future__ import annotations

from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, NoEvidenceWanted
from app.domain.money.export import Evidence
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.despatch.leaving import Leaving, leaving
from app.services.once import Once, perform
from app.services.orders.ordering import note
from app.store import export_evidence
from app.store.db import Store


def hold(
    store: Store, actor: Actor, key: int, what: str, day: date, now: datetime, *, once: Once | None = None
) -> None:
    """`what` shows that the shell left the country, and is held since `day`; the last word counts.

    Raises NotFound, BadInput, NoEvidenceWanted, KeyReused, Underway.
    """
    refuse((*blank_faults("what", what), *long_faults("what", what, LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = leaving(store, db, actor, key, now)
        refuse([Fault("day", "in-the-future")] if day > day_of(found.book, now) else [])
        return _say(db, actor, found, Evidence(what.strip(), day, now, actor.name), "export-evidence-held")

    perform(store, once, now, write)


def take_back(store: Store, actor: Actor, key: int, why: str, now: datetime, *, once: Once | None = None) -> None:
    """What was recorded is no evidence after all: it is awaited again. Raises as `hold`."""
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = leaving(store, db, actor, key, now)
        if found.evidence is None or found.evidence.held is None:
            raise _unwanted(found, "none-held")
        return _say(db, actor, found, Evidence(why.strip(), None, now, actor.name), "export-evidence-taken-back")

    perform(store, once, now, write)


def _say(db: Database, actor: Actor, found: Leaving, told: Evidence, what: str) -> int:
    one = found.placed
    if found.despatched is None or found.evidence is None:
        raise _unwanted(found, "not-exported" if found.despatched else "not-left")
    export_evidence.say(db, found.despatched.number, told)
    facts = {"shell": str(one.place), "serial": one.shell.serial or "", "said": told.what}
    day = {} if told.day is None else {"day": told.day.isoformat()}
    note(db, found.order.number, what, actor, told.at, **facts, **day)
    return one.shell.id


def _unwanted(found: Leaving, why: str) -> NoEvidenceWanted:
    return NoEvidenceWanted(serial=found.placed.shell.serial or "–", why=why)

"""What a dealer may owe for shells that have left: set by the manager, from a day on, with the reason."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.despatch.despatch import Credit
from app.domain.errors import Fault, NotFound
from app.services.answering.checking import CURRENCIES, blank_faults, long_faults, refuse
from app.services.once import Once, perform
from app.store import dealers, despatches, history
from app.store.db import Store


def credits_of(store: Store, dealer: str) -> tuple[Credit, ...]:
    """All that was ever said, in its order; the last whose day has come holds. Raises NotFound."""
    with store.reading() as db:
        _known(db, dealer)
        return despatches.credits(db, dealer)


def give(
    store: Store,
    actor: Actor,
    dealer: str,
    limit: int,
    currency: str,
    day: date,
    why: str,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """From that day on; 0 ends it. Raises NotFound, BadInput, KeyReused, Underway."""
    refuse(_faults(limit, currency, why))

    def write(db: Database) -> str:
        name = _known(db, dealer)
        despatches.give_credit(db, Credit(dealer, currency, limit, day, why.strip(), actor.name, now))
        facts = {"dealer": name, "day": day.isoformat(), "why": why.strip()}
        history.add(db, "dealer", dealer, "dealer-credit-given", actor.name, now, **facts)
        return dealer

    perform(store, once, now, write)


def _known(db: Database, dealer: str) -> str:
    found = dealers.get(db, dealer)
    if found is None:
        raise NotFound(what="dealer", name=dealer)
    return found.name


def _faults(limit: int, currency: str, why: str) -> Iterator[Fault]:
    if limit < 0:
        yield Fault("limit", "too-small", {"least": 0})
    if currency not in CURRENCIES:
        yield Fault("currency", "unknown-currency", {"name": currency})
    yield from (*blank_faults("why", why), *long_faults("why", why))

"""Erasing a customer's personal data: first what would go and what would stay is told, then a person says that it goes.

What an order follows stays as it went out: a firm has to keep its invoices and what they rest on, how long is for local
rules to say. The entry in the history names nobody. What it can't reach (copies of the folder, messages that went out)
the page says.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime

from dateutil.relativedelta import relativedelta
from sqlite_utils import Database

from app.domain import paging
from app.domain.asking.actor import Actor
from app.domain.errors import BadInput, ChangedByAnother, Fault
from app.services.answering.checking import LONGEST_LINE, blank_faults, long_faults, refuse
from app.services.customers.erased import refuse_erased
from app.services.customers.knowing import is_alike, own_customer
from app.store import erasing as kept_data
from app.store import history, retention
from app.store.customers import Kept
from app.store.db import Store
from app.store.erasing import Reach
from app.store.retention import Due

#: So many are erased in one press, at most.
MOST_AT_ONCE = 200

#: The longest that may be set: a lifetime is no retention.
MOST_MONTHS = 600

BY_RETENTION = "retention"


@dataclass(frozen=True, slots=True)
class Outlook:
    """What erasing would reach; `seen` stands for exactly that, and erasing asks for it."""

    kept: Kept
    reach: Reach
    seen: str


@dataclass(frozen=True, slots=True)
class Proposed:
    """A page of them. `months` None: none, since nobody has said after how long. `alike`: who may be held twice."""

    months: int | None
    due: paging.Page[Due]
    alike: frozenset[int] = frozenset()


def outlook(store: Store, actor: Actor, number: int) -> Outlook:
    """What would go and what would stay. Raises NotFound, DataErased."""
    with store.reading() as db:
        return _outlook(db, own_customer(db, actor, number))


def erase(store: Store, actor: Actor, number: int, why: str, seen: str, now: datetime) -> int:
    """His number. Raises NotFound, DataErased, BadInput, ChangedByAnother where something has come since."""
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_LINE)))
    with store.writing() as db:
        told = _outlook(db, own_customer(db, actor, number))
        if told.seen != seen:
            raise ChangedByAnother(what="customer", name=str(number), expected=seen, actual=told.seen)
        _erase(db, actor, told.kept.id, why, now)
    kept_data.forget(store)
    return told.kept.id


def retention_proposals(
    store: Store, now: datetime, *, after: paging.Position | None = None, size: int = paging.SIZE
) -> Proposed:
    """Whoever never said yes and of whom nothing has moved for as many months as were set, the longest still first."""
    with store.reading() as db:
        months = retention.months(db)
        if months is None:
            return Proposed(None, paging.Page((), None))
        due = retention.due(db, _before(months, now), size, after)
        return Proposed(months, due, frozenset(one.id for one in due.rows if is_alike(db, one.id)))


def keep_for(store: Store, actor: Actor, months: int | None, now: datetime) -> None:
    """From now on; None: nobody is proposed. Raises BadInput."""
    if months is not None and not 1 <= months <= MOST_MONTHS:
        said = ("too-small", {"least": 1}) if months < 1 else ("too-large", {"most": MOST_MONTHS})
        raise BadInput((Fault("months", *said),))
    with store.writing() as db:
        retention.keep_for(db, months, actor.name, now)
        history.add(db, "retention", "retention", "retention-set", actor.name, now, months=str(months or "–"))


def erase_proposed(store: Store, actor: Actor, customers: Sequence[int], now: datetime) -> tuple[int, ...]:
    """Erases those of `customers` that are still proposed; the numbers of the others come back, untouched."""
    with store.writing() as db:
        months = retention.months(db)
        due = frozenset[int]() if months is None else retention.still(db, _before(months, now), customers)
        for number in dict.fromkeys(customers):
            if number in due:
                _erase(db, actor, number, BY_RETENTION, now)
    kept_data.forget(store)
    return tuple(number for number in customers if number not in due)


def _erase(db: Database, actor: Actor, number: int, why: str, now: datetime) -> None:
    kept_data.erase(db, number, why, actor.name, now)
    history.add(db, "customer", str(number), "customer-erased", actor.name, now)


def _before(months: int, now: datetime) -> datetime:
    return now - relativedelta(months=months)


def _outlook(db: Database, kept: Kept) -> Outlook:
    refuse_erased(kept)
    reach = kept_data.reach(db, kept.id)
    told = json.dumps([kept.id, kept.version, asdict(reach)], sort_keys=True)
    return Outlook(kept, reach, hashlib.sha256(told.encode()).hexdigest()[:32])

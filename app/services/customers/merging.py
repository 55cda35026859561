"""Making one customer of two who turn out to be one, or saying that they are two. Nothing of either is thrown away."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from datetime import datetime
from typing import Any

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import BadInput, ChangedByAnother, Fault
from app.services.customers.erased import refuse_erased
from app.services.customers.knowing import own_customer
from app.store import customers, history
from app.store.customers import COLUMNS, Kept
from app.store.db import Store

#: What of a customer may be taken from either of the two.
FIELDS = (*COLUMNS, "trade")


def merge(
    store: Store,
    actor: Actor,
    number: int,
    other: int,
    take: Collection[str],
    now: datetime,
    *,
    expected: int,
    other_expected: int,
) -> int:
    """`other` becomes `number`, who keeps what he has but for the fields in `take`: these are the other's.

    The history tells whom and which fields, and no value: that stays where it can be erased. His number. Raises
    NotFound, BadInput, ChangedByAnother, DataErased.
    """
    with store.writing() as db:
        kept, gone = own_customer(db, actor, number), own_customer(db, actor, other)
        _refuse_pair(kept, gone)
        _refuse_changed(kept, expected)
        _refuse_changed(gone, other_expected)
        chosen, left = _taken(kept, gone, take), _taken(gone, kept, take)
        customers.merge(db, kept.id, gone.id, chosen, left, kept.customer.dealer)
        _note(db, actor, kept.id, "customers-merged", now, other=str(gone.id), fields=", ".join(sorted(take)) or "–")
        return kept.id


def keep_apart(store: Store, actor: Actor, number: int, other: int, now: datetime) -> None:
    """They are two: from now on neither is offered for the other. Raises NotFound, BadInput."""
    with store.writing() as db:
        one, two = own_customer(db, actor, number), own_customer(db, actor, other)
        _refuse_pair(one, two)
        customers.keep_apart(db, one.id, two.id, actor.name, now)
        _note(db, actor, one.id, "customers-two", now, other=str(two.id))
        _note(db, actor, two.id, "customers-two", now, other=str(one.id))


def _note(db: Database, actor: Actor, number: int, what: str, now: datetime, **facts: str) -> None:
    history.add(db, "customer", str(number), what, actor.name, now, **facts)


def _refuse_pair(one: Kept, other: Kept) -> None:
    """Two customers of one dealer's, or two of the firm's own."""
    if one.id == other.id:
        raise BadInput((Fault("other", "duplicate"),))
    if one.customer.dealer != other.customer.dealer:
        raise BadInput((Fault("other", "another-dealers"),))
    refuse_erased(one, other)


def _refuse_changed(kept: Kept, expected: int) -> None:
    if kept.version != expected:
        raise ChangedByAnother(what="customer", name=str(kept.id), expected=expected, actual=kept.version)


def _taken(one: Kept, other: Kept, take: Collection[str]) -> Any:
    """The one, with these of the other's fields. Nothing that either was called gets lost: both ways make both."""
    return replace(one.customer, **{field: getattr(other.customer, field) for field in FIELDS if field in take})

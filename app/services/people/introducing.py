"""Who the firm is and who its dealers are. A dealer hears of himself alone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.domain.asking.people import Action, Person, Sort, Thing, may
from app.domain.customers.dealer import Dealer
from app.store import dealers, people
from app.store.db import Store


def firm(store: Store) -> dict[str, Any]:
    """The firm's own particulars; empty while nobody has said who it is."""
    with store.reading() as db:
        return dealers.firm(db)


def dealer(store: Store, dealer_id: str | None) -> Dealer | None:
    """The dealer with this id, if there is one."""
    if dealer_id is None:
        return None
    with store.reading() as db:
        return dealers.get(db, dealer_id)


def dealers_for(store: Store, person: Person) -> tuple[Dealer, ...]:
    """Those whose existence the person may know."""
    with store.reading() as db:
        every = dealers.every(db)
    return tuple(one for one in every if may(person, Action.READ, Thing(Sort.DEALER, one.id)))


def display_names(store: Store) -> Mapping[str, str]:
    """What everybody is called, by the name he signs in with."""
    with store.reading() as db:
        return {person.name: person.display_name for person in people.people(db)}

"""A customer's page: who he is, all that he asked for and was promised, and who else he may be. Changes nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain import paging
from app.domain.asking.actor import Actor
from app.domain.customers.customer import Customer
from app.domain.customers.likeness import Ground, grounds
from app.domain.errors import NotFound
from app.domain.finding import Hit, hits
from app.domain.orders.order import OrderRow
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import Happening, QuotationRow
from app.services.quotations.enquiring import own_enquiry, words_of
from app.store import customers, held, history, orders, quotations
from app.store.customers import Kept
from app.store.db import Store
from app.store.held import HeldPaper

#: So many of those who share a key are looked at, and so many are offered.
LOOKED_AT, OFFERED = 400, 5


@dataclass(frozen=True, slots=True)
class Like:
    """Somebody who may be the same, and what speaks for it."""

    kept: Kept
    grounds: tuple[Ground, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """`former`: who was merged into him, as they were then. `papers`: what is kept of him, byte for byte."""

    kept: Kept
    former: tuple[Kept, ...]
    enquiries: tuple[Enquiry, ...]
    quotations: tuple[QuotationRow, ...]
    orders: tuple[OrderRow, ...]
    papers: tuple[HeldPaper, ...]
    alike: tuple[Like, ...]
    history: tuple[Happening, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """A customer and by what he was found."""

    kept: Kept
    found_by: tuple[Hit, ...]


def find_customers(
    store: Store, actor: Actor, now: datetime, text: str = "", *, after: int | None = None, size: int = paging.SIZE
) -> paging.Page[Found]:
    """Those whose name, telephone or e-mail holds every word of `text`, the names before a merger too."""
    words = words_of(store, text, now)
    with store.reading() as db:
        found = customers.find(db, words, actor.dealer, size, after)
        facts = customers.facts_of(db, [row.id for row in found.rows])
    return found.of(lambda row: Found(row, hits(words, facts[row.id])))


def customer_page(store: Store, actor: Actor, number: int, now: datetime) -> Page:
    """Of one who was merged the page of the other. Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        kept = own_customer(db, actor, number)
        return Page(
            kept=kept,
            former=customers.former(db, kept.id),
            enquiries=tuple(own_enquiry(db, actor, key) for key in customers.enquiries_of(db, kept.id)),
            quotations=quotations.of_customer(db, kept.id, now),
            orders=orders.of_customer(db, kept.id),
            papers=held.papers(db, kept.id),
            alike=() if kept.erased else _alike(db, kept.customer, kept.customer.dealer, actor.dealer),
            history=history.of(db, "customer", str(kept.id)),
        )


def alike(store: Store, actor: Actor, customer: Customer) -> tuple[Like, ...]:
    """Who of the same dealer's is known already and may be he: for an offer, never for a change."""
    with store.reading() as db:
        return _alike(db, customer, actor.dealer or customer.dealer, actor.dealer)


def is_alike(db: Database, number: int) -> bool:
    """Whether somebody else who is held may be he; for use inside a transaction."""
    kept = customers.standing(db, number, None)
    if kept is None:
        return False
    groups = customers.alike_by_turns(db, kept.customer, kept.customer.dealer, LOOKED_AT)
    return any(_likes(db, kept.customer, shared) for shared in groups)


def own_customer(db: Database, actor: Actor, number: int) -> Kept:
    """Him, or whom he was merged into; for use inside a transaction. Raises NotFound."""
    found = customers.standing(db, number, actor.dealer)
    if found is None:
        raise NotFound(what="customer", name=str(number))
    return found


def _alike(db: Database, customer: Customer, owner: str | None, reader: str | None) -> tuple[Like, ...]:
    """Whose he is decides: what one dealer knows of people is nothing to another."""
    if reader is not None and owner != reader:
        return ()
    found = _likes(db, customer, customers.alike(db, customer, owner, LOOKED_AT))
    return tuple(sorted(found, key=_strength)[:OFFERED])


def _likes(db: Database, customer: Customer, shared: Sequence[Kept]) -> list[Like]:
    """Of those who share a key with him whoever may be he, and was not told apart from him."""
    apart = customers.apart_from(db, customer.id) if customer.id else frozenset()
    former = customers.formers(db, [one.id for one in shared])
    found = [Like(one, _grounds(customer, (one, *former[one.id]))) for one in shared if one.id not in apart]
    return [one for one in found if one.grounds]


def _grounds(customer: Customer, other: Sequence[Kept]) -> tuple[Ground, ...]:
    """By who the other is now, or by who he was before a merger."""
    said = {ground for one in other for ground in grounds(customer, one.customer)}
    return tuple(ground for ground in Ground if ground in said)


def _strength(like: Like) -> tuple[int, int, int]:
    order = list(Ground)
    return (order.index(like.grounds[0]), -len(like.grounds), like.kept.id)

"""Bank details: proposed by one, agreed to by another, never on the strength of a message. It asks no bank."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from sqlite_utils import Database
from stdnum import bic, iban

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, NotFound, ProposalAnswered, ProposalStands, SecondPersonNeeded
from app.domain.money.bank import Account, Answer, Confirmation, How, Proposal, waiting
from app.services.answering.checking import blank_faults, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.services.customers.erased import refuse_erased
from app.services.customers.knowing import own_customer
from app.services.once import Once, perform
from app.store import bank as kept
from app.store import customers, history
from app.store.db import Store

#: What begins as an IBAN does and a BIC's shape (ISO 13616, ISO 9362): what looks like one is held against its check.
_LIKE_IBAN = re.compile(r"[A-Z]{2}[0-9]{2}[A-Z0-9 ]+", re.IGNORECASE)
_LIKE_BIC = re.compile(r"[A-Z]{6}[A-Z0-9]{2}([A-Z0-9]{3})?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Waiting:
    """`name`: the customer's, empty where it is the firm's own."""

    proposal: Proposal
    name: str


def proposals(store: Store, actor: Actor, customer: int | None) -> tuple[Proposal, ...]:
    """All that were ever made, the first first; None: the firm's own. Raises NotFound."""
    with store.reading() as db:
        return kept.of(db, _number(db, actor, customer))


def waiting_for_a_second(store: Store) -> tuple[Waiting, ...]:
    """Every change that waits for a second person."""
    with store.reading() as db:
        return tuple(Waiting(one, _name(db, one.customer)) for one in kept.waiting(db))


def propose(
    store: Store,
    actor: Actor,
    customer: int | None,
    account: Account,
    confirmed: Confirmation,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """A change that holds nothing yet. Raises NotFound, DataErased, BadInput, ProposalStands, KeyReused, Underway."""
    today = day_of(current_book(store, now), now)
    refuse((*_account_faults(account), *_confirmed_faults(confirmed, today)))

    def write(db: Database) -> int:
        number = _number(db, actor, customer)
        stands = waiting(kept.of(db, number))
        if stands is not None:
            raise ProposalStands(by=stands.by)
        _note(db, actor, number, "bank-proposed", now)
        return kept.add(db, number, account, confirmed, actor.name, now)

    perform(store, once, now, write)


def answer(
    store: Store, actor: Actor, proposal: int, agreed: bool, why: str, now: datetime, *, once: Once | None = None
) -> int | None:
    """Agree, as another than the one who proposed it, or turn it down with a reason. The customer's number.

    Raises NotFound, BadInput, SecondPersonNeeded, ProposalAnswered, KeyReused, Underway.
    """
    refuse((*(() if agreed else blank_faults("why", why)), *long_faults("why", why)))

    def write(db: Database) -> int:
        found = kept.get(db, proposal)
        if found is None:
            raise NotFound(what="bank-proposal", name=str(proposal))
        if found.answer is not None:
            raise ProposalAnswered(by=found.answer.by)
        if agreed and found.by == actor.name:
            raise SecondPersonNeeded(by=found.by)
        kept.answer(db, proposal, Answer(agreed, why, now, actor.name))
        _note(db, actor, found.customer, "bank-agreed" if agreed else "bank-turned-down", now)
        return proposal

    perform(store, once, now, write)
    with store.reading() as db:
        found = kept.get(db, proposal)
    return None if found is None else found.customer


def _number(db: Database, actor: Actor, customer: int | None) -> int | None:
    if customer is None:
        return None
    found = own_customer(db, actor, customer)
    refuse_erased(found)
    return found.id


def _name(db: Database, customer: int | None) -> str:
    found = None if customer is None else customers.get(db, customer, None)
    return "" if found is None else found.customer.name


def _note(db: Database, actor: Actor, customer: int | None, what: str, now: datetime) -> None:
    """No detail of an account stands in a history."""
    thing = ("firm", "firm") if customer is None else ("customer", str(customer))
    history.add(db, *thing, what, actor.name, now)


def _account_faults(account: Account) -> Iterator[Fault]:
    yield from blank_faults("holder", account.holder)
    yield from blank_faults("account", account.account)
    for name in ("holder", "account", "routing", "bank"):
        yield from long_faults(name, getattr(account, name))
    if _LIKE_IBAN.fullmatch(account.account.strip()) and not iban.is_valid(account.account):
        yield Fault("account", "not-an-iban")
    if _LIKE_BIC.fullmatch(account.routing.strip()) and not bic.is_valid(account.routing):
        yield Fault("routing", "not-a-bic")


def _confirmed_faults(confirmed: Confirmation, today: date) -> Iterator[Fault]:
    yield from (*blank_faults("spoken_to", confirmed.spoken_to), *long_faults("spoken_to", confirmed.spoken_to))
    yield from long_faults("known_number", confirmed.known_number)
    if confirmed.how is How.TELEPHONE:
        yield from blank_faults("known_number", confirmed.known_number)
    if confirmed.day > today:
        yield Fault("day", "in-the-future")

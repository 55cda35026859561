"""Recording what was paid: as it came, in the currency in which it came. Nothing is converted and nothing taken out.

What is recorded is checked against no bank: bank details, and whether money is there, are for people to look at.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import DocumentStands, Fault, NotFound
from app.domain.money.payment import Agreement, Entry, Mistake, Payment
from app.services.answering.checking import CURRENCIES, LONGEST_TEXT, blank_faults, long_faults, rate_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.services.money.accounts import deposit_met
from app.services.once import Once, perform
from app.services.orders.ordering import note, own_order
from app.services.planning.giving_back import give_back_unpaid
from app.store import payments as kept
from app.store.db import Store


@dataclass(frozen=True, slots=True)
class Agreed:
    """What was agreed of money in another currency, as it is typed."""

    amount: int
    rate: str
    rate_day: date
    agreed_by: str


def record(
    store: Store,
    actor: Actor,
    number: str,
    entry: Entry,
    now: datetime,
    *,
    gives_back: str = "",
    once: Once | None = None,
) -> None:
    """`gives_back`: the token of the slots that are given back by it, where money paid back undoes the deposit.

    Raises NotFound, BadInput, UnknownNames, SlotsFollow, KeyReused, Underway.
    """
    today = day_of(current_book(store, now), now)
    refuse(_entry_faults(entry, today))

    def write(db: Database) -> int:
        order = own_order(db, actor, number, now)
        met = deposit_met(db, order)
        note(db, number, f"payment-{entry.direction.value}", actor, now, day=entry.day.isoformat())
        key = kept.add(db, order.id, entry, actor.name, now)
        give_back_unpaid(store, db, actor, number, now, agreed=gives_back, was_met=met)
        return key

    perform(store, once, now, write)


def agree(
    store: Store,
    actor: Actor,
    number: str,
    payment: int,
    agreed: Agreed,
    now: datetime,
    *,
    gives_back: str = "",
    once: Once | None = None,
) -> None:
    """What money in another currency counts for; said again, the last word counts, until it is billed.

    Raises NotFound, BadInput, DocumentStands, SlotsFollow, KeyReused, Underway.
    """
    today = day_of(current_book(store, now), now)
    refuse(_agreed_faults(agreed, today))

    def write(db: Database) -> int:
        found = own_payment(db, actor, number, payment, now)
        order = own_order(db, actor, number, now)
        _refuse_billed(found)
        if found.entry.currency == order.frozen.currency:
            refuse([Fault("payment", "own-currency")])
        met = deposit_met(db, order)
        row = Agreement(agreed.amount, agreed.rate, agreed.rate_day, agreed.agreed_by, now, actor.name)
        kept.agree(db, payment, row)
        note(db, number, "payment-agreed", actor, now, agreed_by=agreed.agreed_by)
        give_back_unpaid(store, db, actor, number, now, agreed=gives_back, was_met=met)
        return payment

    perform(store, once, now, write)


def was_mistaken(
    store: Store,
    actor: Actor,
    number: str,
    payment: int,
    why: str,
    now: datetime,
    *,
    gives_back: str = "",
    once: Once | None = None,
) -> None:
    """It was written down by mistake: it stays, and counts for nothing.

    `gives_back`: the token of the slots that are given back, where the deposit does not stand without it.
    Raises NotFound, BadInput, DocumentStands, SlotsFollow, KeyReused, Underway.
    """
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = own_payment(db, actor, number, payment, now)
        _refuse_billed(found)
        if found.mistake is None:
            met = deposit_met(db, own_order(db, actor, number, now))
            kept.mistaken(db, payment, Mistake(why, now, actor.name))
            note(db, number, "payment-mistaken", actor, now)
            give_back_unpaid(store, db, actor, number, now, agreed=gives_back, was_met=met)
        return payment

    perform(store, once, now, write)


def own_payment(db: Database, actor: Actor, number: str, payment: int, now: datetime) -> Payment:
    """For use inside a transaction. Raises NotFound."""
    order = own_order(db, actor, number, now)
    found = next((one for one in kept.of(db, order.id) if one.id == payment), None)
    if found is None:
        raise NotFound(what="payment", name=str(payment))
    return found


def tolerances(store: Store, now: datetime) -> dict[str, int]:
    """Currency → how much a deposit may be short by, for the currencies of the lists in force."""
    currencies = dict.fromkeys(listed.currency for listed in current_book(store, now).lists)
    with store.reading() as db:
        return {currency: kept.tolerance(db, currency) for currency in currencies}


def tolerate(store: Store, actor: Actor, currency: str, amount: int, now: datetime) -> None:
    """From now on, for every order in this currency. Raises NotFound where no list has it, BadInput."""
    if currency not in tolerances(store, now):
        raise NotFound(what="currency", name=currency)
    with store.writing() as db:
        kept.tolerate(db, currency, amount, actor.name, now)


def _refuse_billed(payment: Payment) -> None:
    if payment.document is not None:
        raise DocumentStands(document=payment.document)


def _entry_faults(entry: Entry, today: date) -> Iterator[Fault]:
    if entry.amount < 1:
        yield Fault("amount", "too-small", {"least": 1})
    if entry.currency not in CURRENCIES:
        yield Fault("currency", "unknown-currency", {"name": entry.currency})
    if entry.day > today:
        yield Fault("day", "in-the-future")
    yield from long_faults("note", entry.note, LONGEST_TEXT)


def _agreed_faults(agreed: Agreed, today: date) -> Iterator[Fault]:
    """The rate is kept as it was written: nothing is worked out from it."""
    if agreed.amount < 1:
        yield Fault("amount", "too-small", {"least": 1})
    yield from rate_faults("rate", agreed.rate)
    if agreed.rate_day > today:
        yield Fault("rate_day", "in-the-future")
    yield from (*blank_faults("agreed_by", agreed.agreed_by), *long_faults("agreed_by", agreed.agreed_by))

"""A specification quoted once more: beside the first for the same enquiry, or for the dealer's own stock.

What is copied is what was typed; it is priced by what is in force now. For stock there is neither donor car nor
customer: the dealer himself buys, and ordering it goes the way of every quotation, by issuing and accepting.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.customers.customer import Customer
from app.domain.customers.dealer import Dealer
from app.domain.errors import BadInput, Fault
from app.domain.quotations.enquiry import DonorCar, Wish
from app.domain.quotations.quotation import DeliveryPlace, Draft, Quotation
from app.services.once import Once, perform
from app.services.quotations import enquiring, quoting
from app.services.quotations.owned import own_quotation, revision_of
from app.store import customers, dealers, retail
from app.store.db import Store

#: So many of those who go by the dealer's own name are looked at.
LOOKED_AT = 20


def copy(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    now: datetime,
    *,
    for_stock: bool = False,
    quantity: int | None = None,
    once: Once | None = None,
) -> Quotation:
    """A new quotation whose draft A is what was typed in that revision; `quantity` of each line, None as it stands.

    Raises NotFound, UnknownNames where the book in force has something no longer, BadInput, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        quotation = own_quotation(db, actor, number, now)
        draft = _counted(revision_of(quotation, letter).draft(), quantity)
        enquiry = quotation.enquiry
        if for_stock:
            dealer = _buyer(db, quotation)
            enquiry = _enquiry_of_the_house(store, db, actor, dealer, now)
            draft = replace(draft, delivery_place=_kept_place(draft.delivery_place, dealer))
        made = quoting.create_quotation(store, actor, enquiry, draft.price_list, draft.delivery_place, now)
        quoting.save_draft(store, actor, made.number, "A", replace(draft, note=""), now, expected=1)
        return made.number

    return quoting.quotation(store, actor, perform(store, once, now, write), now)


def _counted(draft: Draft, quantity: int | None) -> Draft:
    if quantity is None:
        return draft
    return replace(draft, lines=tuple(replace(line, quantity=quantity) for line in draft.lines))


def _buyer(db: Database, quotation: Quotation) -> Dealer:
    """Only a dealer's is copied for stock. Raises BadInput."""
    found = None if quotation.dealer is None else dealers.get(db, quotation.dealer)
    if found is None:
        raise BadInput([Fault("for_stock", "not-a-dealers")])
    return found


def _kept_place(place: DeliveryPlace, dealer: Dealer) -> DeliveryPlace:
    """Where it was to go, in so far as that is the dealer's own country: else no more than that country."""
    return place if place.country == dealer.country else DeliveryPlace(dealer.country)


def _enquiry_of_the_house(store: Store, db: Database, actor: Actor, dealer: Dealer, now: datetime) -> int:
    """The dealer is his own customer, known again by his name."""
    return enquiring.create_enquiry(store, actor, Wish(_house(db, dealer), DonorCar()), now).id


def _house(db: Database, dealer: Dealer) -> Customer:
    said = retail.get(db, dealer.id)
    reached = {} if said is None else {name: getattr(said.terms, name) for name in ("address", "telephone", "email")}
    fresh = Customer(dealer.name, True, dealer.country, dealer.language, dealer.units, dealer=dealer.id, **reached)
    known = (one.customer for one in customers.alike(db, fresh, dealer.id, LOOKED_AT))
    return next((one for one in known if one.trade and one.name == dealer.name), fresh)

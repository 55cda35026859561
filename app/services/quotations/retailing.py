"""A dealer's own offers: what he says for them once, what one comes to, and its paper, drawn anew each time.

The sum is worked out from the list without his trade terms, and the paper is handed nothing that holds a trade price.
No such paper is kept: it is the dealer's, and speaks by his margin of the day.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlite_utils import Database

from app.documents import contents
from app.documents.quotation.retail import RetailPaper, retail_pdf
from app.documents.saying.figures import locale_for
from app.domain.asking.actor import Actor
from app.domain.customers.dealer import Dealer
from app.domain.errors import Fault, NotFound, RetailUntold
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import Imprint, Quotation, Revision, Standing
from app.domain.quotations.retail import LEAST_MARGIN, MARGIN_DECIMALS, MOST_MARGIN, RetailSum, RetailTerms, retail_sum
from app.services.answering import checking
from app.services.quotations import papering
from app.services.quotations.handing_out import erased_of, refuse_unknown_kind
from app.services.quotations.owned import opened
from app.services.quotations.working_out import WorkedOut, refusals, sum_by, work_out
from app.store import dealers
from app.store import retail as kept
from app.store.db import Store
from app.store.retail import Said
from rules.model import Book
from rules.money.price import Tariff

LONGEST_ADDRESS = 500

#: Why an offer can't be made, by what is not said yet.
_WHY = {("address",): "no-address", ("margin",): "no-margin", ("address", "margin"): "neither"}


@dataclass(frozen=True, slots=True)
class RetailOffer:
    """What the dealer's customer would pay him before tax; `sum` None while `terms` lack something."""

    revision: Revision
    book: Book
    currency: str
    terms: RetailTerms
    own_kind: papering.Kind
    sum: RetailSum | None


@dataclass(frozen=True, slots=True)
class _Opened:
    quotation: Quotation
    enquiry: Enquiry
    revision: Revision
    dealer: Dealer
    maker: str
    terms: RetailTerms
    worked: WorkedOut


def terms(store: Store, actor: Actor) -> tuple[Dealer, Said | None]:
    """The dealer, and what he has said for his offers. Raises NotFound for who is no dealer's."""
    with store.reading() as db:
        dealer = _own_dealer(db, actor)
        return dealer, kept.get(db, dealer.id)


def say_terms(
    store: Store, actor: Actor, address: str, telephone: str, email: str, margin: str | None, now: datetime
) -> None:
    """From now on, for every paper drawn after it. `margin`: percent as decimal text; None leaves it as it was.

    Raises NotFound, BadInput.
    """
    checking.refuse(_terms_faults(address, telephone, email, margin))
    with store.writing() as db:
        dealer = _own_dealer(db, actor)
        before = kept.get(db, dealer.id)
        stood = None if before is None else before.terms.margin
        said = RetailTerms(address.strip(), telephone, email, stood if margin is None else Decimal(margin))
        kept.put(db, dealer.id, said, actor.name, now)


def offer(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> RetailOffer:
    """By the list of the quotation. Raises NotFound, and whatever keeps the revision from being issued."""
    found = _open(store, actor, number, letter, now)
    deal = found.worked.deal
    own = papering.kind_of(deal.book, found.dealer.language, found.dealer.country)
    return RetailOffer(found.revision, deal.book, deal.currency, found.terms, own, _sum(found))


def paper(
    store: Store, actor: Actor, number: str, letter: str, language: str, size: str, now: datetime, *, prices: bool
) -> bytes:
    """A PDF headed by the dealer; `prices` False leaves every sum out.

    Raises as `offer`, RetailUntold where the address or, with prices, the margin is not said, DataErased, BadInput.
    """
    found = _open(store, actor, number, letter, now)
    refuse_unknown_kind(found.worked.deal.book.languages, language, size)
    _refuse_untold(found.terms, prices=prices)
    _refuse_erased(store, found)
    quotation = _quotation(found, actor, language, size, now)
    whole = RetailPaper(quotation, found.maker, _sum(found) if prices else None)
    with papering.PRESS:
        return retail_pdf(whole)


def _open(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> _Opened:
    quotation, enquiry, revision = opened(store, actor, number, letter, now)
    with store.reading() as db:
        dealer = _own_dealer(db, actor)
        said, maker = kept.get(db, dealer.id), str(dealers.firm(db).get("name", ""))
    worked = work_out(store, enquiry, revision, now)
    for refusal in refusals(worked):
        raise refusal
    own_terms = RetailTerms() if said is None else said.terms
    return _Opened(quotation, enquiry, revision, dealer, maker, own_terms, worked)


def _own_dealer(db: Database, actor: Actor) -> Dealer:
    found = None if actor.dealer is None else dealers.get(db, actor.dealer)
    if found is None:
        raise NotFound(what="dealer", name=actor.dealer or "–")
    return found


def _sum(found: _Opened) -> RetailSum | None:
    """From the list alone: what the dealer himself pays is not asked for."""
    if found.terms.margin is None:
        return None
    worked = found.worked
    at_list = replace(worked.deal, tariff=Tariff(worked.deal.tariff.list))
    return retail_sum(sum_by(at_list, worked.draft, worked.answers).price, found.terms.margin)


def _quotation(found: _Opened, actor: Actor, language: str, size: str, now: datetime) -> contents.QuotationPaper:
    """The firm's paper without any price, headed by the dealer, in the manner of his country."""
    holds = _holds(found.revision, now)
    sheetful = papering.Sheetful(
        quotation=found.quotation,
        revision=found.revision,
        worked=found.worked,
        imprint=Imprint(actor.display_name, _head(found)),
        made_at=now,
        issued=holds,
        valid_until=found.revision.valid_until if holds else None,
    )
    made = papering.paper_of(sheetful, language, size)
    return replace(
        made,
        customer=replace(made.customer, trade=False, tax_number=""),
        shells=tuple(replace(shell, price=None) for shell in made.shells),
        tariff=Tariff(made.tariff.list),
        totals=None,
        extras=(),
        note="",
        prices_shown=False,
        locale=locale_for(language, found.dealer.country),
        units=contents.Units.BOTH if found.dealer.units == "imperial" else contents.Units.METRIC,
    )


def _holds(revision: Revision, now: datetime) -> bool:
    """Whether it still offers anything: of what was accepted, too, its own last day may have passed."""
    going = revision.standing in (Standing.ISSUED, Standing.ACCEPTED)
    return going and revision.valid_until is not None and now < revision.valid_until


def _head(found: _Opened) -> dict[str, Any]:
    lines = [line.strip() for line in found.terms.address.splitlines() if line.strip()]
    own = {"telephone": found.terms.telephone, "email": found.terms.email}
    return {"name": found.dealer.name, "address": lines, **own}


def _refuse_untold(said: RetailTerms, *, prices: bool) -> None:
    missing = tuple(name for name in said.missing if prices or name == "address")
    if missing:
        raise RetailUntold(why=_WHY[missing])


def _refuse_erased(store: Store, found: _Opened) -> None:
    with store.reading() as db:
        erased = erased_of(db, found.enquiry, found.quotation.number)
    if erased is not None:
        raise erased


def _terms_faults(address: str, telephone: str, email: str, margin: str | None) -> Iterator[Fault]:
    yield from checking.blank_faults("address", address)
    yield from checking.long_faults("address", address, LONGEST_ADDRESS)
    yield from checking.long_faults("telephone", telephone)
    yield from checking.long_faults("email", email)
    if margin is not None and not checking.is_percent(margin, LEAST_MARGIN, MOST_MARGIN, MARGIN_DECIMALS):
        yield Fault("margin", "not-a-percent", {"least": LEAST_MARGIN, "most": MOST_MARGIN})

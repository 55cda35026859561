"""From settled choices to what is payable: the tariff that holds, the tax cases of the delivery, the totals."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.customers.dealer import Dealer
from app.domain.errors import Fault, UnknownNames
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import DeliveryPlace
from app.services.answering.checking import QuotedIn, list_faults, refuse
from app.store import dealers
from rules.model import Book, Role
from rules.money.price import Tariff
from rules.money.tax import TaxCase, TaxRefusal, tax_cases
from rules.money.totals import QuotedPrice, Totals, Wanted, price_quotation, total
from rules.specification import Donor


@dataclass(frozen=True, slots=True)
class Deal:
    """What a price depends on beside the choices. `day`: of the firm's own zone, for the rate of tax."""

    book: Book
    donor: Donor
    tariff: Tariff
    place: DeliveryPlace
    customer_country: str
    day: date

    @property
    def currency(self) -> str:
        """ISO 4217 code of the price list."""
        return next(known.currency for known in self.book.lists if known.id == self.tariff.list)


@dataclass(frozen=True, slots=True)
class Sum:
    """`untold`: line → why no tax case can be named there. `totals` None with any, or with anything unpriced."""

    price: QuotedPrice
    untold: Mapping[int, TaxRefusal]
    totals: Totals | None


def day_of(book: Book, moment: datetime) -> date:
    """The day that the moment falls on where the firm is."""
    return moment.astimezone(ZoneInfo(book.calendar.zone)).date()


def midnight_of(book: Book, day: date) -> datetime:
    """The moment at which the day begins where the firm is."""
    return datetime.combine(day, time(), ZoneInfo(book.calendar.zone))


def sum_of(
    deal: Deal, lines: Sequence[tuple[Mapping[str, str], int]], extras: Mapping[str, int], charges: Sequence[int] = ()
) -> Sum:
    """`lines`: settled choices and how many shells; `extras`: id → quantity, all known to the book.

    `charges`: what is taken beside the list for each shell of each line, before tax; empty: nothing.
    """
    told = [cases_of(deal, settled) for settled, _ in lines]
    wanted = tuple(
        Wanted(settled, deal.donor, number, () if isinstance(cases, TaxRefusal) else cases, charge)
        for (settled, number), cases, charge in zip(lines, told, charges or [0] * len(lines), strict=True)
    )
    price = price_quotation(deal.book, wanted, extras, deal.tariff)
    untold = {at: cases for at, cases in enumerate(told) if isinstance(cases, TaxRefusal)}
    totals = total(price, wanted, deal.book.terms) if wanted and not untold else None
    return Sum(price, untold, totals)


def cases_of(deal: Deal, settled: Mapping[str, str]) -> tuple[TaxCase, ...] | TaxRefusal:
    """By where the goods go; the customer's country counts only where he collects."""
    role = deal.book.roles.get(Role.DELIVERY)
    delivery = None if role is None else settled.get(role)
    place = deal.place
    return tax_cases(
        deal.book, delivery, place.country or None, place.region or None, deal.customer_country or None, deal.day
    )


def tariff_of(book: Book, dealer: Dealer | None, price_list: str | None) -> Tariff:
    """The list asked for, else the dealer's, else the book's first; a dealer's terms hold on any list."""
    own = None if dealer is None else dealer.price_list
    chosen = price_list or own or (book.lists[0].id if book.lists else "")
    refuse(list_faults(book, chosen))
    return Tariff(chosen, {} if dealer is None else dealer.discounts)


def quoted_in(db: Database, book: Book, enquiry: Enquiry) -> QuotedIn:
    """A dealer by his own list, anybody else by the book's first."""
    dealer = None if enquiry.dealer is None else dealers.get(db, enquiry.dealer)
    own = [known.currency for known in book.lists if dealer is not None and known.id == dealer.price_list]
    currency = next(iter((*own, *(known.currency for known in book.lists))), "")
    return QuotedIn(enquiry.customer.name if dealer is None else dealer.name, currency)


def dealer_of(db: Database, actor: Actor, trade_of: str | None) -> Dealer | None:
    """Whose trade terms hold: a dealer's always his own. Raises UnknownNames."""
    wanted = actor.dealer or trade_of
    found = None if wanted is None else dealers.get(db, wanted)
    if wanted is not None and found is None:
        raise UnknownNames([Fault("dealer", "unknown-dealer", {"name": wanted})])
    return found

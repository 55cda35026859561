"""Which tax cases a delivery falls under. Tax follows where the goods go, not who pays nor the shell's market.

This module flags and never advises: an export is always bound to its evidence, and where a person must decide, every
case is given. It computes no amount (`rules.money.totals` does).

Sources: VAT Notice 703, VEXP20200 and VEXP30300 (exports; Northern Ireland is another case); EN 16931 and the code list
UNCL5305 for the category codes. That the islands of `ISLANDS` need a person is common practice with carriers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from itertools import takewhile

from rules.model import Book, Goes, Tax, TaxRate
from rules.money.countries import COUNTRIES

#: EN 16931 (UNCL5305) tax category codes beside their names.
STANDARD_RATE = "S"
ZERO_RATED = "Z"
EXEMPT = "E"
EXPORT = "G"
OUTSIDE_SCOPE = "O"

#: Every id that may come out of here, for whoever makes the words.
REASONS = (
    "collected-at-home",
    "collected-by-a-customer-from-abroad",
    "collected-to-go-abroad",
    "delivered-at-home",
    "export",
    "islands",
)
REFUSALS = (
    "country-unknown",
    "customer-country-open",
    "delivery-open",
    "delivery-unknown",
    "no-rate",
    "northern-ireland",
    "not-to-that-country",
    "off-the-mainland",
    "place-open",
)
EVIDENCE = "export-evidence"
ACCOUNTANT = "confirm-with-accountant"
MAINLAND_ONLY = "home-mainland-only"
PERSON_DECIDES = "a-person-decides"
CAUTIONS = (EVIDENCE, PERSON_DECIDES, MAINLAND_ONLY, ACCOUNTANT)

#: Regions of a home, by the letters that an ISO 3166-2 code or a postcode begins with (postcode areas: practice).
NORTHERN_IRELAND: Mapping[str, frozenset[str]] = {"GB": frozenset(("NIR", "BT"))}
OFF_THE_MAINLAND: Mapping[str, frozenset[str]] = {"GB": frozenset(("GY", "HS", "IM", "JE", "ZE"))}

#: ISO 3166-1 codes beside a home that are neither plainly home nor plainly abroad for tax and for carriers.
ISLANDS: Mapping[str, frozenset[str]] = {"GB": frozenset(("GG", "IM", "JE"))}


@dataclass(frozen=True, slots=True)
class TaxCase:
    """One way in which the goods may be taxed: `kind` "standard" or "export", with its EN 16931 `category`.

    `reason`: id of the sentence that says why this case; `cautions`: ids of those that go with it.
    """

    kind: str
    category: str
    percent: Decimal
    reason: str
    cautions: tuple[str, ...] = (ACCOUNTANT,)


@dataclass(frozen=True, slots=True)
class TaxRefusal:
    """No tax case can be named. `why`: id of the sentence; `fitting`: delivery choices that suit the place instead.

    `why`: "delivery-open" (no delivery chosen), "place-open" (say where it goes), "customer-country-open" (say where
    the customer is from), "delivery-unknown" (the book says nothing of that choice), "not-to-that-country" (the choice
    goes elsewhere: change the choice or the place), "off-the-mainland" (not offered: ask the carrier),
    "northern-ireland" (as that, and a person decides on the tax), "no-rate" (no standard rate in the book on that day),
    "country-unknown" (a place or customer's country that is no ISO 3166-1 code).
    """

    why: str
    fields: Mapping[str, str] = field(default_factory=dict)
    fitting: tuple[str, ...] = ()


def tax_cases(
    book: Book,
    delivery_choice: str | None,
    delivery_country: str | None,
    delivery_region: str | None,
    customer_country: str | None,
    day: date,
) -> tuple[TaxCase, ...] | TaxRefusal:
    """The cases the delivery may fall under on `day`: one is decided, two are shown for a person to decide.

    Countries are ISO 3166-1 alpha-2. `delivery_region`: ISO 3166-2 (with or without the country), a postcode, or
    "off-mainland"; None leaves it open, and a delivery within the home country then says *mainland only*. Many islands
    share a postcode area with the mainland: only a person can tell them.
    """
    told = next((goes for goes in book.tax.goes if goes.choice == delivery_choice), None)
    if delivery_choice is None or told is None:
        return _no_delivery(delivery_choice)
    place, customer = _Place.of(delivery_country, delivery_region), _code(customer_country)
    for country in (place.country, customer):
        if country is not None and country not in COUNTRIES:
            return TaxRefusal("country-unknown", {"country": country})
    rate = rate_on(book.tax, day)
    if rate is None:
        return TaxRefusal("no-rate", {"day": day.isoformat()})
    return (
        _collected(book.tax, place, customer, rate) if told.how == "collected" else _sent(book.tax, told, place, rate)
    )


def rate_on(tax: Tax, day: date) -> TaxRate | None:
    """The standard rate in force on the day; None before the first."""
    begun = [rate for rate in tax.rates if rate.since <= day.isoformat()]
    return max(begun, key=lambda rate: rate.since, default=None)


def standard(percent: Decimal, reason: str, *cautions: str) -> TaxCase:
    """Taxed at the standard rate."""
    return TaxCase("standard", STANDARD_RATE, percent, reason, (*cautions, ACCOUNTANT))


def export(reason: str, *cautions: str) -> TaxCase:
    """Not taxed because the goods leave: bound to the evidence that they did."""
    return TaxCase("export", EXPORT, Decimal(0), reason, (EVIDENCE, *cautions, ACCOUNTANT))


@dataclass(frozen=True, slots=True)
class _Place:
    country: str | None
    region: str

    @staticmethod
    def of(country: str | None, region: str | None) -> _Place:
        return _Place(_code(country), (region or "").strip())

    def northern_irish(self) -> bool:
        return self._area() in NORTHERN_IRELAND.get(self.country or "", ())

    def off_the_mainland(self, home: str) -> bool:
        islands = self.country in ISLANDS.get(home, ()) or self._area() in OFF_THE_MAINLAND.get(self.country or "", ())
        return islands or self.region.lower() == "off-mainland" or self.northern_irish()

    def _area(self) -> str:
        """The letters that the region begins with: NIR of GB-NIR, BT of BT1 5GS."""
        region = self.region.upper().removeprefix(f"{self.country}-")
        return "".join(takewhile(str.isalpha, region))


def _code(country: str | None) -> str | None:
    return (country or "").strip().upper() or None


def _no_delivery(choice: str | None) -> TaxRefusal:
    return TaxRefusal("delivery-open") if choice is None else TaxRefusal("delivery-unknown", {"choice": choice})


def _collected(tax: Tax, place: _Place, customer: str | None, rate: TaxRate) -> tuple[TaxCase, ...] | TaxRefusal:
    if customer is None:
        return TaxRefusal("customer-country-open")
    if customer != tax.home:
        return _either(rate, "collected-by-a-customer-from-abroad")
    if place.country not in (None, tax.home):
        return _either(rate, "collected-to-go-abroad")
    return (standard(rate.percent, "collected-at-home"),)


def _sent(tax: Tax, goes: Goes, place: _Place, rate: TaxRate) -> tuple[TaxCase, ...] | TaxRefusal:
    place = replace(place, country=place.country or goes.country)
    if place.country is None:
        return TaxRefusal("place-open", {"choice": goes.choice})
    if goes.how == "home" and (place.country == tax.home or place.off_the_mainland(tax.home)):
        return _at_home(tax, goes, place, rate)
    if place.country == tax.home and place.northern_irish():
        return TaxRefusal("northern-ireland", _where(goes, place))
    if not _fits(tax, goes, place.country):
        return TaxRefusal("not-to-that-country", _where(goes, place), _fitting(tax, place.country))
    return _either(rate, "islands") if place.country in ISLANDS.get(tax.home, ()) else (export("export"),)


def _at_home(tax: Tax, goes: Goes, place: _Place, rate: TaxRate) -> tuple[TaxCase, ...] | TaxRefusal:
    if place.northern_irish():
        return TaxRefusal("northern-ireland", _where(goes, place))
    if place.off_the_mainland(tax.home):
        return TaxRefusal("off-the-mainland", _where(goes, place))
    return (standard(rate.percent, "delivered-at-home", *(() if place.region else (MAINLAND_ONLY,))),)


def _either(rate: TaxRate, reason: str) -> tuple[TaxCase, ...]:
    return (export(reason, PERSON_DECIDES), standard(rate.percent, reason, PERSON_DECIDES))


def _fits(tax: Tax, goes: Goes, country: str) -> bool:
    if goes.how == "home":
        return country == tax.home
    return country != tax.home and goes.country in (None, country)


def _fitting(tax: Tax, country: str) -> tuple[str, ...]:
    """Choices by which we send to that country: those that name it first, then those that go anywhere."""
    sent = [goes for goes in tax.goes if goes.how != "collected" and _fits(tax, goes, country)]
    return tuple(goes.choice for goes in sorted(sent, key=lambda goes: goes.country is None))


def _where(goes: Goes, place: _Place) -> dict[str, str]:
    return {"choice": goes.choice, "country": place.country or "", "region": place.region}

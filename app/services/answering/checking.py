"""What is at fault with things as they are typed in: single fields and names that the book hasn't, all at once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from iso4217 import Currency

from app.domain.customers.customer import UNITS, Customer
from app.domain.errors import BadInput, Fault, UnknownNames
from app.domain.quotations.enquiry import DonorCar, Wish
from app.domain.quotations.photograph import PROVES, Photograph
from app.domain.quotations.quotation import Draft
from app.wording import LANGUAGES
from rules.model import Book, Role
from rules.money.countries import COUNTRIES
from rules.specification import Specification

LONGEST_LINE = 200
LONGEST_TEXT = 10_000
MOST_LINES = 100
MOST_PIECES = 1_000

#: The codes of ISO 4217.
CURRENCIES = frozenset(currency.code for currency in Currency)

_RATE = re.compile(r"[0-9]{1,12}(\.[0-9]{1,12})?")


def refuse(faults: Iterable[Fault]) -> None:
    """Raises UnknownNames where only names are at fault, BadInput where more is, and nothing where nothing is."""
    found = tuple(faults)
    if found and all(fault.code.startswith("unknown-") for fault in found):
        raise UnknownNames(found)
    if found:
        raise BadInput(found)


def specification_faults(book: Book, specification: Specification, path: str) -> Iterator[Fault]:
    """Options and choices that the book hasn't."""
    return choice_faults(book, specification.choices(), path)


def choice_faults(book: Book, choices: Mapping[str, str], path: str) -> Iterator[Fault]:
    known = {option.id: {choice.id for choice in option.choices} for option in book.options}
    for option, choice in choices.items():
        if option not in known:
            yield Fault(f"{path}.{option}", "unknown-option", {"name": option})
        elif choice not in known[option]:
            yield Fault(f"{path}.{option}", "unknown-choice", {"name": choice, "option": option})


@dataclass(frozen=True, slots=True)
class QuotedIn:
    """In what somebody is usually quoted: his name, and the currency (ISO 4217) of his list."""

    name: str
    currency: str


def draft_faults(book: Book, draft: Draft, quoted: QuotedIn | None = None) -> Iterator[Fault]:
    """Of a revision as it is typed. What can't be built or is not complete is no fault of a draft."""
    yield from list_faults(book, draft.price_list, quoted)
    yield from country_faults(draft.delivery_place.country, "delivery_place.country")
    yield from long_faults("delivery_place.region", draft.delivery_place.region)
    yield from long_faults("delivery_place.term", draft.delivery_place.term)
    yield from long_faults("note", draft.note, LONGEST_TEXT)
    if len(draft.lines) > MOST_LINES:
        yield Fault("lines", "too-long", {"most": MOST_LINES})
    for at, line in enumerate(draft.lines):
        yield from quantity_faults(f"lines.{at}.quantity", line.quantity)
        yield from specification_faults(book, line.specification, f"lines.{at}.specification")
    yield from _extras_faults(book, draft)


def key_faults(book: Book, keys: Mapping[str, str]) -> Iterator[Fault]:
    """`keys`: series, market, body → choice, named as they are asked for; options that the book lacks are skipped."""
    for name, choice in keys.items():
        option = book.roles.get(Role(name))
        if option is not None and all(known.id != choice for known in book.option(option).choices):
            yield Fault(name, "unknown-choice", {"name": choice, "option": option})


def list_faults(book: Book, price_list: str, quoted: QuotedIn | None = None) -> Iterator[Fault]:
    """Of a currency without a list it is said in what somebody is quoted, or which lists there are."""
    if all(known.id != price_list for known in book.lists):
        yield _no_list(book, price_list, quoted)


def _no_list(book: Book, name: str, quoted: QuotedIn | None) -> Fault:
    if name not in CURRENCIES:
        return Fault("price_list", "unknown-list", {"name": name})
    if quoted is None or not quoted.name:
        return Fault("price_list", "unknown-list-in", {"paid": name, "lists": [known.id for known in book.lists]})
    slots = {"paid": name, "customer": quoted.name, "currency": quoted.currency}
    return Fault("price_list", "unknown-list-quoted", slots)


def quantity_faults(path: str, quantity: int) -> Iterator[Fault]:
    if quantity < 1:
        yield Fault(path, "too-small", {"least": 1})
    elif quantity > MOST_PIECES:
        yield Fault(path, "too-large", {"most": MOST_PIECES})


def donor_facts_faults(
    book: Book, series: str | None, number: int | None, gearbox: str | None, path: str
) -> Iterator[Fault]:
    """Series and gearboxes that the book hasn't; a number below nothing."""
    if series is not None and series not in _series(book):
        yield Fault(f"{path}.series", "unknown-series", {"name": series})
    if gearbox is not None and gearbox not in book.gearboxes:
        yield Fault(f"{path}.gearbox", "unknown-gearbox", {"name": gearbox})
    if number is not None and number < 0:
        yield Fault(f"{path}.number", "too-small", {"least": 0})


def wish_faults(book: Book, wish: Wish, *, unknown_dealer: bool = False) -> Iterator[Fault]:
    """Of an enquiry as it is typed. A donor number that can't be read is no fault: the text is kept."""
    yield from _customer_faults(wish.customer)
    if unknown_dealer:
        yield Fault("customer.dealer", "unknown-dealer", {"name": wish.customer.dealer})
    yield from _donor_faults(book, wish.donor)
    yield from long_faults("note", wish.note, LONGEST_TEXT)


def pointing_faults(donor: DonorCar, kept: Iterable[Photograph]) -> Iterator[Fault]:
    """Whoever says so can only point to a photograph of this enquiry, and to one that shows what he says."""
    shows = {one.id: one.shows for one in kept}
    for name, picture in (("built", donor.built), ("stands", donor.stands), ("ordered", donor.ordered)):
        if picture.photograph is None:
            continue
        if picture.photograph not in shows:
            yield Fault(f"donor.{name}.photograph", "not-of-this-car")
        elif picture.said_by is None or shows[picture.photograph] not in PROVES[picture.said_by]:
            yield Fault(f"donor.{name}.photograph", "shows-another")


def country_faults(country: str, path: str) -> Iterator[Fault]:
    """Anything but nothing or a country of the one list."""
    if country and country not in COUNTRIES:
        yield Fault(path, "unknown-country", {"name": country})


def blank_faults(path: str, text: str) -> Iterator[Fault]:
    if not text.strip():
        yield Fault(path, "required")


def rate_faults(path: str, text: str) -> Iterator[Fault]:
    """A rate between two currencies as it was published: digits with a point, above nothing."""
    if not _RATE.fullmatch(text) or not Decimal(text):
        yield Fault(path, "not-a-rate")


def is_percent(text: str, least: Decimal, most: Decimal, decimals: int) -> bool:
    """Whether it is a percentage from `least` to `most` with so many decimals at most."""
    try:
        percent = Decimal(text)
    except InvalidOperation:
        return False
    exponent = percent.as_tuple().exponent
    return isinstance(exponent, int) and -exponent <= decimals and least <= percent <= most


def long_faults(path: str, text: str, most: int = LONGEST_LINE) -> Iterator[Fault]:
    if len(text) > most:
        yield Fault(path, "too-long", {"most": most})


def _extras_faults(book: Book, draft: Draft) -> Iterator[Fault]:
    known = {extra.id for extra in book.extras}
    seen: set[str] = set()
    for at, sold in enumerate(draft.extras):
        yield from quantity_faults(f"extras.{at}.quantity", sold.quantity)
        if sold.extra not in known:
            yield Fault(f"extras.{at}.extra", "unknown-extra", {"name": sold.extra})
        if sold.extra in seen:
            yield Fault(f"extras.{at}.extra", "duplicate")
        seen.add(sold.extra)


def _customer_faults(customer: Customer) -> Iterator[Fault]:
    yield from blank_faults("customer.name", customer.name)
    for name in ("name", "telephone", "email", "tax_number"):
        yield from long_faults(f"customer.{name}", getattr(customer, name))
    yield from long_faults("customer.address", customer.address, LONGEST_TEXT)
    yield from country_faults(customer.country, "customer.country")
    yield from one_of("customer.language", customer.language, LANGUAGES)
    yield from one_of("customer.units", customer.units, UNITS)


def _donor_faults(book: Book, donor: DonorCar) -> Iterator[Fault]:
    yield from long_faults("donor.number_text", donor.number_text)
    yield from donor_facts_faults(book, donor.series, donor.number, donor.gearbox, "donor")
    if donor.established:
        yield from _established_faults(book, donor)
    for name in ("built", "stands", "ordered"):
        picture = getattr(donor, name)
        yield from choice_faults(book, picture.values, f"donor.{name}")
        yield from long_faults(f"donor.{name}.note", picture.note, LONGEST_TEXT)


def _established_faults(book: Book, donor: DonorCar) -> Iterator[Fault]:
    """Established is a number that the series is known to have had; a series alone may be established too."""
    if donor.series is None:
        yield Fault("donor.series", "required")
    for series in book.series:
        if series.choice == donor.series and donor.number is not None:
            if donor.number < series.first:
                yield Fault("donor.number", "too-small", {"least": series.first})
            if donor.number > series.last:
                yield Fault("donor.number", "too-large", {"most": series.last})


def one_of(path: str, value: str, known: tuple[str, ...]) -> Iterator[Fault]:
    if value not in known:
        yield Fault(path, "not-one-of", {"choices": known})


def _series(book: Book) -> set[str]:
    role = book.roles.get(Role.SERIES)
    return set() if role is None else {choice.id for choice in book.option(role).choices}

"""The demo firm's desk at the service level, with the dull fields filled in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from app.domain.asking.people import Person, Role
from app.domain.customers.customer import Customer
from app.domain.quotations.enquiry import DonorCar, Enquiry, Wish
from app.domain.quotations.quotation import DeliveryPlace, Draft, DraftLine, ExtraSold, Revision
from app.services.answering import pricing, specifying
from app.services.books import tools
from app.services.quotations import enquiring, quoting
from app.store.db import Store
from rules.model import Book, ToolCondition
from rules.money.price import Tariff
from rules.specification import Donor, Origin, Specification, Taken

#: The case book's day of issue, ten in the morning in London.
NOW = datetime(2026, 11, 2, 10, tzinfo=UTC)

CLERK = Person("imogen", "Imogen Faulk", Role.CLERK)
MANAGER = Person("piers", "Piers Adeyemi", Role.MANAGER)
HOLLIN = Person("nell", "Nell Arkwell", Role.DEALER, "hollin-lane")
LINDENHOF = Person("greta", "Greta Lindenhof", Role.DEALER, "lindenhof", "de")
BAYOU = Person("wade", "Wade Thibault", Role.DEALER, "bayou-road")

#: What must be chosen before the usual can be taken over.
S3_ROADSTER = {"body": "roadster", "market": "home", "series": "s3"}


@dataclass(frozen=True)
class Desk:
    """`store` holds the demo firm without work in hand."""

    store: Store

    def wish(
        self, name: str = "Agnes Thornbury", country: str = "GB", donor: DonorCar | None = None, **more: Any
    ) -> Wish:
        return Wish(Customer(name, country=country, **more), donor or DonorCar())

    def take_down(self, who: Person = CLERK, wish: Wish | None = None, at: datetime = NOW) -> Enquiry:
        return enquiring.create_enquiry(self.store, who, wish or self.wish(), at)

    def specification(self, chosen: dict[str, str], donor: Donor | None = None, at: datetime = NOW) -> Specification:
        """What was chosen, and the usual for the rest."""
        keys = (chosen["series"], chosen["market"], chosen["body"])
        usual = specifying.usual(self.store, *keys, donor or Donor(), at)
        taken = {option: Taken(choice, Origin.USUAL) for option, choice in usual.items()}
        return Specification({**taken, **{option: Taken(choice) for option, choice in chosen.items()}})

    def drafted(
        self,
        *lines: tuple[dict[str, str], int],
        who: Person = CLERK,
        wish: Wish | None = None,
        price_list: str = "GBP",
        place: DeliveryPlace | None = None,
        extras: tuple[ExtraSold, ...] = (),
        at: datetime = NOW,
    ) -> str:
        """The number of a quotation whose draft A has these lines: what was chosen, and how many."""
        place = place or DeliveryPlace("GB")
        enquiry = self.take_down(who, wish, at)
        number = quoting.create_quotation(self.store, who, enquiry.id, price_list, place, at).number
        donor = enquiry.donor.facts()
        typed = tuple(DraftLine(self.specification(chosen, donor, at), quantity) for chosen, quantity in lines)
        draft = Draft(price_list, place, lines=typed, extras=extras)
        quoting.save_draft(self.store, who, number, "A", draft, at, expected=1)
        return number

    def issue(self, number: str, letter: str = "A", who: Person = CLERK, at: datetime = NOW) -> Revision:
        """At whatever version it stands."""
        version = self.revision(number, letter, who, at).version
        return quoting.issue(self.store, who, number, letter, at, expected=version)

    def revision(self, number: str, letter: str = "A", who: Person = CLERK, at: datetime = NOW) -> Revision:
        found = quoting.quotation(self.store, who, number, at).revision(letter)
        assert found is not None
        return found

    def conditions(self) -> dict[str, ToolCondition]:
        return tools.tool_states(self.store).conditions()

    def tariff(self, book: Book, who: Person) -> Tariff:
        with self.store.reading() as db:
            return pricing.tariff_of(book, pricing.dealer_of(db, who, None), None)

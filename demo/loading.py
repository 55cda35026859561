"""Loads the demo firm into an empty desk: its book, the state of its tools, its dealers, and a little work in hand.

All of it is invented. Dates are counted from the day of loading. People are added by whoever calls this.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from decimal import Decimal
from pathlib import Path

from app.domain.customer import Customer
from app.domain.dealer import Dealer
from app.domain.enquiry import DonorCar, Picture, Source, Wish
from app.domain.people import Person, Role
from app.domain.quotation import DeliveryPlace, Draft, DraftLine
from app.services import enquiring, publishing, quoting, specifying, tools
from app.store import dealers
from app.store.db import Store
from rules.model import ToolCondition
from rules.specification import Donor, Origin, Specification, Taken

BOOK = Path(__file__).parent / "skerry.book"

IMOGEN = Person("imogen", "Imogen Faulk", Role.CLERK)
PIERS = Person("piers", "Piers Adeyemi", Role.MANAGER)
GRETA = Person("greta", "Greta Lindenhof", Role.DEALER, "lindenhof", "de")
WADE = Person("wade", "Wade Thibault", Role.DEALER, "bayou-road")

FIRM = {
    "name": "Ravensmoor Body Company",
    "address": ["The Pressing Shed, Ravensmoor"],
    "telephone": "+44 1632 960 117",
    "email": "desk@ravensmoor.example",
}

DEALERS = (
    ("hollin-lane", "Hollin Lane Classics", "GB", "en", "metric", "GBP", (15, 5, 0, 0)),
    ("lindenhof", "Werkstatt Lindenhof", "DE", "de", "metric", "EUR", (12, 5, 0, 0)),
    ("bayou-road", "Bayou Road Sports Cars", "US", "en", "imperial", "USD", (18, 5, 0, 0)),
    ("karoo-road", "Karoo Road Restorations", "ZA", "en", "metric", "GBP", (14, 5, 0, 0)),
)

LOST = {
    "vented-scuttle-press": "Scrapped in 1965, when louvres gave way to an intake under the bonnet.",
    "narrow-tunnel-press": "Its dies cracked in a cold winter and went for scrap.",
    "small-window-press": "Its ring was cut up to make the large-window press.",
    "bulkhead-r-na": "Never made: no such car was sold.",
}

PLATE = Picture(said_by=Source.PLATE)


def load(store: Store, now: datetime, url: str = "http://127.0.0.1:8765") -> None:
    """All of it or nothing; the desk must be empty. `url`: where the codes on the issued papers lead."""
    with store.writing():
        set_up(store, now - timedelta(days=40))
        work_in_hand(store, now, url)


def set_up(store: Store, at: datetime) -> None:
    """The firm, its dealers, its book and the state of its tools, with no work in hand."""
    with store.writing() as db:
        dealers.put_firm(db, FIRM)
        for dealer in DEALERS:
            dealers.put(db, _dealer(*dealer))
        text = BOOK.read_text(encoding="utf-8")
        publishing.publish_book(store, PIERS, text, at, file=BOOK.name, note="The first book.")
        for number, (tool, note) in enumerate(LOST.items()):
            tools.set_tool(store, PIERS, tool, ToolCondition.LOST, at, note=note, expected=number)


def work_in_hand(store: Store, now: datetime, url: str) -> None:
    """Five enquiries: two issued to customers, one under revision, one still a draft, one not quoted yet."""
    _small_window_coupe(store, now - timedelta(days=12), url)
    _roadsters_for_stock(store, now - timedelta(days=9), url)
    _coupe_for_germany(store, now - timedelta(days=6), url)
    _roadster_for_north_america(store, now - timedelta(days=4))
    _number_past_the_last(store, now - timedelta(days=1))


def _small_window_coupe(store: Store, at: datetime, url: str) -> None:
    """The ring of the rear window must be sent by the owner: issued with that part open."""
    customer = Customer(
        "Agnes Thornbury", country="GB", telephone="+44 1632 960 204", address="3 Weir Cottages\nOtterfold"
    )
    donor = DonorCar("T2-05900", "s2", 5900, True, "manual", built=PLATE)
    chosen = {"body": "coupe", "market": "home", "series": "s2"}
    number = _quoted(store, IMOGEN, Wish(customer, donor), "GBP", DeliveryPlace("GB"), chosen, 1, at)
    quoting.issue(store, IMOGEN, number, "A", at + timedelta(hours=3), expected=2, url=url)


def _roadsters_for_stock(store: Store, at: datetime, url: str) -> None:
    """Three alike for a dealer's stock, with no donor car."""
    customer = Customer(
        "Hollin Lane Classics", trade=True, country="GB", telephone="+44 1632 960 355", dealer="hollin-lane"
    )
    chosen = {"body": "roadster", "market": "home", "series": "s3"}
    number = _quoted(store, IMOGEN, Wish(customer), "GBP", DeliveryPlace("GB"), chosen, 3, at)
    quoting.issue(store, IMOGEN, number, "A", at + timedelta(hours=1), expected=2, url=url)
    quoting.next_revision(store, IMOGEN, number, at + timedelta(days=2))


def _coupe_for_germany(store: Store, at: datetime, url: str) -> None:
    customer = Customer("Werkstatt Lindenhof", trade=True, country="DE", language="de", telephone="+49 30 23125 017")
    donor = DonorCar("T3-20417", "s3", 20417, True, "manual", built=PLATE)
    chosen = {
        "body": "coupe",
        "market": "europe",
        "series": "s3",
        "finish": "painted",
        "primer": "epoxy-and-filler",
        "scope": "outside-and-shuts",
        "colour": "frost",
        "packing": "crate",
        "delivery": "door-germany",
    }
    number = _quoted(store, GRETA, Wish(customer, donor), "EUR", DeliveryPlace("DE"), chosen, 1, at)
    quoting.issue(store, GRETA, number, "A", at + timedelta(hours=2), expected=2, url=url)


def _roadster_for_north_america(store: Store, at: datetime) -> None:
    """Still a draft: a question is left open."""
    customer = Customer("Bayou Road Sports Cars", trade=True, country="US", units="imperial", telephone="+1 555 0142")
    donor = DonorCar("T4-11806", "s4", 11806, True, "manual", built=PLATE)
    chosen = {"body": "roadster", "market": "north-america", "series": "s4", "packing": "frame", "delivery": "port"}
    _quoted(store, WADE, Wish(customer, donor), "USD", DeliveryPlace("US"), chosen, 1, at, left_open=("bonnet",))


def _number_past_the_last(store: Store, at: datetime) -> None:
    """One past the last of its series: kept as it was said, and not established."""
    customer = Customer("Tobias Fell", country="GB", telephone="+44 1632 960 471")
    stands = Picture({"body": "roadster"}, Source.OWNER, "Says the plate is hard to read.")
    wish = Wish(customer, DonorCar("T2-21301", stands=stands), (at + timedelta(days=200)).date(), "Rang at nine.")
    enquiring.create_enquiry(store, IMOGEN, wish, at)


def _quoted(
    store: Store,
    who: Person,
    wish: Wish,
    price_list: str,
    place: DeliveryPlace,
    chosen: dict[str, str],
    quantity: int,
    at: datetime,
    left_open: tuple[str, ...] = (),
) -> str:
    """The number of a quotation with one line: what was chosen, and the usual for the rest."""
    enquiry = enquiring.create_enquiry(store, who, wish, at)
    number = quoting.create_quotation(store, who, enquiry.id, price_list, place, at).number
    specification = _specification(store, chosen, wish.donor.facts(), at, left_open)
    draft = Draft(price_list, place, lines=(DraftLine(specification, quantity),))
    quoting.save_draft(store, who, number, "A", draft, at, expected=1)
    return number


def _specification(
    store: Store, chosen: dict[str, str], donor: Donor, at: datetime, left_open: tuple[str, ...]
) -> Specification:
    usual = specifying.usual(store, chosen["series"], chosen["market"], chosen["body"], donor, at)
    taken = {option: Taken(choice, Origin.USUAL) for option, choice in usual.items() if option not in left_open}
    return Specification({**taken, **{option: Taken(choice) for option, choice in chosen.items()}})


def _dealer(
    id_: str, name: str, country: str, language: str, units: str, price_list: str, percents: tuple[int, ...]
) -> Dealer:
    discounts = {category: Decimal(percent) for category, percent in zip("ABCD", percents, strict=True)}
    return Dealer(id_, name, country, language, units, price_list, discounts)

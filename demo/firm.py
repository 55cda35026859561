"""The demo firm's particulars, its dealers with their terms, and the tools that it has lost: all of it invented."""

from __future__ import annotations

from decimal import Decimal

from app.domain.customers.dealer import Dealer

#: The telephone numbers of the demo are kept free for fiction (from memory: Ofcom's, the Bundesnetzagentur's, ARCEP's,
#: PTS's and ACMA's drama numbers, and 555-01xx in North America). Where no such range is known nobody has one.
FIRM = {
    "name": "Ravensmoor Body Company",
    "address": ["The Pressing Shed, Ravensmoor"],
    "telephone": "+44 1632 960 117",
    "email": "desk@ravensmoor.example",
    "tax_number": "GB 999 9999 73",  # its check digits hold; from memory, a number kept for examples
}

LOST = {
    "vented-scuttle-press": "Scrapped in 1965, when louvres gave way to an intake under the bonnet.",
    "narrow-tunnel-press": "Its dies cracked in a cold winter and went for scrap.",
    "small-window-press": "Its ring was cut up to make the large-window press.",
    "bulkhead-r-na": "Never made: no such car was sold.",
}


def _dealer(
    id_: str, name: str, country: str, language: str, units: str, price_list: str, percents: tuple[int, ...]
) -> Dealer:
    discounts = {category: Decimal(percent) for category, percent in zip("ABCD", percents, strict=True)}
    return Dealer(id_, name, country, language, units, price_list, discounts)


#: Dealer → what his own offers bear: address, telephone, e-mail, and his margin on the list in percent.
RETAIL = {
    "hollin-lane": ("Hollin Lane\nOtterfold", "+44 1632 960 355", "shop@hollinlane.example", "4"),
    "lindenhof": ("Lindenhof 3\nWeidenau", "+49 30 23125 017", "werkstatt@lindenhof.example", "8.5"),
    "bayou-road": ("2210 Bayou Road\nHeron Landing", "+1 555 555 0142", "cars@bayouroad.example", "12"),
    "karoo-road": ("7 Karoo Road\nWitberg", "", "workshop@karooroad.example", "6"),
}

DEALERS = (
    _dealer("hollin-lane", "Hollin Lane Classics", "GB", "en", "metric", "GBP", (15, 5, 0, 0)),
    _dealer("lindenhof", "Werkstatt Lindenhof", "DE", "de", "metric", "EUR", (12, 5, 0, 0)),
    _dealer("bayou-road", "Bayou Road Sports Cars", "US", "en", "imperial", "USD", (18, 5, 0, 0)),
    _dealer("karoo-road", "Karoo Road Restorations", "ZA", "en", "metric", "GBP", (14, 5, 0, 0)),
)

"""A year of orders with their deposits, so that the calendar is a working firm's: who orders what, how many weeks ago.

A pattern of a quarter is gone through four times; twice there is a rush that the shop is behind for months after.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.domain.asking.people import Person
from app.domain.customers.customer import Customer
from app.domain.quotations.quotation import DeliveryPlace
from demo import customers as c
from demo.steps import Accepted, Issued, Job, Paid, Shells
from demo.work import (
    DE,
    FOUR_LINK,
    GRETA,
    HERE,
    HOLLIN,
    IMOGEN,
    NELL,
    OWN_TUNNEL,
    PAINTED,
    PORT,
    THEMBA,
    TO_GERMANY,
    US,
    VAN,
    WADE,
    ZA,
)

#: Private customers of the firm's own, one for each order.
_NAMES = (
    *("Rowan Aldersley", "Edith Marchbank", "Linus Cobbold", "Petra Wexcombe", "Gilbert Sorrel", "Nora Tidswell"),
    *("Amos Birkdale", "Clemency Rudge", "Hector Pallister", "Winifred Oakes", "Jonas Thirlby", "Sabine Merrow"),
    *("Leopold Cray", "Harriet Dunmore", "Stellan Voss", "Phoebe Larkham", "Ruben Ashgrove", "Ingrid Callow"),
    *("Barnaby Stroud", "Cecily Tarleton", "Magnus Holloway", "Dorothea Spence", "Ellis Garside", "Viola Hathersage"),
    *("Conrad Penrose", "Lydia Farrow", "Oswin Tranter", "Rosalind Keeble", "Hugo Marsden", "Adela Winterby"),
)

PAINTED_HERE = f"finish=painted primer=epoxy-and-filler {VAN}"

_Row = tuple[Person, Customer | None, str, DeliveryPlace, str, int]

# fmt: off
#: Weeks into the quarter → who takes it down, for whom (None: the next private customer), list, place, shell, how many.
_QUARTER: tuple[_Row, ...] = (
    (IMOGEN, None, "GBP", HERE, f"s3 home roadster {VAN}", 1),
    (NELL, c.HOLLIN_LANE, "GBP", HOLLIN, "s3 home roadster", 3),
    (GRETA, c.LINDENHOF, "EUR", DE, f"s3 europe coupe {TO_GERMANY}", 2),
    (IMOGEN, None, "GBP", HERE, f"s2 home roadster {PAINTED_HERE} scope=outside colour=moss", 1),
    (WADE, c.BAYOU_ROAD, "USD", US, f"s4 north-america roadster {PORT}", 3),
    (IMOGEN, None, "GBP", HERE, f"s4 home roadster {VAN}", 1),
    (THEMBA, c.KAROO_ROAD, "GBP", ZA, f"s3 southern-africa coupe {PAINTED} scope=outside colour=oat delivery=port", 1),
    (IMOGEN, None, "GBP", HERE, f"s3 home roadster {PAINTED_HERE} scope=all-over colour=frost", 1),
    (NELL, c.HOLLIN_LANE, "GBP", HOLLIN, "s2 home roadster", 2),
    (IMOGEN, None, "GBP", HERE, f"s3 home roadster {FOUR_LINK} {VAN}", 1),
    (GRETA, c.LINDENHOF, "EUR", DE, f"s2 europe roadster {PAINTED} scope=outside colour=peat delivery=port", 2),
    (IMOGEN, None, "GBP", HERE, f"s1 home roadster {OWN_TUNNEL} {VAN}", 1),
    (IMOGEN, None, "GBP", HERE, f"s3 home roadster trial-fit=customers-trim {VAN}", 1),
)

#: All in one week.
_RUSH: tuple[_Row, ...] = (
    (NELL, c.HOLLIN_LANE, "GBP", HOLLIN, "s3 home roadster", 4),
    (IMOGEN, None, "GBP", HERE, f"s3 home roadster {PAINTED_HERE} scope=outside colour=slate", 1),
    (IMOGEN, None, "GBP", HERE, f"s4 home roadster {PAINTED_HERE} scope=outside-and-shuts colour=sleet", 1),
    (WADE, c.BAYOU_ROAD, "USD", US, f"s4 north-america roadster {PORT}", 4),
    (THEMBA, c.KAROO_ROAD, "GBP", ZA, f"s3 southern-africa roadster {PORT}", 3),
    *((IMOGEN, None, "GBP", HERE, f"s3 home roadster {PAINTED_HERE} scope=outside colour=chalk", 1),) * 2,
    (IMOGEN, None, "GBP", HERE, f"s3 home roadster own-doors=yes {VAN}", 1),
    (GRETA, c.LINDENHOF, "EUR", DE, f"s3 europe coupe {PAINTED} scope=outside colour=frost delivery=port", 3),
    *((IMOGEN, None, "GBP", HERE, f"s3 home roadster {VAN}", 1),) * 2,
)
# fmt: on

_QUARTERS, _WEEKS = 4, 13

#: Days before the day of loading.
_RUSHES = (4 * 13 * 7 + 2, 9 * 7 + 2)


def year() -> tuple[Job, ...]:
    """The oldest first."""
    private = iter(_NAMES * 2)
    rows = [*((row, days) for days in _RUSHES for row in _RUSH), *_spread()]
    return tuple(_job(row, days, private) for row, days in sorted(rows, key=lambda one: -one[1]))


def _spread() -> Iterator[tuple[_Row, int]]:
    """Each with its days before the day of loading."""
    for week in range(_QUARTERS * _WEEKS - 2):
        yield _QUARTER[week % _WEEKS], (_QUARTERS * _WEEKS - week) * 7


def _job(row: _Row, days: int, private: Iterator[str]) -> Job:
    by, customer, listed, place, shell, many = row
    wanted = Customer(next(private), country="GB") if customer is None else customer
    return Job(
        days, by, wanted, "", listed, place, (Shells(shell, many),), (Issued(1), Accepted(5), Paid(9, billed=False))
    )

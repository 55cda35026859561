"""What can happen to a piece of the demo's work, as the table in `demo.work` says. `day` counts from its enquiry."""

from __future__ import annotations

from dataclasses import dataclass, field

from app.domain.asking.people import Person
from app.domain.customers.customer import Customer
from app.domain.quotations.chasing import Kind, Way
from app.domain.quotations.photograph import Shows
from app.domain.quotations.quotation import DeliveryPlace, Reason

#: option=choice, in words set apart by spaces.
Choices = str


@dataclass(frozen=True, slots=True)
class Issued:
    day: int


@dataclass(frozen=True, slots=True)
class Revised:
    """The next draft, every line changed by `choices`."""

    day: int
    choices: Choices = ""


@dataclass(frozen=True, slots=True)
class Accepted:
    day: int
    note: str = ""


@dataclass(frozen=True, slots=True)
class Declined:
    day: int
    reason: Reason
    note: str


@dataclass(frozen=True, slots=True)
class Paid:
    """`amount`: as it came, in `currency` (the order's own where empty); None for the very deposit. `billed` at once.

    `agreed`: what it counts for in the order's currency, with the rate that was agreed.
    """

    day: int
    amount: int | None = None
    currency: str = ""
    agreed: tuple[int, str] | None = None
    billed: bool = True


@dataclass(frozen=True, slots=True)
class Asked:
    """The manager's yes to `rule` is asked for on the first line."""

    day: int
    rule: str
    note: str


@dataclass(frozen=True, slots=True)
class Ruled:
    """The manager's answer to what was asked for under `rule`, with his reason."""

    day: int
    rule: str
    granted: bool
    reason: str


@dataclass(frozen=True, slots=True)
class Sent:
    """Somebody sent the customer the text of that kind, and wrote it down."""

    day: int
    kind: Kind
    way: Way = Way.E_MAIL


@dataclass(frozen=True, slots=True)
class Photographed:
    """A photograph came of the car; of its plate or from the works' book, whoever says so points to it."""

    day: int
    shows: Shows
    part: str = ""
    note: str = ""


Step = Issued | Revised | Accepted | Declined | Paid | Asked | Ruled | Sent | Photographed


@dataclass(frozen=True, slots=True)
class Shells:
    """`quantity` alike. `choices` begins with series, market and body; the rest is as the original car had it.

    `left_open`: options that nobody has answered yet, set apart by spaces.
    """

    choices: Choices
    quantity: int = 1
    left_open: str = ""


@dataclass(frozen=True, slots=True)
class Job:
    """A piece of work: `days` before the day of loading `by` took it down for `customer`.

    `car`: its number as the customer says it, with its gearbox behind where that is no manual one; empty for none.
    No `shells`: an enquiry that is not quoted yet.
    """

    days: int
    by: Person
    customer: Customer
    car: str
    price_list: str
    place: DeliveryPlace
    shells: tuple[Shells, ...] = ()
    steps: tuple[Step, ...] = ()
    extras: dict[str, int] = field(default_factory=dict)
    note: str = ""

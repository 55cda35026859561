"""What a quotation's paper is handed: everything it prints, in ids of the book and plain values, already decided.

The paper lays out; it computes no price, no verdict and no date. Whoever issues fills these types and nothing is looked
up afterwards, so that an issued paper can be made again, byte for byte, from what was frozen.

Money is whole minor units of `QuotationPaper.currency`. Dates are dates of the firm's own zone (`Book.calendar.zone`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import Enum

from app.domain.money.bank import Account
from app.domain.quotations.changes import Changes
from app.domain.quotations.enquiry import Intent
from app.domain.quotations.quotation import Approved, Foreseen, FromStock
from rules.answer import Depends, State, Verdict
from rules.donor.keep import Kept
from rules.model import Book, Words
from rules.money.price import Tariff
from rules.money.totals import ExtraNet, ShellsPrice, Totals


class Sheet(Enum):
    """The sheet of paper; Letter is for North America."""

    A4 = "a4"
    LETTER = "letter"


class Units(Enum):
    """METRIC prints kilograms and millimetres; BOTH prints pounds and inches beside them."""

    METRIC = "metric"
    BOTH = "both"


class Gate(Enum):
    """What must be through before the working days begin to count. The paper has a sentence for each."""

    DEPOSIT = "deposit"
    SPECIFICATION = "specification"
    PARTS = "parts"
    APPROVALS = "approvals"
    TOOLS = "tools"


class Evidence(Enum):
    """Who says that the donor car is what it is stated to be."""

    PLATE_PHOTOGRAPH = "plate-photograph"
    FACTORY_RECORD = "factory-record"
    OWNER = "owner"
    NOBODY = "nobody"


@dataclass(frozen=True, slots=True)
class Firm:
    """The firm as it heads its paper; all of it the firm's own data.

    `warranty`, `changes`, `included`, `excluded`: the firm's own sentences in the book's languages. `changes` (change
    and cancellation) and `warranty` stay empty until the firm's lawyer has written them: the paper then says so.
    `account`: where it is paid, as two people agreed.
    """

    name: str
    address: tuple[str, ...] = ()
    telephone: str = ""
    email: str = ""
    tax_number: str = ""
    registration: str = ""
    warranty: Words = field(default_factory=dict)
    changes: Words = field(default_factory=dict)
    included: tuple[Words, ...] = ()
    excluded: tuple[Words, ...] = ()
    account: Account | None = None


@dataclass(frozen=True, slots=True)
class Customer:
    """Who the quotation is for. `country`: ISO 3166-1 alpha-2. `dealer`: whose trade terms hold."""

    name: str
    trade: bool
    address: tuple[str, ...] = ()
    country: str = ""
    dealer: str = ""
    tax_number: str = ""
    reference: str = ""


@dataclass(frozen=True, slots=True)
class DonorCar:
    """The donor car as stated. `text`: the number as it was typed; `canonical`: as it is read, where it can be read."""

    text: str = ""
    canonical: str = ""
    series: str | None = None
    market: str | None = None
    body: str | None = None
    gearbox: str | None = None
    established: bool = False
    evidence: Evidence = Evidence.NOBODY


@dataclass(frozen=True, slots=True)
class Difference:
    """A row in which the ordered shell differs from the donor car: `donor` and `ordered` are choices of `option`."""

    option: str
    donor: str
    ordered: str


@dataclass(frozen=True, slots=True)
class ReadyAfter:
    """How long a shell takes from the open gates, in working days of the book, with neither slots nor calendar.

    Ready between `earliest` and `latest`, both counted from the day the last gate opens. `additions`: ids of the book's
    additions that are in it.
    """

    earliest: int
    latest: int
    additions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ShellLine:
    """One line of the quotation: `quantity` shells of one specification.

    `settled`: option → choice, every option that is settled. `standing`: option → USUAL, CHOSEN or FORCED.
    `forced_by`: option → ids of the rules that force it. `verdicts` the gravest first; `causes` only where it can't be
    built. `cautions`: ids of the book's standing cautions that hold (rules that caution are in `depends`). `price` is
    for the whole line; None where it was not priced at all. `open_questions`: options still open, on a draft.
    `bites`: option → ids of the rules that its choice runs into, for the drawing of a shell that can't be built.
    `donor_had`: option → what the donor car, or without one the original of the ordered series, had; as far as known.
    `approved`: of the approvals it depends on, those that had been given. `foreseen`: when it would be ready, with the
    slots of the day of issue; None where no calendar was at hand or no day can be named. `kept`: of the donor car.
    `stock`: the shell of the firm's stock that it is; None: it is made for the customer.
    """

    quantity: int
    settled: Mapping[str, str]
    standing: Mapping[str, State]
    verdicts: tuple[Verdict, ...]
    depends: Depends = field(default_factory=Depends)
    causes: tuple[tuple[str, ...], ...] = ()
    forced_by: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    differences: tuple[Difference, ...] = ()
    cautions: tuple[str, ...] = ()
    days: ReadyAfter | None = None
    price: ShellsPrice | None = None
    open_questions: tuple[str, ...] = ()
    bites: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    donor_had: Mapping[str, str] = field(default_factory=dict)
    approved: tuple[Approved, ...] = ()
    foreseen: Foreseen | None = None
    stock: FromStock | None = None
    kept: Kept = field(default_factory=Kept)


@dataclass(frozen=True, slots=True)
class Delivery:
    """Where the goods go: `choice` of the delivery option, `place` as written, `country` ISO 3166-1 alpha-2.

    `term`: the delivery term agreed, e.g. an Incoterms 2020 rule with its named place; empty where none is agreed.
    """

    choice: str
    place: str = ""
    country: str = ""
    term: str = ""


@dataclass(frozen=True, slots=True)
class Measures:
    """Size and mass as the firm states them for what is sent; 0 is not stated."""

    label: Words
    length_mm: int = 0
    width_mm: int = 0
    height_mm: int = 0
    mass_from_kg: int = 0
    mass_to_kg: int = 0


@dataclass(frozen=True, slots=True)
class ToolDown:
    """A tool that is down and what it means for the date; `until` None: not known when it is back."""

    tool: str
    until: date | None = None


@dataclass(frozen=True, slots=True)
class QuotationPaper:
    """The whole quotation as it is printed.

    `issued` False prints DRAFT across every page. `dated`: the day of issue (of making, on a draft); `valid_until`: the
    last day, to midnight in the firm's zone; None on a draft. `tariff`: price list and trade discounts it was priced
    by. `address`: what the QR code says, the way back to this quotation. `changes`: since the last revision that left
    the house, which this one replaces. `gates`: what must be through before the days count. `prices_shown` False leaves
    out every sum.
    """

    book: Book
    tool_state: int
    firm: Firm
    number: str
    revision: str
    issued: bool
    dated: date
    valid_until: date | None
    author: str
    customer: Customer
    donor: DonorCar
    delivery: Delivery
    shells: tuple[ShellLine, ...]
    tariff: Tariff
    currency: str
    totals: Totals | None
    address: str
    language: str = "en"
    locale: str = "en_GB"
    sheet: Sheet = Sheet.A4
    units: Units = Units.METRIC
    extras: tuple[ExtraNet, ...] = ()
    gates: tuple[Gate, ...] = (Gate.DEPOSIT, Gate.SPECIFICATION)
    tools_down: tuple[ToolDown, ...] = ()
    measures: tuple[Measures, ...] = ()
    changes: Changes | None = None
    intent: Intent | None = None
    note: str = ""
    prices_shown: bool = True

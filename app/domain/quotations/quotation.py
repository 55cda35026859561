"""A quotation: revisions of lines, each line a specification and how many. Once issued a revision never changes.

A shell is never a quotation line: shells begin with an order.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from enum import Enum
from itertools import takewhile
from typing import Any
from zoneinfo import ZoneInfo

from app.domain.customers.customer import Customer
from app.domain.quotations.enquiry import DonorCar
from rules.answer import Depends, State, Verdict
from rules.money.price import Tariff
from rules.money.totals import ExtraNet, ShellsPrice, Totals
from rules.schedule.promise import Binding
from rules.specification import Specification


class Standing(Enum):
    """How a revision, and with it its quotation, stands. LAPSED is read off the clock, never stored."""

    DRAFT = "draft"
    ISSUED = "issued"
    ACCEPTED = "accepted"
    DECLINED = "declined"
    LAPSED = "lapsed"
    SUPERSEDED = "superseded"


class Reason(Enum):
    """Why a customer said no."""

    PRICE = "price"
    DATE = "date"
    DETAIL = "detail"
    IDENTITY = "identity"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Reply:
    """What the customer said: `at` when, `by` who on his side; `reason` where it was no."""

    at: datetime
    by: str = ""
    reason: Reason | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a revision that was out ended (accepted, declined, superseded), and who recorded that when."""

    standing: Standing
    at: datetime
    by: str
    reply: Reply | None = None


@dataclass(frozen=True, slots=True)
class DeliveryPlace:
    """Where the goods go: `country` ISO 3166-1 alpha-2, `region` free text or a subdivision.

    `term`: what was agreed on who carries and bears what, in its own words with its place (an Incoterms rule, say).
    """

    country: str = ""
    region: str = ""
    term: str = ""


@dataclass(frozen=True, slots=True)
class ExtraSold:
    extra: str
    quantity: int


@dataclass(frozen=True, slots=True)
class DraftLine:
    """A line as it is typed: kept even where it can't be built or names what the book hasn't."""

    specification: Specification
    quantity: int = 1


@dataclass(frozen=True, slots=True)
class Draft:
    """A revision as it is typed: what the clerk or dealer may edit, all of it at once."""

    price_list: str
    delivery_place: DeliveryPlace = DeliveryPlace()
    note: str = ""
    lines: tuple[DraftLine, ...] = ()
    extras: tuple[ExtraSold, ...] = ()


@dataclass(frozen=True, slots=True)
class Approved:
    """A yes that had been given when a revision was issued: `by` as papers call him."""

    rule: str
    by: str
    day: date
    reason: str


@dataclass(frozen=True, slots=True)
class Foreseen:
    """When the shells of a line would be ready, with the slots of `on`, were all that is open through on that day.

    `ready` of the first to `ready_by` of the last. `binds`: what costs the last most, None where nothing does;
    `part`: the rule of a customer's part that has to come, `part_by` by when. Nothing is reserved by it.
    """

    on: date
    ready: date
    ready_by: date
    binds: Binding | None = None
    part: str = ""
    part_by: date | None = None


@dataclass(frozen=True, slots=True)
class FromStock:
    """The line is one very shell of the firm's stock, kept for this quotation until a moment.

    `shell`: its key in stock; `name`: its serial or number there; `changed`: options that are still changed on it;
    `second`: it is sold as a second, because of `why`.
    """

    shell: int
    name: str
    until: datetime
    finished: bool
    changed: tuple[str, ...] = ()
    second: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True)
class FrozenLine:
    """What issuing fixed of a line: how each option stood, what it depends on, and the price of each shell.

    `settled`: option → choice, every option of the book; `standing`: option → usual, chosen or forced. `approved`: of
    the approvals it depends on, those that had been given. `foreseen`: None where no day could be named. `stock`: None
    where it is built for the customer.
    """

    settled: Mapping[str, str]
    standing: Mapping[str, State]
    verdicts: tuple[Verdict, ...]
    depends: Depends
    price: ShellsPrice
    approved: tuple[Approved, ...] = ()
    foreseen: Foreseen | None = None
    stock: FromStock | None = None


@dataclass(frozen=True, slots=True)
class Imprint:
    """What a paper says beside the deal: who issues, the firm's particulars, the dealer, what its QR code says."""

    author: str = ""
    firm: Mapping[str, Any] = field(default_factory=dict)
    dealer_name: str = ""
    address: str = ""


@dataclass(frozen=True, slots=True)
class Frozen:
    """What issuing fixed of a revision, beside its lines: all that is needed to work it out again, and what came out.

    `enquiry_version`: which edit of the enquiry (customer, donor car) it was made from; `customer` and `donor` are
    copies of that. `imprint`: so that a paper drawn later is the very one that would have been drawn then; None on what
    was issued while every paper was drawn at issue.
    """

    enquiry_version: int
    customer: Customer
    donor: DonorCar
    trade_of: str | None
    tariff: Tariff
    currency: str
    extras: tuple[ExtraNet, ...]
    totals: Totals
    imprint: Imprint | None = None


@dataclass(frozen=True, slots=True)
class QuotationLine:
    """`frozen` stands once the revision is issued."""

    id: int
    quantity: int
    specification: Specification
    frozen: FrozenLine | None = None


@dataclass(frozen=True, slots=True)
class PaperKept:
    """A paper as it went out: its bytes are stored and served again as they were. `size`: a4 or letter."""

    language: str
    size: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Revision:
    """`book` and `tool_state` are None while a draft: a draft is always looked at against today's.

    `valid_until`: the first moment at which it has lapsed. `code`: what the paper's QR address ends in. `papers`: those
    that are stored. `version` counts the edits, issuing, and the outcome. SUPERSEDED with an `outcome` of ACCEPTED: the
    yes was said, and a later revision took its place.
    """

    id: int
    letter: str
    standing: Standing
    version: int
    price_list: str
    delivery_place: DeliveryPlace
    note: str
    lines: tuple[QuotationLine, ...]
    extras: tuple[ExtraSold, ...]
    created_at: datetime
    created_by: str
    book: int | None = None
    tool_state: int | None = None
    issued_at: datetime | None = None
    issued_by: str | None = None
    valid_until: datetime | None = None
    code: str | None = None
    frozen: Frozen | None = None
    papers: tuple[PaperKept, ...] = ()
    outcome: Outcome | None = None

    @property
    def issued(self) -> bool:
        return self.issued_at is not None

    @property
    def yes(self) -> EarlierYes | None:
        """What the customer said yes to stays said, even when a later revision took its place."""
        if self.outcome is None or self.outcome.standing is not Standing.ACCEPTED:
            return None
        reply = self.outcome.reply or Reply(self.outcome.at)
        return EarlierYes(self.letter, reply.at, reply.by)

    @property
    def totals(self) -> Totals | None:
        """As issued; None while a draft (`quoting.price_revision` works them out)."""
        return None if self.frozen is None else self.frozen.totals

    def draft(self) -> Draft:
        """What is typed in it, to be edited or copied into the next revision."""
        lines = tuple(DraftLine(line.specification, line.quantity) for line in self.lines)
        return Draft(self.price_list, self.delivery_place, self.note, lines, self.extras)


@dataclass(frozen=True, slots=True)
class Happening:
    """An entry of the history, which only grows. `what` is the id of a sentence that `facts` fill."""

    at: datetime
    by: str
    what: str
    facts: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Quotation:
    """`number` as in Q-2026-00042; `standing` that of the last revision that left the house, else draft."""

    number: str
    enquiry: int
    dealer: str | None
    standing: Standing
    revisions: tuple[Revision, ...]
    history: tuple[Happening, ...] = ()

    @property
    def last_out(self) -> Revision | None:
        """The last revision that left the house: the one promise that may still be live."""
        return next((revision for revision in reversed(self.revisions) if revision.issued), None)

    @property
    def standing_yes(self) -> Revision | None:
        """What the customer said yes to, as long as nothing later has left the house."""
        out = self.last_out
        return out if out is not None and out.standing is Standing.ACCEPTED else None

    def revision(self, letter: str) -> Revision | None:
        """The revision with this letter, if there is one."""
        return next((revision for revision in self.revisions if revision.letter == letter), None)

    def yes_before(self, letter: str) -> Revision | None:
        """The last revision before this one that was accepted, whether or not something took its place since."""
        earlier = takewhile(lambda revision: revision.letter != letter, self.revisions)
        return next((revision for revision in reversed(tuple(earlier)) if revision.yes is not None), None)


@dataclass(frozen=True, slots=True)
class EarlierYes:
    """An earlier revision was accepted: which, when, and by whom."""

    letter: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class QuotationRow:
    """A quotation as a list shows it: by its last revision that left the house, by its draft where none did.

    `letter`, `standing`, `valid_until` are that revision's. `draft`: the letter of a later draft that is being written;
    `earlier_yes`: what was accepted before `letter` took its place.
    """

    number: str
    letter: str
    standing: Standing
    enquiry: int
    customer: str
    dealer: str | None
    valid_until: datetime | None
    updated_at: datetime
    draft: str | None = None
    earlier_yes: EarlierYes | None = None


def replaced(revisions: Sequence[Revision]) -> tuple[Revision, ...]:
    """As they stand together: what was accepted is superseded once a later one has left the house.

    So a quotation never has two live promises. The yes itself stays where it was recorded, in the outcome.
    """
    out = [at for at, revision in enumerate(revisions) if revision.issued]
    last = out[-1] if out else -1
    return tuple(
        replace(revision, standing=Standing.SUPERSEDED)
        if at < last and revision.standing is Standing.ACCEPTED
        else revision
        for at, revision in enumerate(revisions)
    )


def next_letter(letter: str) -> str:
    """A → B … Z → AA → AB, as revisions are lettered."""
    head, last = letter[:-1], letter[-1]
    if last != "Z":
        return head + chr(ord(last) + 1)
    return (next_letter(head) if head else "A") + "A"


def lapses_at(issued_at: datetime, validity_days: int, zone: str) -> datetime:
    """The first moment at which it has lapsed: the midnight that ends the day of issue + `validity_days`, in `zone`."""
    last_day = issued_at.astimezone(ZoneInfo(zone)).date() + timedelta(days=validity_days)
    return datetime.combine(last_day + timedelta(days=1), datetime.min.time(), ZoneInfo(zone))


def standing_of(issued: bool, act: str | None, valid_until: datetime | None, now: datetime) -> Standing:
    """How a revision stands: an act on it (accepted, declined, superseded) settles that, else the clock does."""
    if not issued:
        return Standing.DRAFT
    if act is not None:
        return Standing(act)
    return Standing.LAPSED if valid_until is not None and now >= valid_until else Standing.ISSUED

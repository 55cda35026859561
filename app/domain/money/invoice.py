"""Documents about an order's money, as they are frozen: deposit, balance, credit note, refund worksheet.

A document never changes. What was wrong in one is put right by a credit note that names it, its line and why; there is
no free-form line, and none below nothing. Names follow EN 16931.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from enum import Enum

from app.domain.money.bank import Account
from rules.money.totals import InvoiceSum, TaxedSum


class Kind(Enum):
    DEPOSIT = "deposit"
    BALANCE = "balance"
    CREDIT_NOTE = "credit-note"
    WORKSHEET = "refund-worksheet"


#: The running series each kind is numbered in, without gaps: what is billed shares one.
SERIES: Mapping[Kind, str] = {Kind.DEPOSIT: "I", Kind.BALANCE: "I", Kind.CREDIT_NOTE: "C", Kind.WORKSHEET: "W"}


@dataclass(frozen=True, slots=True)
class Party:
    """`country` ISO 3166-1 alpha-2; `tax_number` as it is written; `account`: where he is paid."""

    name: str
    address: tuple[str, ...] = ()
    country: str = ""
    tax_number: str = ""
    telephone: str = ""
    email: str = ""
    registration: str = ""
    account: Account | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """`quantity` pieces whose `net` before tax is that of all; `name` in every language of the book."""

    name: Mapping[str, str]
    quantity: int
    net: int
    category: str
    percent: Decimal


@dataclass(frozen=True, slots=True)
class SetOff:
    """What is set off here of a document for a payment in advance. `stated`: the rows as that document stated them."""

    number: str
    dated: date
    rows: tuple[TaxedSum, ...]
    stated: tuple[TaxedSum, ...] = ()


#: The place of what an order has beside its shells, where shells are numbered from 1.
BESIDE_THE_SHELLS = 0


@dataclass(frozen=True, slots=True)
class Billed:
    """A shell that a balance document bills, by its `place` in the order, or what the order has beside its shells.

    `share`: of the order's price with tax, what it stands for; the shares of all places are that price.
    """

    place: int
    share: int
    serial: str = ""


@dataclass(frozen=True, slots=True)
class CameAs:
    """What was paid, as it came. The rest is empty where that was the order's own currency."""

    amount: int
    currency: str
    day: date
    means: str
    rate: str = ""
    rate_day: date | None = None
    agreed_by: str = ""


@dataclass(frozen=True, slots=True)
class Exchange:
    """A rate as a person entered it: `rate` units of the document's currency for one of the tax office's.

    `source`: who publishes it, as in "HMRC monthly rates, November 2026".
    """

    rate: str
    day: date
    source: str


@dataclass(frozen=True, slots=True)
class Stated:
    """The document's rows in the currency that the tax office counts in. `taken_over`: documents whose figures stay."""

    currency: str
    rows: tuple[TaxedSum, ...]
    exchange: Exchange
    taken_over: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CancelledShell:
    """The shell that was cancelled with a worksheet: `place` in its order from 1, `stage`: language → where it was.

    `stage` empty before its release. `from_stock`: it was not made to the customer's specification.
    """

    place: int
    serial: str
    stage: Mapping[str, str]
    from_stock: bool = False


@dataclass(frozen=True, slots=True)
class Worksheet:
    """The facts a person decided by, as he wrote them, and what comes of it. Nothing in it was proposed.

    `pay_to`: where the customer is paid back, as two people agreed; None where they agreed on nothing. `of`: the shell
    that was cancelled with it; None where none was, and then `stage` is what he wrote.
    """

    stage: str
    hours: str
    resale: str
    received: tuple[TaxedSum, ...]
    refunded: tuple[TaxedSum, ...]
    kept: tuple[TaxedSum, ...]
    documents: tuple[str, ...] = ()
    pay_to: Account | None = None
    of: CancelledShell | None = None


@dataclass(frozen=True, slots=True)
class Granted:
    """A concession as the book calls what was conceded, on which shell, and the day on which that was said."""

    subject: Mapping[str, str]
    serial: str
    day: date


@dataclass(frozen=True, slots=True)
class Content:
    """All that a document says. `tax_point`: the day for which its tax falls due; `author`: who wrote it.

    `reasons`, `cautions`: ids of the tax sentences. `credits`, `credited_line`: of a credit note; `why`, `concession`
    as somebody wrote them; `granted`: the concession that was granted in the workshop. `language`, `size`, `locale`:
    the customer's own. `stated`: what is taxed in the tax office's currency, where the document is in another one.
    `billed`: what a balance document bills of its order; one of before shells were billed one by one has none and
    bills the whole.
    """

    kind: Kind
    number: str
    order: str
    quotation: str
    letter: str
    dated: date
    tax_point: date
    currency: str
    seller: Party
    buyer: Party
    sum: InvoiceSum
    author: str
    language: str
    size: str
    locale: str
    tax_label: Mapping[str, str] = field(default_factory=dict)
    lines: tuple[Line, ...] = ()
    reasons: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    set_off: tuple[SetOff, ...] = ()
    came_as: CameAs | None = None
    credits: str = ""
    credits_dated: date | None = None
    credited_line: int | None = None
    why: str = ""
    concession: str = ""
    worksheet: Worksheet | None = None
    stated: Stated | None = None
    billed: tuple[Billed, ...] = ()
    granted: Granted | None = None


@dataclass(frozen=True, slots=True)
class Document:
    """A document as it is kept. `credits`: key of the one that it credits; `worksheet`: of the one that it follows."""

    id: int
    content: Content
    at: datetime
    by: str
    payment: int | None = None
    credits: int | None = None
    worksheet: int | None = None

    @property
    def number(self) -> str:
        return self.content.number

    @property
    def kind(self) -> Kind:
        return self.content.kind

    @property
    def rows(self) -> tuple[TaxedSum, ...]:
        return self.content.sum.taxed

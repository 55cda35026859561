"""Orders, what was paid for them, and the documents about their money."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.money.crediting import LONGEST_WHY, Credit
from app.domain.money.invoice import Exchange
from app.domain.money.payment import Direction, Entry, Means
from app.services.answering.checking import LONGEST_TEXT
from app.services.money.receiving import Agreed
from app.services.money.refunding import Decided
from app.web.fields import LARGEST_KEY, Amount, Base, Day, Of, OneOf, Priced, Text, Whole, Words
from app.web.schemas.floor import ConfirmationOut, LackOut
from app.web.schemas.paging import PagedOut
from app.web.schemas.quotations import HappeningOut, PaperOut

#: More than any order comes to, and small enough for every reader of JSON.
MOST_MONEY = 10**12


class TaxCaseIn(Base):
    """`case`: one of the tax cases that the quotation left open; `why`: what it was decided by."""

    case = OneOf(("standard", "export"), required=True)
    why = Text(required=True, least=1, most=LONGEST_WHY)


class GivingBack(Base):
    """`gives_back`: the token of the slots that are given back by it, as they were shown; asked for where any are."""

    gives_back = Text(load_default="")


class PaymentIn(GivingBack):
    """As it came: whole minor units of its own currency (ISO 4217), the day on which it came or went."""

    direction = OneOf(tuple(one.value for one in Direction), load_default=Direction.RECEIVED.value)
    amount = Whole(required=True, least=1, most=MOST_MONEY)
    currency = Text(required=True, least=3, most=3)
    day = Day(required=True)
    means = OneOf(tuple(one.value for one in Means), required=True)
    note = Text(most=LONGEST_TEXT, load_default="")

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> tuple[Entry, str]:
        token = data.pop("gives_back")
        return Entry(**{**data, "direction": Direction(data["direction"]), "means": Means(data["means"])}), token


class AgreementIn(GivingBack):
    """What money in another currency counts for: minor units of the order's currency, and the rate as it was agreed."""

    amount = Whole(required=True, least=1, most=MOST_MONEY)
    rate = Text(required=True, least=1, most=40)
    rate_day = Day(required=True)
    agreed_by = Text(required=True, least=1)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> tuple[Agreed, str]:
        token = data.pop("gives_back")
        return Agreed(**data), token


class MistakeIn(GivingBack):
    why = Text(required=True, least=1, most=LONGEST_WHY)


class ExchangeIn(Base):
    """`rate` units of the document's currency for one of the tax office's, of which `day`, published by whom."""

    rate = Text(required=True, least=1, most=25)
    day = Day(required=True)
    source = Text(required=True, least=1)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Exchange:
        return Exchange(**data)


class BillIn(Base):
    """`exchange`: where the tax has to be stated in the tax office's currency besides, and only there."""

    exchange = Of(ExchangeIn, load_default=None, allow_none=True)


class BalanceIn(BillIn):
    """`shell`: the key of the one that is billed; null for all that is not billed yet."""

    shell = Whole(load_default=None, allow_none=True, least=1, most=LARGEST_KEY)


class DepositIn(BillIn):
    """`payment`: what was received."""

    payment = Whole(required=True, least=1, most=10**9)


class CreditIn(Base):
    """`line` of the document counts from 1; `net` before tax; `concession`: what was granted, in words.

    `granted`: the key of the concession that it is for, which has to be of a shell that the document bills.
    """

    document = Text(required=True, most=40)
    line = Whole(required=True, least=1, most=10_000)
    net = Whole(required=True, least=1, most=MOST_MONEY)
    why = Text(required=True, least=1, most=LONGEST_WHY)
    concession = Text(load_default="")
    granted = Whole(load_default=None, allow_none=True, least=1, most=LARGEST_KEY)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Credit:
        return Credit(**data)


class KeptIn(Base):
    """`kept` with tax: a person's decision, for which nothing is proposed."""

    kept = Whole(required=True, least=0, most=MOST_MONEY)


class WorksheetIn(KeptIn):
    why = Text(required=True, least=1, most=LONGEST_WHY)
    stage = Text(most=LONGEST_WHY, load_default="")
    hours = Text(most=LONGEST_WHY, load_default="")
    resale = Text(most=LONGEST_WHY, load_default="")

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Decided:
        return Decided(**data)


class ToleranceIn(Base):
    amount = Whole(required=True, least=0, most=MOST_MONEY)


class PeriodIn(Base):
    """Both days included."""

    since = Day(required=True)
    until = Day(required=True)


class ShellOut(Base):
    """`serial` and `sheet`, the revision of its build sheet, null until release; `place` counts from 1 in the line.

    `replaced`: serials rejected in its place.
    """

    id = fields.Integer()
    place = fields.Integer()
    serial = fields.String(allow_none=True)
    sheet = fields.Integer(allow_none=True)
    state = fields.String()
    stage = fields.String(allow_none=True)
    stage_label = Words(allow_none=True)
    replaced = fields.List(fields.String())
    stock = fields.String()


class OrderLineOut(Base):
    """`approvals`: rules that need one; `awaits`: those of them whose approval is still to be given."""

    name = Words()
    quantity = fields.Integer()
    settled = fields.Dict(keys=fields.String(), values=fields.String())
    parts = fields.List(fields.String())
    approvals = fields.List(fields.String())
    awaits = fields.List(fields.String())
    shells = fields.List(Of(ShellOut))
    net = Amount()


class AccountOut(Base):
    """With tax; null where nobody has decided which tax case holds. `short` of the deposit; `over` the price."""

    currency = fields.String()
    payable = Amount()
    deposit = Amount()
    deposit_tax = Amount()
    received = Amount()
    short = Amount()
    tolerance = Amount()
    due = Amount()
    over = Amount()


class AgreementOut(Base):
    amount = Amount()
    rate = fields.String()
    rate_day = fields.Date()
    agreed_by = fields.String()
    at = fields.DateTime()
    by_name = fields.String()


class PaymentOut(Base):
    """`says`: what must still be told of it, as sentences; `document`: the number of the document that bills it."""

    id = fields.Integer()
    direction = fields.String()
    amount = Amount()
    currency = fields.String()
    counts_for = Amount()
    day = fields.Date()
    means = fields.String()
    note = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    agreement = Of(AgreementOut, allow_none=True)
    mistake = fields.String(allow_none=True)
    document = fields.String(allow_none=True)
    says = fields.List(fields.String())


class TaxedOut(Base):
    category = fields.String()
    percent = fields.String()
    net = Amount()
    tax = Amount()
    with_tax = Amount()


class DocumentLineOut(Base):
    """`left`: before tax, what has not been credited yet; null where a line is never credited."""

    line = fields.Integer()
    name = Words()
    quantity = fields.Integer()
    net = Amount()
    left = Amount()


class StatedOut(Base):
    """What is taxed in the tax office's currency; `rate` units of the document's for one of it."""

    currency = fields.String()
    tax = Amount()
    taxed = fields.List(Of(TaxedOut))
    rate = fields.String()
    day = fields.Date()
    source = fields.String()


class WorksheetOut(Base):
    """What was received and billed, what of it is paid back and what kept. Nothing in it is proposed."""

    stage = fields.String()
    hours = fields.String()
    resale = fields.String()
    received = fields.List(Of(TaxedOut))
    refunded = fields.List(Of(TaxedOut))
    kept = fields.List(Of(TaxedOut))
    documents = fields.List(fields.String())


class GrantedOut(Base):
    """The concession that a credit note is for: what was conceded, on which shell, and when that was said."""

    subject = Words()
    serial = fields.String()
    day = fields.Date()


class DocumentOut(Base):
    """`ubl`: address of the UBL 2.1 document, null for a worksheet; `credits`: the number of the one it credits.

    `follows`: the number of the worksheet that a credit note follows; null for any other.
    """

    number = fields.String()
    kind = fields.String()
    dated = fields.Date()
    tax_point = fields.Date()
    currency = fields.String()
    net = Amount()
    tax = Amount()
    with_tax = Amount()
    prepaid = Amount()
    payable = Amount()
    taxed = fields.List(Of(TaxedOut))
    lines = fields.List(Of(DocumentLineOut))
    credits = fields.String(allow_none=True)
    credited_line = fields.Integer(allow_none=True)
    follows = fields.String(allow_none=True)
    why = fields.String()
    concession = fields.String()
    granted = Of(GrantedOut, allow_none=True)
    worksheet = Of(WorksheetOut, allow_none=True)
    stated = Of(StatedOut, allow_none=True)
    credited_by = fields.List(fields.String())
    by_name = fields.String()
    at = fields.DateTime()
    papers = fields.List(Of(PaperOut))
    ubl = fields.String(allow_none=True)


class DecisionOut(Base):
    case = fields.String()
    why = fields.String()
    at = fields.DateTime()
    by_name = fields.String()


class OpenCaseOut(Base):
    """A tax case that a person may decide for, with its reason in words; `says`: what is usual in doubt, or empty."""

    case = fields.String()
    reason = fields.String()
    says = fields.String()
    payable = Amount()
    deposit = Amount()


class GateOut(Base):
    """`open` null where nothing here can tell it yet."""

    gate = fields.String()
    open = fields.Boolean(allow_none=True)


class MovedShellOut(Base):
    """`each` of `shells` alike costs more (less, below nothing) before tax, `taxed` with tax; `says`: in words."""

    line = fields.Integer()
    shells = fields.Integer()
    each = Amount()
    taxed = Amount()
    says = fields.String()


class PendingOut(Base):
    """A later revision that is out: what a yes to it would make of the order. Sums null where the tax case is open."""

    letter = fields.String()
    payable = Amount()
    deposit = Amount()
    moved = fields.List(Of(MovedShellOut))


class OrderOut(Base):
    """`confirmed`: as it stands now; `lacks`: what keeps it from that. `followed`: all it ever did, letters.

    `state_tax_in`: the currency in which bills have to state their tax besides, at a rate that is sent with them; null
    where they are in it, where nothing is taxed, or where nobody has decided yet which tax case holds.
    """

    number = fields.String()
    quotation = fields.String()
    letter = fields.String()
    followed = fields.List(fields.String())
    state = fields.String()
    confirmed = fields.Boolean()
    confirmations = fields.List(Of(ConfirmationOut))
    lacks = fields.List(Of(LackOut))
    dealer = fields.String(allow_none=True)
    customer = fields.String()
    customer_country = fields.String()
    donor_number = fields.String()
    currency = fields.String()
    state_tax_in = fields.String(allow_none=True)
    made_at = fields.DateTime()
    made_by_name = fields.String()
    lines = fields.List(Of(OrderLineOut))
    gates = fields.List(Of(GateOut))
    account = Priced(AccountOut)
    open_cases = Priced(OpenCaseOut, many=True)
    pending = Priced(PendingOut)
    decision = Priced(DecisionOut)
    payments = Priced(PaymentOut, many=True)
    documents = Priced(DocumentOut, many=True)
    history = fields.List(Of(HappeningOut))


class OrderRowOut(Base):
    number = fields.String()
    quotation = fields.String()
    letter = fields.String()
    customer = fields.String()
    dealer = fields.String(allow_none=True)
    made_at = fields.DateTime()
    shells = fields.Integer()
    cancelled = fields.Boolean()
    deposit_met = fields.Boolean()
    account = Priced(AccountOut)


class OrdersOut(PagedOut):
    """The last made first."""

    orders = fields.List(Of(OrderRowOut))


class OrderNumberOut(Base):
    number = fields.String()


class ToleranceOut(Base):
    currency = fields.String()
    amount = Amount()


class TolerancesOut(Base):
    tolerances = fields.List(Of(ToleranceOut))

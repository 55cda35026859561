"""What is asked about a specification, and the full answer."""

from __future__ import annotations

from typing import Any, TypeGuard

from marshmallow import fields, post_load

from app.web.fields import Amount, Base, By, Country, Flag, Of, OneOf, Priced, Text, Whole, Words
from rules.specification import Donor, Origin, Taken

ORIGINS = tuple(origin.value for origin in Origin)


#: Characters that the name of an option or a choice may have.
LONGEST_NAME = 80
_ORIGINS = {origin.value: origin for origin in Origin}


class TakenIn(Base):
    choice = Text(required=True, most=LONGEST_NAME)
    origin = OneOf(ORIGINS, load_default=Origin.CHOSEN.value)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Taken:
        return Taken(data["choice"], Origin(data["origin"]))


class Specified(By):
    """option → {choice, origin}. What is plainly well formed is taken as it is; the schema says what is wrong else."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(Of(TakenIn), **kwargs)

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        taken = _plainly_all(value) if isinstance(value, dict) else None
        return super()._deserialize(value, attr, data, **kwargs) if taken is None else taken


def _plainly_all(value: dict[Any, Any]) -> dict[str, Taken] | None:
    """None: left to the schema."""
    taken = {option: _plainly(one) for option, one in value.items() if _is_name(option)}
    whole = {option: one for option, one in taken.items() if one is not None}
    return whole if len(whole) == len(value) else None


def _plainly(one: Any) -> Taken | None:
    if not isinstance(one, dict) or len(one) != 2:
        return None
    choice, origin = one.get("choice"), one.get("origin")
    if not _is_name(choice) or not isinstance(origin, str) or origin not in _ORIGINS:
        return None
    return Taken(choice, _ORIGINS[origin])


def _is_name(text: Any) -> TypeGuard[str]:
    return isinstance(text, str) and len(text) <= LONGEST_NAME


def specification_field(**kwargs: Any) -> By:
    """option → {choice, origin}."""
    return Specified(**kwargs)


class DonorIn(Base):
    series = Text(most=80, allow_none=True, load_default=None)
    number = Whole(least=0, most=10**9, allow_none=True, load_default=None)
    gearbox = Text(most=80, allow_none=True, load_default=None)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Donor:
        return Donor(data["series"], data["number"], data["gearbox"])


class CustomerAskedIn(Base):
    trade = Flag(load_default=False)
    country = Country(allow_none=True, load_default=None)


class PlaceAskedIn(Base):
    country = Country(blank=True, allow_none=True, load_default=None)
    region = Text(most=80, load_default="")


class AnswersIn(Base):
    """`book` and `tool_state`: numbers, to have an earlier answer again."""

    specification = specification_field(required=True)
    donor = Of(DonorIn, allow_none=True, load_default=None)
    price_list = Text(most=20, allow_none=True, load_default=None)
    customer = Of(CustomerAskedIn, allow_none=True, load_default=None)
    dealer = Text(most=80, allow_none=True, load_default=None)
    delivery_place = Of(PlaceAskedIn, allow_none=True, load_default=None)
    customer_country = Country(blank=True, allow_none=True, load_default=None)
    quantity = Whole(least=1, most=1000, load_default=1)
    book = Whole(least=1, most=10**9, allow_none=True, load_default=None)
    tool_state = Whole(least=0, most=10**9, allow_none=True, load_default=None)


class UsualIn(Base):
    series = Text(required=True, most=80)
    market = Text(required=True, most=80)
    body = Text(required=True, most=80)
    donor = Of(DonorIn, allow_none=True, load_default=None)


class UsualOut(Base):
    values = fields.Dict(keys=fields.String(), values=fields.String())


class NumberIn(Base):
    text = Text(required=True, most=200)


class NumberOut(Base):
    reading = fields.String(metadata={"enum": ["identified", "beyond", "mendable", "unreadable"]})
    text = fields.String()
    series = fields.String(allow_none=True)
    number = fields.Integer(allow_none=True)
    canonical = fields.String(allow_none=True)
    offer = fields.String(allow_none=True)
    message = fields.String()


class DependsOut(Base):
    parts = fields.List(fields.String())
    approvals = fields.List(fields.String())
    cautions = fields.List(fields.String())
    holds = fields.List(fields.String())
    tools = fields.List(fields.String())


class PriceFromOut(Base):
    amount = Amount()
    outright = fields.Boolean()
    worked_out = fields.Boolean()


class ChoiceAnswerOut(Base):
    choice = fields.String()
    state = fields.String()
    answered = fields.Boolean()
    usual = fields.Boolean()
    price_from = Priced(PriceFromOut)
    difference = Amount()
    depends = Of(DependsOut)
    causes = fields.List(fields.List(fields.String()))


class OptionAnswerOut(Base):
    option = fields.String()
    settled = fields.String(allow_none=True)
    choices = fields.List(Of(ChoiceAnswerOut))


class PriceLineOut(Base):
    """`list_amount` of the list, `adjusted` after multiplying and waiving, `net` = adjusted − discount − several."""

    line = fields.String()
    label = Words()
    category = fields.String()
    option = fields.String(allow_none=True)
    choice = fields.String(allow_none=True)
    list_amount = Amount()
    adjustments = fields.List(fields.String())
    adjusted = Amount()
    discount = Amount()
    several = Amount()
    net = Amount()


class UnpricedOut(Base):
    line = fields.String()
    label = Words()


class ShellPriceOut(Base):
    """One shell, before tax; `net` null with any line unpriced."""

    lines = fields.List(Of(PriceLineOut))
    unpriced = fields.List(Of(UnpricedOut))
    net = Amount()


class TaxCaseOut(Base):
    """`reason` is a whole sentence in the reader's language; `tax_percent` decimal text."""

    case = fields.String()
    reason = fields.String()
    tax_percent = fields.String()
    tax = Amount()
    with_tax = Amount()
    payable = Amount()
    deposit = Amount()
    deposit_tax = Amount()
    balance = Amount()


class TotalsOut(Base):
    """Two `tax_cases` and `decided` false where a person must decide."""

    currency = fields.String()
    lines_net = Amount()
    tax_cases = fields.List(Of(TaxCaseOut))
    decided = fields.Boolean()


class UntoldOut(Base):
    """Why no tax can be told; `fitting`: delivery choices that suit the place instead."""

    why = fields.String()
    text = fields.String()
    fitting = fields.List(fields.String())


class ReadyOut(Base):
    """Working days of the book after the last of `gates` opens; with neither slots nor calendar: nothing is promised.

    `gates`: deposit, specification, parts, approvals, tools. `additions`: ids of what the book adds for this shell.
    """

    from_days = fields.Integer()
    to_days = fields.Integer()
    gates = fields.List(fields.String())
    additions = fields.List(fields.String())


class ToolDownOut(Base):
    """A tool that the shell waits for; `until`: the day on which it is expected back, null where nobody said."""

    tool = fields.String()
    until = fields.String(allow_none=True, metadata={"format": "date"})


class AnswerOut(Base):
    """`count` and `outright` as exact decimal digits; null: not counted, the book being too large for it.

    `tools_down`: the tools of `depends`, with the day on which each is expected back.
    """

    book = fields.Integer()
    tool_state = fields.Integer()
    verdict = fields.String()
    verdicts = fields.List(fields.String())
    complete = fields.Boolean()
    open_questions = fields.List(fields.String())
    options = fields.List(Of(OptionAnswerOut))
    causes = fields.List(fields.List(fields.String()))
    capped = fields.Boolean()
    count = fields.String(allow_none=True)
    outright = fields.String(allow_none=True)
    price_from = Priced(PriceFromOut)
    depends = Of(DependsOut)
    tools_down = fields.List(Of(ToolDownOut))
    settled = fields.Dict(keys=fields.String(), values=fields.String())
    price_list = fields.String()
    currency = fields.String()
    price = Priced(ShellPriceOut)
    totals = Priced(TotalsOut)
    untold = Of(UntoldOut, allow_none=True)
    ready = Of(ReadyOut, allow_none=True)

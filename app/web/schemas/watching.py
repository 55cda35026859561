"""What the manager watches of a period, with the rows that each number is counted from."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Amount, Base, Day, Of, OneOf, Text, Whole, Words

#: The tables that there are as CSV.
TABLES = ("refusals", "declined", "discounts", "amiss", "stock")

MOST_MINOR = 100_000_000_00


class WatchedIn(Base):
    """Both days included; left out: the last 13 weeks."""

    since = Day(load_default=None)
    until = Day(load_default=None)


class WatchedTableIn(WatchedIn):
    of = OneOf(TABLES, required=True)


class RemakingIn(Base):
    """Minor units: what remaking the tool costs, and what is left over of each shell made with it."""

    cost = Whole(least=0, most=MOST_MINOR, required=True)
    margin = Whole(least=1, most=MOST_MINOR, required=True)
    currency = Text(most=3, least=3, required=True)


class WatchedNetOut(Base):
    currency = fields.String()
    net = Amount()


class RefusalsCountedOut(Base):
    """`nets`: what the nearest shells that can be built come to, before tax; `unpriced`: refusals without such."""

    enquiries = fields.Integer()
    shells = fields.Integer()
    nets = fields.List(Of(WatchedNetOut))
    unpriced = fields.Integer()


class RefusalCauseOut(RefusalsCountedOut):
    id = fields.String()
    reason = Words()
    tool = fields.Boolean()


class ToolRemakingOut(Base):
    """`pays_back_after`: shells whose margins cover the cost."""

    cost = Amount()
    margin = Amount()
    currency = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    pays_back_after = fields.Integer()


class LostToolWatchedOut(RefusalsCountedOut):
    """`rule`: the one it speaks through; `instead`: shells quoted on the customer's own part, by `part`."""

    id = fields.String()
    label = Words()
    rule = fields.String(allow_none=True)
    part = fields.String(allow_none=True)
    instead = fields.Integer()
    remaking = Of(ToolRemakingOut, allow_none=True)


class RefusedRowOut(Base):
    quotation = fields.String()
    at = fields.DateTime()
    shells = fields.Integer()
    causes = fields.List(fields.List(fields.String()))
    currency = fields.String()
    net = Amount()


class DeclinedRowOut(Base):
    number = fields.String()
    letter = fields.String()
    reason = fields.String()
    note = fields.String()
    at = fields.DateTime()
    currency = fields.String()
    net = Amount()


class DeclinedReasonOut(Base):
    reason = fields.String()
    count = fields.Integer()
    nets = fields.List(Of(WatchedNetOut))


class DiscountedRowOut(Base):
    number = fields.String()
    letter = fields.String()
    dealer = fields.String(allow_none=True)
    at = fields.DateTime()
    currency = fields.String()
    listed = Amount()
    off = Amount()


class DiscountGivenOut(Base):
    """By dealer and currency; `dealer` null: the firm's own customers."""

    dealer = fields.String(allow_none=True)
    dealer_name = fields.String(allow_none=True)
    currency = fields.String()
    count = fields.Integer()
    listed = Amount()
    off = Amount()


class AmissCountedOut(Base):
    """`says`: what it is about, in words; `standings`: how many stand how; `minutes`: what its rework took, as said."""

    subject = fields.String()
    says = fields.String()
    count = fields.Integer()
    rework = fields.Integer()
    concessions = fields.Integer()
    shells = fields.Integer()
    minutes = fields.Integer()
    standings = fields.Dict(keys=fields.String(), values=fields.Integer())


class AmissRowOut(Base):
    """`amends`: rework or concession; `order` null: of a shell of stock."""

    amends = fields.String()
    subject = fields.String()
    serial = fields.String()
    order = fields.String(allow_none=True)
    at = fields.DateTime()
    why = fields.String()
    standing = fields.String()
    minutes = fields.Integer(allow_none=True)


class StockAgeOut(Base):
    """How many have been in stock up to `until` days and longer than the band before; null: without an end."""

    until = fields.Integer(allow_none=True)
    count = fields.Integer()


class AgedOut(Base):
    """A shell of stock, `days` old in it; `band` as in the ages; `ready` as planned."""

    number = fields.String()
    name = Words()
    since = fields.Date()
    days = fields.Integer()
    band = fields.Integer(allow_none=True)
    ready = fields.Date()


class WatchedOut(Base):
    """`refused`, `declined`, `discounted`, `amiss_rows`, `stock`: the rows that the tables above them are counted from.

    `amiss` by what it is about, what came up most often first; `ages` of the stock as it is now.
    """

    since = fields.Date()
    until = fields.Date()
    total = Of(RefusalsCountedOut)
    causes = fields.List(Of(RefusalCauseOut))
    tools = fields.List(Of(LostToolWatchedOut))
    currencies = fields.List(fields.String())
    reasons = fields.List(Of(DeclinedReasonOut))
    given = fields.List(Of(DiscountGivenOut))
    refused = fields.List(Of(RefusedRowOut))
    declined = fields.List(Of(DeclinedRowOut))
    discounted = fields.List(Of(DiscountedRowOut))
    amiss = fields.List(Of(AmissCountedOut))
    amiss_rows = fields.List(Of(AmissRowOut))
    ages = fields.List(Of(StockAgeOut))
    stock = fields.List(Of(AgedOut))

"""What the manager watches of a period, with the rows that each number is counted from."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Amount, Base, Day, Of, OneOf, Text, Whole, Words

#: The tables that there are as CSV.
TABLES = ("refusals", "declined", "discounts")

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


class WatchedOut(Base):
    """`refused`, `declined`, `discounted`: the rows that the tables above them are counted from, the last first."""

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

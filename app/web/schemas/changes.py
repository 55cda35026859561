"""What changed since the last revision that left the house: both sides of each, the same twice where it stayed."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Amount, Base, Of, Priced, Words
from app.web.schemas.asking import DependsOut


class TextMovedOut(Base):
    before = fields.String(allow_none=True)
    after = fields.String(allow_none=True)


class NumberMovedOut(Base):
    before = fields.Integer(allow_none=True)
    after = fields.Integer(allow_none=True)


class AmountMovedOut(Base):
    before = Amount()
    after = Amount()


class PlaceOut(Base):
    country = fields.String()
    region = fields.String()
    term = fields.String()


class PlaceMovedOut(Base):
    before = Of(PlaceOut)
    after = Of(PlaceOut)


class ReadyBetweenOut(Base):
    from_days = fields.Integer()
    to_days = fields.Integer()


class ReadyMovedOut(Base):
    """Null where there is no figure: what can't be built is never ready."""

    before = Of(ReadyBetweenOut, allow_none=True)
    after = Of(ReadyBetweenOut, allow_none=True)


class QuotedCaseOut(Base):
    """`case` as in the totals' tax cases."""

    case = fields.String(attribute="kind")
    without_tax = Amount()
    with_tax = Amount()
    deposit = Amount()


class QuotedSumsOut(Base):
    """More than one case where a person must decide which it is."""

    currency = fields.String()
    cases = fields.List(Of(QuotedCaseOut))


class SumsMovedOut(Base):
    """Null where there is no total: it can't be built, is not complete or not priced, or the tax can't be told."""

    before = Of(QuotedSumsOut, allow_none=True)
    after = Of(QuotedSumsOut, allow_none=True)


class AnswerChangeOut(TextMovedOut):
    """Choices of `option`; null: not settled there."""

    option = fields.String()


class LineChangeOut(Base):
    """`number`: the line's from 1, null on the side where it is not (`came`, `went`); `quantity` is 0 there.

    `come`, `gone`: what the shell depends on newly, or no longer. `net` of one shell before tax.
    """

    number = Of(NumberMovedOut)
    came = fields.Boolean()
    went = fields.Boolean()
    quantity = Of(NumberMovedOut)
    answers = fields.List(Of(AnswerChangeOut))
    come = Of(DependsOut)
    gone = Of(DependsOut)
    net = Of(AmountMovedOut)
    ready = Of(ReadyMovedOut)


class ExtraChangeOut(NumberMovedOut):
    """How many; 0: not sold there."""

    extra = fields.String()
    label = Words()


class ChangesOut(Base):
    """`against`: the letter compared with. `any`: whether anything changed that the customer would see.

    `lines`: those in which something changed. `come`, `gone`: over all lines together. `ready`: of the slowest line.
    """

    against = fields.String()
    any = fields.Boolean()
    lines = fields.List(Of(LineChangeOut))
    extras = fields.List(Of(ExtraChangeOut))
    come = Of(DependsOut)
    gone = Of(DependsOut)
    book = Of(NumberMovedOut)
    price_list = Of(TextMovedOut)
    place = Of(PlaceMovedOut)
    sums = Priced(SumsMovedOut)
    ready = Of(ReadyMovedOut)
    donor = Of(TextMovedOut)
    note = Of(TextMovedOut)

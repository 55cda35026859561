"""A quotation as it was and as it is: rule by rule, price line by price line."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Amount, Base, Of, Priced, Whole, Words


class SeenIn(Base):
    """The numbers by which the draft was looked at, as `now` named them."""

    book = Whole(required=True, least=1, most=10**9)
    tool_state = Whole(required=True, least=0, most=10**9)


class NumbersOut(Base):
    """`at`: when it was looked at by them."""

    book = fields.Integer()
    tool_state = fields.Integer()
    at = fields.DateTime()


class StoodOut(Base):
    """`closed`: what was answered can't stand; `usual`: the original car had it so."""

    choice = fields.String(allow_none=True)
    choice_label = Words(allow_none=True)
    closed = fields.Boolean()
    usual = fields.Boolean()


class AnswerRowOut(Base):
    """An answer that stands otherwise; null on the side whose book has no such option or choice, or left it open."""

    option = fields.String()
    label = Words()
    typed = fields.String(allow_none=True)
    before = Of(StoodOut, allow_none=True)
    after = Of(StoodOut, allow_none=True)


class RuleRowOut(Base):
    """`sort`: parts, approvals, cautions, holds, tools; `before`, `after`: whether the shell depends on it."""

    id = fields.String()
    sort = fields.String()
    reason = Words()
    before = fields.Boolean()
    after = fields.Boolean()
    moved = fields.Boolean()


class PricedOut(Base):
    """Both null: not priced."""

    list_amount = Amount()
    net = Amount()


class PriceRowOut(Base):
    """Of one shell, or an extra with all its pieces; null on the side that has no such line."""

    line = fields.String()
    label = Words()
    before = Of(PricedOut, allow_none=True)
    after = Of(PricedOut, allow_none=True)
    moved = fields.Boolean()


class VerdictsOut(Base):
    """Null: the line names what that book hasn't."""

    before = fields.String(allow_none=True)
    after = fields.String(allow_none=True)


class AmountsOut(Base):
    before = Amount()
    after = Amount()


class DaysOut(Base):
    from_days = fields.Integer()
    to_days = fields.Integer()


class ReadyRowOut(Base):
    before = Of(DaysOut, allow_none=True)
    after = Of(DaysOut, allow_none=True)


class LineRowsOut(Base):
    """A line, from 1. `come`, `gone`: causes why it can't be built; `prices` and `net` of one shell before tax."""

    line = fields.Integer()
    moved = fields.Boolean()
    verdict = Of(VerdictsOut)
    answers = fields.List(Of(AnswerRowOut))
    rules = fields.List(Of(RuleRowOut))
    come = fields.List(fields.List(fields.String()))
    gone = fields.List(fields.List(fields.String()))
    prices = Priced(PriceRowOut, many=True)
    net = Priced(AmountsOut)
    ready = Of(ReadyRowOut)


class CaseOut(Base):
    case = fields.String()
    with_tax = Amount()
    deposit = Amount()


class SumsOut(Base):
    """More than one case where a person must decide."""

    currency = fields.String()
    cases = fields.List(Of(CaseOut))


class SumsRowOut(Base):
    before = Of(SumsOut, allow_none=True)
    after = Of(SumsOut, allow_none=True)


class ToolRowOut(Base):
    """A tool that stands otherwise: ok, down, lost."""

    tool = fields.String()
    label = Words()
    before = fields.String()
    after = fields.String()


class RecheckedOut(Base):
    """`then`: by which numbers it was looked at; `now`: those in force. `moved`: whether anything is otherwise.

    `comparable` false: then can't be held against now, for that book has no such price list. `advice`: what the desk
    does about it (draft, tightened, loosened, dearer, cheaper, locked, again). `answers_moved`: how many.
    """

    state = fields.String()
    then = Of(NumbersOut)
    now = Of(NumbersOut)
    comparable = fields.Boolean()
    moved = fields.Boolean()
    advice = fields.List(fields.String())
    answers_moved = fields.Integer()
    tools = fields.List(Of(ToolRowOut))
    lines = fields.List(Of(LineRowsOut))
    extras = Priced(PriceRowOut, many=True)
    sums = Priced(SumsRowOut)
    ready = Of(ReadyRowOut)

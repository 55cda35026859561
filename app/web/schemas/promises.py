"""Dates: what is promised, what binds it, the gates, and what moving a slot would move. No amount is among them."""

from __future__ import annotations

from marshmallow import fields

from app.domain.floor.gates import BY_HAND
from app.web.fields import Base, Day, Flag, Of, OneOf, Text, Whole, Words
from app.web.schemas.quotations import HappeningOut

#: Shells of one order, at most.
MOST_SHELLS = 1_000_000


class GateDayIn(Base):
    """`shell` counts from 1 within the order; 0 for the gates of the whole order. A `day` to come is an expected one.

    `of`: the rule of the part, approval or sample.
    """

    shell = Whole(least=0, most=MOST_SHELLS, load_default=0)
    gate = OneOf(BY_HAND, required=True)
    of = Text(load_default="")
    day = Day(required=True)


class MoveIn(Base):
    """`day` null gives the slot up. `swap`: whoever has that day takes this shell's; else he goes to the next free."""

    shell = Whole(least=1, most=MOST_SHELLS, required=True)
    day = Day(allow_none=True, required=True)
    swap = Flag(load_default=False)


class MoveAgreedIn(MoveIn):
    """`token`: of the list of what moves, as it was shown."""

    token = Text(required=True, least=1)


class StepOut(Base):
    """In from `start` until `end`; `could`: the day on which it could have come in."""

    stage = fields.String()
    label = Words()
    could = fields.Date()
    start = fields.Date()
    end = fields.Date()


class BindingOut(Base):
    """`kind` gate, capacity or closure; `what` its id, `of` what a gate is about; `days`: working days it costs."""

    kind = fields.String()
    what = fields.String()
    of = fields.String()
    days = fields.Integer()
    until = fields.Date()
    says = fields.String()


class ReadyRangeOut(Base):
    """Ready from `ready` to `ready_by`; `weeks`: the ISO 8601 weeks of both."""

    ready = fields.Date()
    ready_by = fields.Date()
    weeks = fields.List(fields.String())


class ShellPromiseOut(ReadyRangeOut):
    """`says`: what binds, in one sentence."""

    slot = fields.Date()
    says = fields.String()
    bindings = fields.List(Of(BindingOut))
    steps = fields.List(Of(StepOut))


class DueOut(Base):
    """`day`: opened, or expected, or (`dated` false) taken to be today. `by`: the last day that keeps the promise."""

    gate = fields.String()
    of = fields.String()
    before = fields.String()
    day = fields.Date()
    opened = fields.Boolean()
    dated = fields.Boolean()
    by = fields.Date(allow_none=True)
    said_by_name = fields.String(allow_none=True)
    said_at = fields.DateTime(allow_none=True)


class SoonerOut(Base):
    """With `choice` of `option` instead; `also`: option → choice that changes with it; `days` working days sooner."""

    option = fields.String()
    choice = fields.String()
    label = Words()
    also = fields.Dict(keys=fields.String(), values=fields.String())
    days = fields.Integer()
    ready = fields.Date()
    ready_by = fields.Date()


class SpecificationDateOut(Base):
    """`promise` null: `says` why. `basis`: of which day's slots it speaks, and that nothing is reserved."""

    today = fields.Date()
    complete = fields.Boolean()
    promise = Of(ShellPromiseOut, allow_none=True)
    says = fields.String()
    basis = fields.String()
    gates = fields.List(Of(DueOut))
    sooner = fields.List(Of(SoonerOut))


class ShellDateOut(Base):
    """`kept`: the promise as the customer was told it, null while the shell has no slot. `now`: as things stand today.

    Where another shell is built in the place of a rejected one, `kept` has the slot and the stages of that.

    `stopped`: a sentence for each safety fault that stops it; while one stands, no day holds.
    `adrift`: what was promised no longer holds; `says` tells so, or what binds.
    """

    shell = fields.Integer()
    line = fields.Integer()
    kept = Of(ShellPromiseOut, allow_none=True)
    now = Of(ShellPromiseOut, allow_none=True)
    stopped = fields.List(fields.String())
    adrift = fields.Boolean()
    says = fields.String()
    gates = fields.List(Of(DueOut))


class ExportLimitOut(Base):
    """An export that may not leave by `due`, three months after it was `paid` in full (`supposed`: today)."""

    paid = fields.Date()
    supposed = fields.Boolean()
    due = fields.Date()
    ready = fields.Date()
    ready_by = fields.Date()
    says = fields.String()


class OrderDatesOut(Base):
    """`export_limit` null where nothing is exported untaxed, where it leaves in time, and for dealers."""

    number = fields.String()
    today = fields.Date()
    export_limit = Of(ExportLimitOut, allow_none=True)
    shells = fields.List(Of(ShellDateOut))
    history = fields.List(Of(HappeningOut))


class MovedLetterOut(Base):
    language = fields.String()
    subject = fields.String()
    text = fields.String()


class PromiseMovedOut(Base):
    """`after` null: the slot is given up. `letter` null: the customer's dates stand, only the slot moves."""

    number = fields.String()
    shell = fields.Integer()
    customer = fields.String()
    before = Of(ShellPromiseOut)
    after = Of(ShellPromiseOut, allow_none=True)
    letter = Of(MovedLetterOut, allow_none=True)


class StockMovedOut(Base):
    """What is built for stock and makes room: its slots before and after. Nobody is asked."""

    number = fields.String()
    before = fields.Date()
    after = fields.Date()


class ProposalOut(Base):
    """`token` to be handed back by who agrees to `moves`. `barred`: closed, past, gate or full, with the sentence."""

    token = fields.String()
    moves = fields.List(Of(PromiseMovedOut))
    stock = fields.List(Of(StockMovedOut))
    barred = fields.String(allow_none=True)
    earliest = fields.Date(allow_none=True)
    says = fields.String()

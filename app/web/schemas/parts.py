"""Customers' parts of orders: what came, what was found, what became of it, and what can be built instead."""

from __future__ import annotations

from marshmallow import fields

from app.domain.part import Choice, PartAct
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT
from app.web.fields import Amount, Base, Day, Flag, Many, Millimetres, Of, OneOf, Priced, Text, Words
from app.web.schemas.promises import MovedLetterOut
from app.web.schemas.signing import SignatureIn


class PartArrivalIn(Base):
    """`day` on which it came; `note`: how, in what state."""

    day = Day(required=True)
    note = Text(load_default="", most=LONGEST_TEXT)


class PartPhotographIn(Base):
    """Of the bytes that are sent: what they show."""

    note = Text(most=LONGEST_LINE, load_default="")


class LimitFoundIn(Base):
    """`met` of a limit that is not measured; `measured`: millimetres like 1.4; null: not answered."""

    met = Flag(allow_none=True, load_default=None)
    measured = Millimetres(allow_none=True, load_default=None)


class ReceiptVerdictIn(SignatureIn):
    """`findings` one by one to the limits; signed by whoever inspected it, with his personal `code`."""

    passed = Flag(required=True)
    findings = Many(Of(LimitFoundIn), required=True)
    why = Text(load_default="", most=LONGEST_TEXT)


class PartActIn(Base):
    """`note`: where it is kept, how it went back."""

    act = OneOf(tuple(one.value for one in PartAct), required=True)
    day = Day(required=True)
    note = Text(load_default="", most=LONGEST_TEXT)


class WaysIn(Base):
    """`passing`: as if another part passed on that day; today where it is left out."""

    passing = Day(load_default=None)


class PartChoiceIn(Base):
    """`day`: when another is expected to pass; `instead`: the choice of `option` that is built without one."""

    choice = OneOf(tuple(one.value for one in Choice), required=True)
    day = Day(allow_none=True, load_default=None)
    option = Text(load_default="")
    instead = Text(load_default="")
    note = Text(load_default="", most=LONGEST_TEXT)


class ReceiptIn(Base):
    """`turn`: which of those that came under the tag, from 1; the reader's language where it is left out."""

    turn = Text(load_default="1", most=4)
    language = Text(load_default="")
    size = Text(load_default="a4")


class PartLimitOut(Base):
    """`says` in the reader's language; `bound` at most or at least `length` millimetres, null: answered yes or no."""

    says = fields.String()
    bound = fields.String(allow_none=True)
    length = fields.String(allow_none=True)


class LimitFoundOut(Base):
    met = fields.Boolean(allow_none=True)
    measured = fields.String(allow_none=True)


class ReceiptVerdictOut(Base):
    passed = fields.Boolean()
    findings = fields.List(Of(LimitFoundOut))
    why = fields.String()
    day = fields.Date()
    signed_name = fields.String()


class PartActOut(Base):
    act = fields.String()
    day = fields.Date()
    note = fields.String()
    by_name = fields.String()


class PartChoiceOut(Base):
    """`letter`: of the draft in which `instead` is chosen."""

    choice = fields.String()
    day = fields.Date(allow_none=True)
    option = fields.String(allow_none=True)
    instead = fields.String(allow_none=True)
    letter = fields.String(allow_none=True)
    note = fields.String()
    at = fields.DateTime()
    by_name = fields.String()


class PartPhotographOut(Base):
    id = fields.Integer()
    note = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    url = fields.String()
    small_url = fields.String()


class PartArrivalOut(Base):
    """`by_hand`: its gate was written open before arrivals were recorded. `receipts`: its papers."""

    day = fields.Date()
    note = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    by_hand = fields.Boolean()
    stands = fields.String()
    verdicts = fields.List(Of(ReceiptVerdictOut))
    acts = fields.List(Of(PartActOut))
    choices = fields.List(Of(PartChoiceOut))
    photographs = fields.List(Of(PartPhotographOut))
    receipt = fields.String(allow_none=True)


class CustomersPartOut(Base):
    """`due`: the last day on which it may pass, null while its shell has no slot. `needed`: the shell still needs it.

    `shell` 0: it came for one that the order has no longer. `doubt`: other shells whose tags had this number in an
    earlier revision.
    """

    tag = fields.String()
    order = fields.String()
    shell = fields.Integer()
    serial = fields.String(allow_none=True)
    name = Words()
    rule = fields.String()
    part = Words()
    before = Words()
    due = fields.Date(allow_none=True)
    needed = fields.Boolean()
    stands = fields.String()
    doubt = fields.List(fields.Integer())
    limits = fields.List(Of(PartLimitOut))
    arrivals = fields.List(Of(PartArrivalOut))


class CustomersPartsOut(Base):
    parts = fields.List(Of(CustomersPartOut))


class PartDatesOut(Base):
    """`earliest` framing; `slot`, `ready`, `ready_by` with a slot that is free, or its own where that `keeps`."""

    earliest = fields.Date()
    keeps = fields.Boolean()
    slot = fields.Date(allow_none=True)
    ready = fields.Date(allow_none=True)
    ready_by = fields.Date(allow_none=True)


class SecondPartOut(Base):
    passing = fields.Date()
    dates = Of(PartDatesOut, allow_none=True)


class InsteadOfPartOut(Base):
    """What the whole order costs more (or less, below zero), by the prices that it was quoted at."""

    option = fields.String()
    choice = fields.String()
    label = Words()
    currency = fields.String()
    net = Amount()
    tax = Amount()
    payable = Amount()
    approvals = fields.List(fields.String())
    dates = Of(PartDatesOut, allow_none=True)


class WaysOnOut(Base):
    """`slot`: the one that the shell has until somebody agrees to move it. `letter` names sums."""

    slot = fields.Date(allow_none=True)
    second = Of(SecondPartOut)
    instead = fields.List(Of(InsteadOfPartOut))
    letter = Priced(MovedLetterOut)

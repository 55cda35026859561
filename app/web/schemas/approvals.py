"""Approvals: what lines need, what was asked for, and what the manager said."""

from __future__ import annotations

from marshmallow import fields

from app.services.answering.checking import LONGEST_TEXT
from app.web.fields import Base, Day, Of, OneOf, Priced, Text, Whole, Words
from app.web.schemas.paging import PagedIn, PagedOut
from app.web.schemas.quotations import RowTotalOut

STAGES = ("waiting", "granted", "refused", "withdrawn")


class ApprovalIn(Base):
    """`line` from 1, `rule`: which of those it depends on; `note`: what the manager should know."""

    line = Whole(required=True, least=1, most=1000)
    rule = Text(required=True, least=1, most=80)
    note = Text(most=LONGEST_TEXT, load_default="")


class ApprovalAnswerIn(Base):
    """`reason` is read by who asked, and by the customer on the paper; `day`: when it was said, left out: today."""

    answer = OneOf(("granted", "refused"), required=True)
    reason = Text(required=True, least=1, most=LONGEST_TEXT)
    day = Day(load_default=None, allow_none=True)


class WithdrawIn(Base):
    reason = Text(required=True, least=1, most=LONGEST_TEXT)


class ApprovalsIn(PagedIn):
    stage = OneOf(STAGES)


class ActOut(Base):
    """`day`: on which it was said; `at`: when it was recorded."""

    stage = fields.String()
    at = fields.DateTime()
    by = fields.String()
    by_name = fields.String()
    day = fields.Date()
    reason = fields.String()


class ApprovalOut(Base):
    """A request. `letter`, `line`: of which it was asked; `acts`: all that was said of it since."""

    id = fields.Integer()
    number = fields.String()
    letter = fields.String()
    line = fields.Integer()
    rule = fields.String()
    stage = fields.String()
    asked_at = fields.DateTime()
    asked_by = fields.String()
    asked_by_name = fields.String()
    note = fields.String()
    acts = fields.List(Of(ActOut))


class NeedOut(Base):
    """A line and a rule whose approval it depends on; `approval` null while nobody has asked for it."""

    line = fields.Integer()
    rule = fields.String()
    title = Words()
    reason = Words()
    met = fields.Boolean()
    approval = Of(ApprovalOut, allow_none=True)


class NeedsOut(Base):
    """`open`: how many are not given yet."""

    approvals = fields.List(Of(NeedOut))
    open = fields.Integer()


class AnswerOfOut(Base):
    """An option of the shell in words. `unusual`: the original of the ordered series and market had it otherwise."""

    option = fields.String()
    label = Words()
    choice = fields.String()
    choice_label = Words()
    standing = fields.String(allow_none=True)
    bound = fields.Boolean()
    unusual = fields.Boolean()


class WeighedOut(Base):
    """A request with what whoever answers it must see. `stage` may be moot: nothing waits for it any longer.

    `letter`, `line`: where it is waited for now. `specification`: the whole shell; what is `bound` kills the approval
    when it changes. `customer`, `state` of the quotation; `total` of the revision.
    """

    approval = Of(ApprovalOut)
    stage = fields.String()
    letter = fields.String()
    line = fields.Integer()
    title = Words()
    reason = Words()
    cautions = fields.Boolean()
    customer = fields.String()
    dealer = fields.String(allow_none=True)
    state = fields.String()
    specification = fields.List(Of(AnswerOfOut))
    total = Priced(RowTotalOut)


class WeighedListOut(PagedOut):
    """Waiting first, the oldest at the top. A page may hold fewer than it has room for, and another still follow."""

    approvals = fields.List(Of(WeighedOut))

"""Quotations to be chased, the texts for that, and what was sent."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.quotations.chasing import Kind, Sending, Way
from app.services.answering.checking import LONGEST_TEXT
from app.web.fields import Base, Day, Of, OneOf, Priced, Text
from app.web.schemas.paging import PagedIn, PagedOut
from app.web.schemas.quotations import RowTotalOut

KINDS = tuple(kind.value for kind in Kind)
WAYS = tuple(way.value for way in Way)


class ChasingIn(PagedIn):
    """`which`: in-date (what lapses first comes first) or lapsed (the last lapsed first)."""

    which = OneOf(("in-date", "lapsed"), load_default="in-date")


class CorrespondenceIn(Base):
    """Left out: the customer's language."""

    language = OneOf(("en", "de"), load_default=None, allow_none=True)


class SendingIn(Base):
    """What a person sent: `to` whom, on which day (left out: today), which `way`, and the words as they went."""

    kind = OneOf(KINDS, required=True)
    way = OneOf(WAYS, required=True)
    to = Text(required=True, least=1)
    sent_on = Day(load_default=None, allow_none=True)
    text = Text(most=LONGEST_TEXT, load_default="")

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Sending:
        return Sending(Kind(data["kind"]), Way(data["way"]), data["to"], data["sent_on"], data["text"])


class SentOut(Base):
    kind = fields.String()
    way = fields.String()
    to = fields.String()
    sent_on = fields.Date()
    text = fields.String()
    by = fields.String()
    by_name = fields.String()
    at = fields.DateTime()


class LetterOut(Base):
    """A whole text to be copied. No sum is named in it."""

    kind = fields.String()
    language = fields.String()
    subject = fields.String()
    text = fields.String()


class CorrespondenceOut(Base):
    """`letters`: those that suit the revision as it stands; `sent`: all that was sent about the quotation."""

    letters = fields.List(Of(LetterOut))
    sent = fields.List(Of(SentOut))


class ChasedOut(Base):
    """`left`: days to the last on which it holds, negative once lapsed; `silent`: days since anybody wrote to him.

    `parts`, `approvals`: ids of the rules that must still be met; `fits`: the texts that suit it.
    """

    number = fields.String()
    letter = fields.String()
    state = fields.String()
    customer = fields.String()
    telephone = fields.String()
    email = fields.String()
    dealer = fields.String(allow_none=True)
    issued_at = fields.DateTime()
    valid_until = fields.DateTime()
    left = fields.Integer()
    silent = fields.Integer()
    last = Of(SentOut, allow_none=True)
    parts = fields.List(fields.String())
    approvals = fields.List(fields.String())
    fits = fields.List(fields.String())
    total = Priced(RowTotalOut)


class ChasingOut(PagedOut):
    """In date: what lapses first comes first; lapsed: the last lapsed."""

    chased = fields.List(Of(ChasedOut))

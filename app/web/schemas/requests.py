"""What a dealer asks the office for, and copies of what he quoted."""

from __future__ import annotations

from marshmallow import fields

from app.services.answering.checking import LONGEST_TEXT
from app.web.fields import Base, Flag, Of, QueryWhole, Text, Whole
from app.web.schemas.paging import PagedIn, PagedOut


class CopyIn(Base):
    """`for_stock`: for the dealer's own stock, without donor car; `quantity` of each line: left out, as it stands."""

    for_stock = Flag(load_default=False)
    quantity = Whole(least=1, most=1000, load_default=None, allow_none=True)


class RequestIn(Base):
    """`note`: what the office should know."""

    note = Text(most=LONGEST_TEXT, load_default="")


class TakeOffIn(Base):
    """`why`: the office has to say it; a dealer may."""

    why = Text(most=LONGEST_TEXT, load_default="")


class RequestsIn(PagedIn):
    waiting = QueryWhole(least=0, most=1, load_default=0)


class AskedLineOut(Base):
    """`choices`: option → choice, all that is answered; `chosen`: the options that are not as the original had them."""

    quantity = fields.Integer()
    choices = fields.Dict(keys=fields.String(), values=fields.String())
    chosen = fields.List(fields.String())


class RequestOut(Base):
    """`stage`: waiting, answered (it was issued), withdrawn (by the dealer), refused (by the office, `why`)."""

    id = fields.Integer()
    number = fields.String()
    letter = fields.String()
    dealer = fields.String()
    dealer_name = fields.String()
    customer = fields.String()
    donor_number = fields.String()
    lines = fields.List(Of(AskedLineOut))
    note = fields.String()
    stage = fields.String()
    asked_at = fields.DateTime()
    asked_by_name = fields.String()
    ended_at = fields.DateTime(allow_none=True)
    ended_by_name = fields.String(allow_none=True)
    why = fields.String(allow_none=True)


class RequestsOut(PagedOut):
    """Waiting first, the oldest at the top."""

    requests = fields.List(Of(RequestOut))

"""Work to come as the workshop sees it, without any amount or text that a customer was written; what lapses soon."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Of
from app.web.schemas.asking import DependsOut, ReadyOut
from app.web.schemas.paging import PagedOut
from app.web.schemas.quotations import EarlierYesOut
from app.web.schemas.tools import NetOut, PromiseOut


class DonorToComeOut(Base):
    number_text = fields.String()
    series = fields.String(allow_none=True)
    number = fields.Integer(allow_none=True)
    established = fields.Boolean()
    gearbox = fields.String(allow_none=True)


class LineToComeOut(Base):
    """`standing`: option → usual, chosen or forced."""

    quantity = fields.Integer()
    settled = fields.Dict(keys=fields.String(), values=fields.String())
    standing = fields.Dict(keys=fields.String(), values=fields.String())
    verdicts = fields.List(fields.String())
    depends = Of(DependsOut)
    ready = Of(ReadyOut, allow_none=True)


class WorkToComeOut(Base):
    """`state`: issued (and in date) or accepted; `valid_until`: the first moment at which it has lapsed.

    `earlier_yes`: the customer had accepted an earlier revision, whose place this has taken. `awaits`: rules whose
    approval is still to be given.
    """

    number = fields.String()
    letter = fields.String()
    state = fields.String()
    book = fields.Integer()
    customer = fields.String()
    donor = Of(DonorToComeOut)
    wanted_by = fields.Date(allow_none=True)
    issued_at = fields.DateTime()
    valid_until = fields.DateTime(allow_none=True)
    lines = fields.List(Of(LineToComeOut))
    earlier_yes = Of(EarlierYesOut, allow_none=True)
    awaits = fields.List(fields.String())


class WorksToComeOut(PagedOut):
    """The last issued first."""

    work = fields.List(Of(WorkToComeOut))


class AboutToLapseOut(Base):
    """For the manager: what lapses within `days`, the first at the top; `nets`: what it comes to before tax."""

    days = fields.Integer()
    revisions = fields.List(Of(PromiseOut))
    nets = fields.List(Of(NetOut))

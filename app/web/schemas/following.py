"""Open orders as a dealer follows them. No money."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Of, Words
from app.web.schemas.paging import PagedOut


class OpenLineOut(Base):
    count = fields.Integer()
    name = Words()


class StateCountOut(Base):
    state = fields.String()
    count = fields.Integer()


class RangeOut(Base):
    ready = fields.Date()
    ready_by = fields.Date()


class WhenOut(Base):
    """`range` from its first shell to its last, null where a shell has none; `promised`: every shell has its slot.

    `says`: what binds the shell that comes last. `stopped`: that a safety fault stops any of them, or null.
    """

    range = Of(RangeOut, allow_none=True)
    promised = fields.Boolean()
    says = fields.String()
    stopped = fields.String(allow_none=True)


class OpenOrderOut(Base):
    number = fields.String()
    quotation = fields.String()
    letter = fields.String()
    customer = fields.String()
    dealer = fields.String(allow_none=True)
    made_at = fields.DateTime()
    shells = fields.List(Of(OpenLineOut))
    states = fields.List(Of(StateCountOut))
    when = Of(WhenOut)


class OpenOrdersOut(PagedOut):
    """The last made first. A page may hold fewer than it has room for, and another still follow."""

    orders = fields.List(Of(OpenOrderOut))

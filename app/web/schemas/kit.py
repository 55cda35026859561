"""The kit of a shell, line by line. No amount is among it."""

from __future__ import annotations

from marshmallow import fields

from app.domain.floor.kit import KitStands
from app.services.answering.checking import LONGEST_LINE
from app.web.fields import Base, Of, OneOf, Text, Words
from app.web.schemas.floor import FloorShellOut


class KitCheckIn(Base):
    """`what` and `approved_by` (a sign-in name, somebody else's) of a substitute."""

    line = Text(required=True, least=1)
    stands = OneOf(tuple(one.value for one in KitStands), required=True)
    what = Text(load_default="", most=LONGEST_LINE)
    approved_by = Text(allow_none=True, load_default=None)


class KitLineOut(Base):
    """`stands` null: nobody has looked."""

    line = fields.String()
    supply = fields.String()
    label = Words()
    stands = fields.String(allow_none=True)
    what = fields.String()
    approved_by_name = fields.String(allow_none=True)
    by_name = fields.String(allow_none=True)
    at = fields.DateTime(allow_none=True)


class KitPartOut(Base):
    """A customer's part: how it stands by its own record."""

    tag = fields.String()
    rule = fields.String()
    part = Words()
    before = Words()
    stands = fields.String()


class ApproverOut(Base):
    name = fields.String()
    display_name = fields.String()


class KitOut(Base):
    """`open`: it may still be checked. `shell`: as the floor shows it by what was said."""

    lines = fields.List(Of(KitLineOut))
    parts = fields.List(Of(KitPartOut))
    open = fields.Boolean()
    approvers = fields.List(Of(ApproverOut))
    shell = Of(FloorShellOut)

"""What of the donor car is sent and kept, in the reader's words. No amount can stand in it."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Of, OneOf
from app.web.schemas.asking import AnswersIn
from app.web.schemas.drawing import DrawingOut
from app.wording import LANGUAGES

UNITS = ("metric", "imperial")


class DonorPartsIn(AnswersIn):
    """What is asked of `/api/answers`; `units` imperial writes inches beside; `language` null: the reader's own."""

    language = OneOf(LANGUAGES, allow_none=True, load_default=None)
    units = OneOf(UNITS, load_default=UNITS[0])


class KeptPartOut(Base):
    """`before`: the stage's name where it is sent by itself; empty otherwise."""

    id = fields.String()
    label = fields.String()
    why = fields.String()
    before = fields.String()


class RemarkOut(Base):
    """`about`: spare, limit or step."""

    about = fields.String()
    text = fields.String()


class PartComesOut(Base):
    """How it comes out: no `margins` means that it is not cut."""

    margins = fields.List(fields.String())
    remarks = fields.List(Of(RemarkOut))
    sketch = Of(DrawingOut, allow_none=True)


class SentPartOut(Base):
    """A customer's part; `comes` null: the book doesn't say how it comes out."""

    rule = fields.String()
    part = fields.String()
    reason = fields.String()
    before = fields.String()
    company = fields.List(Of(KeptPartOut))
    comes = Of(PartComesOut, allow_none=True)


class DonorPartsOut(Base):
    """`buildable` false: nothing is asked for, since the shell can't be built as it is specified."""

    buildable = fields.Boolean()
    sent = fields.List(Of(SentPartOut))
    besides = fields.List(Of(KeptPartOut))
    refit = fields.List(Of(KeptPartOut))

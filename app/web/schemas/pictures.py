"""A donor car in three pictures, row by row. No amount can stand in it."""

from __future__ import annotations

from marshmallow import fields

from app.domain.quotations.enquiry import Picture
from app.web.fields import Base, Of
from app.web.schemas.asking import AnswersIn
from app.web.schemas.enquiries import PictureIn


class PicturesIn(AnswersIn):
    """What is asked of `/api/answers`; `built`, `stands`: what somebody says of the car, as an enquiry keeps it."""

    built = Of(PictureIn, load_default=Picture)
    stands = Of(PictureIn, load_default=Picture)


class RowOut(Base):
    """A side that is null is not known."""

    option = fields.String()
    built = fields.String(allow_none=True)
    stands = fields.String(allow_none=True)
    ordered = fields.String(allow_none=True)


class PicturesOut(Base):
    rows = fields.List(Of(RowOut))

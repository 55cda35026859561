"""Photographs of an enquiry. No amount can stand in it."""

from __future__ import annotations

from marshmallow import fields

from app.domain.quotations.photograph import Shows
from app.web.fields import Base, Of, OneOf, Text

SHOWS = tuple(one.value for one in Shows)
SIZES = ("whole", "small")


class PhotographIn(Base):
    """Of the bytes that are sent: what they show; `part`: the rule that asks for the part which is shown."""

    shows = OneOf(SHOWS, required=True)
    part = Text(most=60, load_default="")
    note = Text(most=200, load_default="")


class PhotographFileIn(Base):
    size = OneOf(SIZES, load_default=SIZES[0])


class PhotographOut(Base):
    """`width`, `height` in pixels, `size` in bytes; `url`, `small_url`: where its JPEG is."""

    id = fields.Integer()
    enquiry = fields.Integer()
    shows = fields.String(attribute="shows.value")
    part = fields.String()
    note = fields.String()
    width = fields.Integer()
    height = fields.Integer()
    size = fields.Integer()
    at = fields.DateTime()
    by = fields.String()
    by_name = fields.String()
    url = fields.String()
    small_url = fields.String()


class PhotographsOut(Base):
    """The first added first."""

    photographs = fields.List(Of(PhotographOut))

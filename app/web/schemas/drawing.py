"""The shell drawing as plain data. No amount can stand in it."""

from __future__ import annotations

from marshmallow import fields

from app.documents.drawings.drawing import Arrangement
from app.web.fields import Base, Of, OneOf
from app.web.schemas.asking import AnswersIn
from app.wording import LANGUAGES

ARRANGEMENTS = tuple(one.value for one in Arrangement)


class DrawingsIn(AnswersIn):
    """What is asked of `/api/answers`; `language` null: the reader's own."""

    arrangement = OneOf(ARRANGEMENTS, load_default=Arrangement.STACKED.value)
    language = OneOf(LANGUAGES, allow_none=True, load_default=None)


class PathOut(Base):
    """`d`: SVG path data; `width` and `dash` in pixels that don't scale."""

    d = fields.String()
    width = fields.Float()
    dash = fields.List(fields.Float())
    fill = fields.Boolean()


class LettersOut(Base):
    """`x`, `y`: the left end of the text's foot; `size` its height."""

    x = fields.Float()
    y = fields.Float()
    size = fields.Float()
    text = fields.String()
    bold = fields.Boolean()


class PartOut(Base):
    """One element as drawn; `option`, `choice` and `state` null for what every shell has. `words`: its line."""

    element = fields.String()
    option = fields.String(allow_none=True)
    choice = fields.String(allow_none=True)
    state = fields.String(allow_none=True)
    rules = fields.List(fields.String())
    words = fields.String()
    paths = fields.List(Of(PathOut))
    letters = fields.List(Of(LettersOut))


class DrawingOut(Base):
    """Millimetres of the car. `lines` is what a screen reader is told."""

    width = fields.Float()
    height = fields.Float()
    title = fields.String()
    lines = fields.List(fields.String())
    parts = fields.List(Of(PartOut))


class DrawingsOut(Base):
    drawing = Of(DrawingOut, allow_none=True)

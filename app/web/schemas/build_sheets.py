"""Build sheets of an order's shells, as the workshop looks for them."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Of, Text


class BuildSheetIn(Base):
    """`language`: the workshop's own where it is left out; `size`: a4 or a3."""

    language = Text(load_default="")
    size = Text(load_default="a4")


class BuildSheetOut(Base):
    """`line` and `piece` count from 1; `serial` and `sheet` null while the shell is planned; `sheet`: its revision.

    `settled`: option → choice.
    """

    line = fields.Integer()
    piece = fields.Integer()
    serial = fields.String(allow_none=True)
    state = fields.String()
    sheet = fields.Integer(allow_none=True)
    settled = fields.Dict(keys=fields.String(), values=fields.String())


class BuildSheetsOut(Base):
    """`languages`: those that sheets are written in, the workshop's own first."""

    order = fields.String()
    revision = fields.String()
    languages = fields.List(fields.String())
    sheets = fields.List(Of(BuildSheetOut))


class SheetCodeOut(Base):
    """`current` false: fetch the sheet anew."""

    current = fields.Boolean()


class ScannedOut(Base):
    """`revision`: of the sheet in hand, null of a planned shell's; `fetch`: the one that is built by now, if any.

    `changed`: what is otherwise since, in the reader's words; `sheet`: where it is fetched; `says`: what to do next.
    """

    current = fields.Boolean()
    serial = fields.String()
    revision = fields.Integer(allow_none=True)
    fetch = fields.Integer(allow_none=True)
    changed = fields.List(fields.String())
    sheet = fields.String(allow_none=True)
    says = fields.String()

"""The live state of the tools."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Day, Of, OneOf, Text, Words
from rules.model import ToolCondition


class ToolStateOut(Base):
    id = fields.String()
    label = Words()
    state = fields.String()
    until = fields.Date(allow_none=True)
    since = fields.DateTime(allow_none=True)
    by = fields.String(allow_none=True)
    by_name = fields.String(allow_none=True)
    note = fields.String()


class ToolsOut(Base):
    """`number` names the states of all tools together, and is the version for an edit."""

    number = fields.Integer()
    tools = fields.List(Of(ToolStateOut))


class ToolStateIn(Base):
    state = OneOf(tuple(condition.value for condition in ToolCondition), required=True)
    until = Day(allow_none=True, load_default=None)
    note = Text(most=500, load_default="")

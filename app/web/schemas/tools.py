"""The live state of the tools."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Amount, Base, Day, Of, OneOf, Text, Words
from rules.model import ToolCondition


class EffectOut(Base):
    """`effect` on shells made with the tool: free, waits, part (`part` stands in), rule (`rule` speaks) or never."""

    effect = fields.String()
    part = fields.String(allow_none=True)
    rule = fields.String(allow_none=True)


class ToolStateOut(EffectOut):
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


STATES = tuple(condition.value for condition in ToolCondition)


class ToolStateIn(Base):
    """Down and lost need a note: the reason. `until`: expected back, of one that is down."""

    state = OneOf(STATES, required=True)
    until = Day(allow_none=True, load_default=None)
    note = Text(most=500, load_default="")


class ConsequencesIn(Base):
    state = OneOf(STATES, required=True)


class ReliesOut(Base):
    """Counts are exact, as decimal digits: structures that can be built with the tool in order, and those that use it.

    `percent`: their share, to one place; all three are null where the book is too large to count. `choices`: those that
    no shell has without the tool; `everything`: no shell at all is made without it.
    """

    structures = fields.String(allow_none=True)
    using = fields.String(allow_none=True)
    percent = fields.String(allow_none=True)
    everything = fields.Boolean()
    choices = fields.List(fields.Dict(keys=fields.String(), values=fields.String()))


class PromiseOut(Base):
    """A revision. `net`: all of its lines, before tax; null of a draft."""

    number = fields.String()
    letter = fields.String()
    customer = fields.String()
    donor = fields.String()
    valid_until = fields.DateTime(allow_none=True)
    currency = fields.String(allow_none=True)
    net = Amount()


class TouchedOut(PromiseOut):
    """One that uses the tool, in these `lines` (counted from 1)."""

    lines = fields.List(fields.Integer())
    shells = fields.Integer()


class NetOut(Base):
    currency = fields.String()
    net = Amount()


class TouchedGroupOut(Base):
    """`sort`: accepted, issued or draft. `revisions` is empty for a reader who may not read them; `count` counts all.

    `nets`: what they come to before tax, for each currency; null amounts for whoever sees no prices.
    """

    sort = fields.String()
    count = fields.Integer()
    shells = fields.Integer()
    revisions = fields.List(Of(TouchedOut))
    nets = fields.List(Of(NetOut))


class ShellInBuildOut(Base):
    """`stage_label`: the stage that it is at."""

    serial = fields.String()
    order = fields.String()
    shell = fields.Integer()
    stage_label = Words(allow_none=True)


class InBuildOut(Base):
    """Released shells that use the tool: `stopped` at or before the stage where it is used, or `past` it."""

    stopped = fields.List(Of(ShellInBuildOut))
    past = fields.List(Of(ShellInBuildOut))


class ConsequencesOut(EffectOut):
    """`effect` is that of the state asked about.

    `number` is the version that an edit names; `relies` is null where the book is too large to say. `stale_drafts`: how
    many drafts nobody has changed for ninety days; they are not looked through, and not among `touched`.
    """

    tool = fields.String()
    number = fields.Integer()
    was = fields.String()
    becomes = fields.String()
    relies = Of(ReliesOut, allow_none=True)
    in_build = Of(InBuildOut)
    touched = fields.List(Of(TouchedGroupOut))
    stale_drafts = fields.Integer()

"""How well promises would hold, by what is supposed to go wrong. No amount is among it."""

from __future__ import annotations

from marshmallow import fields

from app.domain.planning.outlook import Supposed
from app.services.planning.outlook import MOST_YEARS
from app.web.fields import LARGEST_KEY, Base, Of, Whole

_USUAL = Supposed()


class SupposedIn(Base):
    """Shares in percent, days are working days; the same `seed` gives the same years."""

    seed = Whole(least=0, most=LARGEST_KEY, load_default=_USUAL.seed)
    years = Whole(least=1, most=MOST_YEARS, load_default=_USUAL.years)
    rework = Whole(least=0, most=100, load_default=_USUAL.rework)
    rework_days = Whole(least=0, most=60, load_default=_USUAL.rework_days)
    part_late = Whole(least=0, most=100, load_default=_USUAL.part_late)
    part_days = Whole(least=0, most=120, load_default=_USUAL.part_days)
    tool_days = Whole(least=0, most=120, load_default=_USUAL.tool_days)
    booth_days = Whole(least=0, most=15, load_default=_USUAL.booth_days)


class SupposedOut(Base):
    seed = fields.Integer()
    years = fields.Integer()
    rework = fields.Integer()
    rework_days = fields.Integer()
    part_late = fields.Integer()
    part_days = fields.Integer()
    tool_days = fields.Integer()
    booth_days = fields.Integer()


class HeldAtOut(Base):
    """At `planned` percent `kept` percent lie within the quoted width; `nine_in_ten`: the least width that keeps 90 %.

    `poor_year`: what the worst year in ten keeps, at most. `curve`: percent kept by each width from 0 on.
    """

    planned = fields.Integer()
    shells = fields.Integer()
    kept = fields.Float()
    nine_in_ten = fields.Integer()
    poor_year = fields.Float()
    curve = fields.List(fields.Float())


class PromiseOutlookOut(Base):
    """`state`: none, underway (`done` of `of` years), failed or done. `basis`: by whose work it was counted, how."""

    state = fields.String()
    done = fields.Integer()
    of = fields.Integer()
    supposed = Of(SupposedOut)
    width = fields.Integer(allow_none=True)
    line = fields.Integer()
    says = fields.String()
    basis = fields.List(fields.String())
    held = fields.List(Of(HeldAtOut))
    at = fields.DateTime(allow_none=True)
    by_name = fields.String(allow_none=True)

"""Building for stock. No amount is among it, and nobody's name."""

from __future__ import annotations

from marshmallow import fields

from app.services.stocking import MOST
from app.web.fields import Base, Of, Text, Whole, Words
from app.web.schemas.promises import ShellPromiseOut


class StockIn(Base):
    """As `line` (from 1) of that revision is specified, without its customer and donor car."""

    number = Text(required=True, most=40)
    letter = Text(required=True, most=4)
    line = Whole(least=1, most=1000, load_default=1)


class StockCapIn(Base):
    """How many shells may be planned or in the workshop for stock."""

    cap = Whole(least=0, most=MOST, required=True)


class StockShellOut(Base):
    """`because`: the order for which it last made room; empty: it never did, or for a better order of the weeks."""

    id = fields.Integer()
    number = fields.String()
    what = fields.List(Words())
    plan = Of(ShellPromiseOut)
    begun = fields.Boolean()
    act = fields.String()
    at = fields.DateTime()
    because = fields.String()


class StockOut(Base):
    """`shells` by their slots, of `cap` that there may be."""

    cap = fields.Integer()
    shells = fields.List(Of(StockShellOut))

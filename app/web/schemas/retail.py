"""A dealer's own offers: what he says for them, and what one comes to. His margin hides as every amount does."""

from __future__ import annotations

from typing import Any

from marshmallow import fields

from app.services.quotations.retailing import LONGEST_ADDRESS
from app.web import here
from app.web.fields import Amount, Base, Of, Text, Words
from app.web.schemas.quotations import PaperOut


class Margin(fields.String):
    """Percent as decimal text; null while prices are hidden."""

    def _serialize(self, value: Any, attr: Any, obj: Any, **kwargs: Any) -> Any:
        return super()._serialize(value, attr, obj, **kwargs) if here.prices_visible() else None


class RetailTermsIn(Base):
    """`margin`: percent on the list's price, as decimal text; left out, it stays as it was."""

    address = Text(required=True, most=LONGEST_ADDRESS)
    telephone = Text(load_default="")
    email = Text(load_default="")
    margin = Text(most=20, load_default=None, allow_none=True)


class RetailTermsOut(Base):
    """`missing`: what has to be said before an offer can be made: address, margin. `said_at` null: nothing yet."""

    dealer = fields.String()
    name = fields.String()
    address = fields.String()
    telephone = fields.String()
    email = fields.String()
    margin = Margin(allow_none=True)
    missing = fields.List(fields.String())
    said_at = fields.DateTime(allow_none=True)
    said_by = fields.String(allow_none=True)


class RetailLineOut(Base):
    line = fields.String()
    label = Words()
    amount = Amount()


class RetailShellsOut(Base):
    """`one` is the price of each, `all` of `quantity` together."""

    quantity = fields.Integer()
    lines = fields.List(Of(RetailLineOut))
    one = Amount()
    all = Amount()


class RetailExtraOut(Base):
    extra = fields.String()
    label = Words()
    quantity = fields.Integer()
    each = Amount()
    all = Amount()


class RetailOut(Base):
    """Before tax: the dealer adds it. `before_tax` null while prices are hidden or something is `missing`."""

    number = fields.String()
    letter = fields.String()
    currency = fields.String()
    margin = Margin(allow_none=True)
    missing = fields.List(fields.String())
    shells = fields.List(Of(RetailShellsOut))
    extras = fields.List(Of(RetailExtraOut))
    before_tax = Amount()
    papers = fields.List(Of(PaperOut))

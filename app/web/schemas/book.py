"""A rule book as readers see it: no price and no condition in it. Labels are in every language of the book."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Amount, Base, Of, Words


class LabelledOut(Base):
    id = fields.String()
    label = Words()


class ChoiceOut(LabelledOut):
    lost = fields.Boolean()


class OptionOut(LabelledOut):
    group = fields.String()
    structural = fields.Boolean()
    help = Words()
    choices = fields.List(Of(ChoiceOut))


class RuleOut(Base):
    id = fields.String()
    kinds = fields.List(fields.String())
    title = Words()
    reason = Words()
    part = Words()


class ToolOut(LabelledOut):
    reason = Words()


class PriceListOut(LabelledOut):
    currency = fields.String()


class ExtraOut(LabelledOut):
    unit = Words()
    category = fields.String()


class SeriesOut(Base):
    choice = fields.String()
    years = fields.String()
    prefix = fields.String()
    first = fields.Integer()
    last = fields.Integer()
    width = fields.Integer()
    changes = Words()


class GoesOut(Base):
    choice = fields.String()
    how = fields.String()
    country = fields.String(allow_none=True)


class TermsOut(Base):
    """Percents as decimal text."""

    deposit_percent = fields.String()
    validity_days = fields.Integer()
    several_from = fields.Integer()
    several_percent = fields.String()


class CautionOut(Base):
    id = fields.String()
    text = Words()
    papers = fields.List(fields.String())


class BookOut(Base):
    number = fields.Integer()
    title = Words()
    languages = fields.List(fields.String())
    groups = fields.List(Of(LabelledOut))
    options = fields.List(Of(OptionOut))
    rules = fields.List(Of(RuleOut))
    tools = fields.List(Of(ToolOut))
    lists = fields.List(Of(PriceListOut))
    categories = fields.List(Of(LabelledOut))
    adjustments = fields.List(Of(LabelledOut))
    extras = fields.List(Of(ExtraOut))
    series = fields.List(Of(SeriesOut))
    gearboxes = fields.List(fields.String())
    roles = fields.Dict(keys=fields.String(), values=fields.String())
    delivery = fields.List(Of(GoesOut))
    terms = Of(TermsOut)
    draws = fields.Boolean(metadata={"description": "Whether its shells can be drawn."})
    cautions = fields.List(Of(CautionOut))


class BookConditionsOut(Base):
    """`rules`: rule → when it speaks, in words of the book and in the reader's language."""

    number = fields.Integer()
    rules = fields.Dict(keys=fields.String(), values=fields.String())


class BookPriceOut(Base):
    """`amounts`: list → whole minor units; null where the list does not price it. `option` null: stands by itself."""

    id = fields.String()
    label = Words()
    category = fields.String()
    option = fields.String(allow_none=True)
    choice = fields.String(allow_none=True)
    unit = Words(allow_none=True)
    amounts = fields.Dict(keys=fields.String(), values=Amount())


class BookPricesOut(Base):
    number = fields.Integer()
    lists = fields.List(Of(PriceListOut))
    lines = fields.List(Of(BookPriceOut))
    extras = fields.List(Of(BookPriceOut))

"""Quotations: revisions of lines, each line a specification and how many."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.quotation import DeliveryPlace, Draft, DraftLine, ExtraSold, Standing
from app.web.fields import Amount, Base, Country, Many, Of, OneOf, Priced, QueryWhole, Text, Whole, Words
from app.web.schemas.asking import DependsOut, ReadyOut, ShellPriceOut, TotalsOut, specification_field
from rules.specification import Specification

SIZES = ("a4", "letter")


class PlaceIn(Base):
    country = Country(blank=True, load_default="")
    region = Text(most=80, load_default="")

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> DeliveryPlace:
        return DeliveryPlace(**data)


class QuotationIn(Base):
    price_list = Text(required=True, most=20)
    delivery_place = Of(PlaceIn, load_default=DeliveryPlace)


class LineIn(Base):
    specification = specification_field(required=True)
    quantity = Whole(least=1, most=1000, load_default=1)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> DraftLine:
        return DraftLine(Specification(data["specification"]), data["quantity"])


class ExtraIn(Base):
    extra = Text(required=True, most=80)
    quantity = Whole(least=1, most=1000, load_default=1)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> ExtraSold:
        return ExtraSold(**data)


class DraftIn(Base):
    """A revision as it is typed: all of it at once."""

    price_list = Text(required=True, most=20)
    delivery_place = Of(PlaceIn, load_default=DeliveryPlace)
    note = Text(most=10_000, load_default="")
    lines = Many(Of(LineIn), load_default=list)
    extras = Many(Of(ExtraIn), load_default=list)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Draft:
        return Draft(**{**data, "lines": tuple(data["lines"]), "extras": tuple(data["extras"])})


class QuotationSearchIn(Base):
    state = OneOf(tuple(standing.value for standing in Standing))
    q = Text(load_default="")
    page = QueryWhole(least=1, most=100_000, load_default=1)


class PaperIn(Base):
    language = OneOf(("en", "de"), load_default="en")
    size = OneOf(SIZES, load_default="a4")


class PlaceOut(Base):
    country = fields.String()
    region = fields.String()


class TakenOut(Base):
    choice = fields.String()
    origin = fields.String()


class SummaryOut(Base):
    """What the engine says of a line; `net` of one shell before tax."""

    verdict = fields.String()
    verdicts = fields.List(fields.String())
    complete = fields.Boolean()
    open_questions = fields.List(fields.String())
    causes = fields.List(fields.List(fields.String()))
    depends = Of(DependsOut)
    settled = fields.Dict(keys=fields.String(), values=fields.String())
    ready = Of(ReadyOut, allow_none=True)
    price = Priced(ShellPriceOut)
    net = Amount()


class LineOut(Base):
    """`answer` null where the line names what the book hasn't."""

    id = fields.Integer()
    quantity = fields.Integer()
    specification = fields.Dict(keys=fields.String(), values=Of(TakenOut))
    answer = Of(SummaryOut, allow_none=True)


class ExtraSoldOut(Base):
    extra = fields.String()
    label = Words()
    quantity = fields.Integer()


class PaperOut(Base):
    language = fields.String()
    size = fields.String()
    url = fields.String()


class RevisionOut(Base):
    """`version` is what the ETag names; `valid_until`: the first moment at which it has lapsed."""

    quotation = fields.String()
    letter = fields.String()
    state = fields.String()
    version = fields.Integer()
    book = fields.Integer(allow_none=True)
    tool_state = fields.Integer(allow_none=True)
    created_at = fields.DateTime()
    created_by = fields.String()
    issued_at = fields.DateTime(allow_none=True)
    issued_by = fields.String(allow_none=True)
    valid_until = fields.DateTime(allow_none=True)
    price_list = fields.String()
    currency = fields.String()
    delivery_place = Of(PlaceOut)
    note = fields.String()
    lines = fields.List(Of(LineOut))
    extras = fields.List(Of(ExtraSoldOut))
    totals = Priced(TotalsOut)
    papers = fields.List(Of(PaperOut))


class HappeningOut(Base):
    """`what` is a sentence in the reader's language; `kind` its stable id."""

    at = fields.DateTime()
    by = fields.String()
    kind = fields.String()
    what = fields.String()


class QuotationOut(Base):
    number = fields.String()
    enquiry = fields.Integer()
    state = fields.String()
    dealer = fields.String(allow_none=True)
    revisions = fields.List(Of(RevisionOut))
    history = fields.List(Of(HappeningOut))


class QuotationRowOut(Base):
    number = fields.String()
    letter = fields.String()
    state = fields.String()
    enquiry = fields.Integer()
    customer = fields.String()
    dealer = fields.String(allow_none=True)
    valid_until = fields.DateTime(allow_none=True)
    updated_at = fields.DateTime()


class QuotationsOut(Base):
    """`page` counts from 1; `more` says whether a next one holds anything."""

    quotations = fields.List(Of(QuotationRowOut))
    page = fields.Integer()
    more = fields.Boolean()


class CodeOut(Base):
    number = fields.String()
    letter = fields.String()

"""Quotations: revisions of lines, each line a specification and how many."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.quotations.quotation import DeliveryPlace, Draft, DraftLine, ExtraSold, Reason, Standing
from app.services.answering.checking import LONGEST_TEXT
from app.web.fields import Amount, Base, Country, Flag, Line, Many, Moment, Of, OneOf, Priced, Text, Whole, Words
from app.web.schemas.asking import DependsOut, ReadyOut, ShellPriceOut, TotalsOut, specification_field
from app.web.schemas.changes import ChangesOut, PlaceOut
from app.web.schemas.enquiries import HitOut
from app.web.schemas.paging import PagedOut, SearchIn
from rules.specification import Specification

SIZES = ("a4", "letter")


class PlaceIn(Base):
    country = Country(blank=True, load_default="")
    region = Line(most=80, load_default="")
    term = Line(most=80, load_default="")

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
    note = Text(most=LONGEST_TEXT, load_default="")
    lines = Many(Of(LineIn), load_default=list)
    extras = Many(Of(ExtraIn), load_default=list)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Draft:
        return Draft(**{**data, "lines": tuple(data["lines"]), "extras": tuple(data["extras"])})


class IssueIn(Base):
    """`replaces_yes`: it takes the place of a revision that the customer has accepted, on purpose."""

    replaces_yes = Flag(load_default=False)


class AcceptIn(Base):
    """`said_at`: when the customer said yes (now, where it is left out); `said_by`: who on his side."""

    said_by = Line(required=True, least=1)
    said_at = Moment(load_default=None)
    note = Text(most=LONGEST_TEXT, load_default="")


class DeclineIn(Base):
    """`said_at`: when the customer said no (now, where it is left out); `said_by`: who on his side, if known."""

    reason = OneOf(tuple(reason.value for reason in Reason), required=True)
    said_by = Text(load_default="")
    said_at = Moment(load_default=None)
    note = Text(most=LONGEST_TEXT, load_default="")


class QuotationSearchIn(SearchIn):
    state = OneOf(tuple(standing.value for standing in Standing))


class PaperIn(Base):
    language = OneOf(("en", "de"), load_default="en")
    size = OneOf(SIZES, load_default="a4")


class TakenOut(Base):
    choice = fields.String()
    origin = fields.String()


class SummaryOut(Base):
    """What the engine says of a line; `standing`: option → usual, chosen or forced; `net` of one shell before tax."""

    verdict = fields.String()
    verdicts = fields.List(fields.String())
    complete = fields.Boolean()
    open_questions = fields.List(fields.String())
    causes = fields.List(fields.List(fields.String()))
    depends = Of(DependsOut)
    settled = fields.Dict(keys=fields.String(), values=fields.String())
    standing = fields.Dict(keys=fields.String(), values=fields.String())
    ready = Of(ReadyOut, allow_none=True)
    price = Priced(ShellPriceOut)
    net = Amount()


class FromStockOut(Base):
    """The shell of stock that the line was when it was issued: `shell` its id there, held `until` then."""

    shell = fields.Integer()
    name = fields.String()
    until = fields.DateTime()
    finished = fields.Boolean()
    second = fields.Boolean()
    why = fields.String()


class LineOut(Base):
    """`answer` null where the line names what the book hasn't; `stock` null where it is made for the customer."""

    id = fields.Integer()
    quantity = fields.Integer()
    specification = fields.Dict(keys=fields.String(), values=Of(TakenOut))
    answer = Of(SummaryOut, allow_none=True)
    stock = Of(FromStockOut, allow_none=True)


class ExtraSoldOut(Base):
    extra = fields.String()
    label = Words()
    quantity = fields.Integer()


class PaperOut(Base):
    """`stored`: it is served byte for byte as it is; else it is drawn, and of an issued revision stored, when had.

    `own`: the one that issuing made for the customer, in his language and on his size of sheet.
    """

    language = fields.String()
    size = fields.String()
    url = fields.String()
    stored = fields.Boolean()
    own = fields.Boolean()


class OutcomeOut(Base):
    """How it ended, recorded when and by whom; what the customer said is null where a later revision superseded it."""

    state = fields.String()
    recorded_at = fields.DateTime()
    recorded_by = fields.String()
    said_at = fields.DateTime(allow_none=True)
    said_by = fields.String(allow_none=True)
    reason = fields.String(allow_none=True)
    note = fields.String(allow_none=True)


class EarlierYesOut(Base):
    """The customer accepted an earlier revision; `stands`: nothing has taken its place yet, issuing this would."""

    letter = fields.String()
    at = fields.DateTime()
    by = fields.String()
    stands = fields.Boolean()


class RevisionOut(Base):
    """`version` is what the ETag names; `valid_until`: the first moment at which it has lapsed.

    `changes`: since the last revision that left the house before this one; null: none did.
    """

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
    issued_by_name = fields.String(allow_none=True)
    valid_until = fields.DateTime(allow_none=True)
    price_list = fields.String()
    currency = fields.String()
    delivery_place = Of(PlaceOut)
    note = fields.String()
    lines = fields.List(Of(LineOut))
    extras = fields.List(Of(ExtraSoldOut))
    totals = Priced(TotalsOut)
    papers = fields.List(Of(PaperOut))
    outcome = Of(OutcomeOut, allow_none=True)
    earlier_yes = Of(EarlierYesOut, allow_none=True)
    changes = Of(ChangesOut, allow_none=True)


class HappeningOut(Base):
    """`what` is a sentence in the reader's language; `kind` its stable id; `by_name`: what the person is called."""

    at = fields.DateTime()
    by = fields.String()
    by_name = fields.String()
    kind = fields.String()
    what = fields.String()


class QuotationOut(Base):
    number = fields.String()
    enquiry = fields.Integer()
    state = fields.String()
    dealer = fields.String(allow_none=True)
    revisions = fields.List(Of(RevisionOut))
    history = fields.List(Of(HappeningOut))


class RowTotalOut(Base):
    """With tax; two amounts where a person must decide."""

    currency = fields.String()
    with_tax = fields.List(Amount())
    decided = fields.Boolean()


class QuotationRowOut(Base):
    """A row speaks of the revision `letter`: the last that left the house, the draft where none did.

    `draft`: the letter of a later draft. `total`: a draft's as it would be issued now, null where it can't be.
    `waits_for`: issue, answer, order; null: nothing any longer. `parts`, `approvals`: ids of the rules still to be met.
    `found_by`: which facts hold the words of `q`; empty where nothing was sought.
    """

    number = fields.String()
    letter = fields.String()
    state = fields.String()
    enquiry = fields.Integer()
    customer = fields.String()
    dealer = fields.String(allow_none=True)
    draft = fields.String(allow_none=True)
    earlier_yes = Of(EarlierYesOut, allow_none=True)
    valid_until = fields.DateTime(allow_none=True)
    updated_at = fields.DateTime()
    total = Priced(RowTotalOut)
    waits_for = fields.String(allow_none=True)
    parts = fields.List(fields.String())
    approvals = fields.List(fields.String())
    found_by = fields.List(Of(HitOut))


class QuotationsOut(PagedOut):
    """The last changed first."""

    quotations = fields.List(Of(QuotationRowOut))


class CodeOut(Base):
    number = fields.String()
    letter = fields.String()

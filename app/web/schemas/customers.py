"""Customers: found, looked at, merged, handed out, erased; and after how long erasing is proposed."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.customers.customer import Customer
from app.services.customers.erasing import MOST_AT_ONCE, MOST_MONTHS
from app.services.customers.merging import FIELDS
from app.web.fields import LARGEST_KEY, Base, Country, Line, Many, Of, OneOf, Text, Whole
from app.web.schemas.enquiries import CustomerOut, EnquiryOut, HitOut
from app.web.schemas.orders import OrderRowOut
from app.web.schemas.paging import PagedOut
from app.web.schemas.quotations import HappeningOut, QuotationRowOut


class AlikeIn(Base):
    """Somebody as he is being typed in; `id`: his own number, where he has one.

    It is sent as a body, so that no log of addresses holds it.
    """

    id = Whole(least=1, most=LARGEST_KEY, allow_none=True, load_default=None)
    name = Line(load_default="")
    country = Country(blank=True, load_default="")
    telephone = Text(load_default="")
    email = Text(load_default="")
    dealer = Text(most=80, allow_none=True, load_default=None)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Customer:
        return Customer(**data)


class MergeIn(Base):
    """`other` becomes this one. `take`: the fields whose value is the other's; `version`: of the other, as read."""

    other = Whole(required=True, least=1, most=LARGEST_KEY)
    version = Whole(required=True, least=1, most=10**9)
    take = Many(OneOf(FIELDS), load_default=list)


class ApartIn(Base):
    other = Whole(required=True, least=1, most=LARGEST_KEY)


class ErasureIn(Base):
    """`seen`: of the outlook that was looked at. `why`: kept; no name belongs in it."""

    why = Text(required=True, least=1)
    seen = Text(required=True, most=80)


class RetentionIn(Base):
    """null: nobody is proposed."""

    months = Whole(required=True, least=1, most=MOST_MONTHS, allow_none=True)


class EraseProposedIn(Base):
    """Those that were looked at: of these, whoever is still proposed is erased."""

    customers = Many(Whole(least=1, most=LARGEST_KEY), required=True, most=MOST_AT_ONCE)


class ErasedOut(Base):
    at = fields.DateTime()
    by = fields.String()
    why = fields.String()


class NumberedOut(Base):
    """`id` is the customer's number."""

    id = fields.Integer()
    customer = Of(CustomerOut)


class KnownOut(NumberedOut):
    """`version` counts the edits; it is what the ETag of his page names."""

    version = fields.Integer()


class CustomerRowOut(KnownOut):
    """`erased` null: nothing was erased."""

    erased = Of(ErasedOut, allow_none=True)
    found_by = fields.List(Of(HitOut))


class CustomersOut(PagedOut):
    """The last come first."""

    customers = fields.List(Of(CustomerRowOut))


class LikeOut(KnownOut):
    """`grounds`: telephone, email, name, near-name, name-abroad: the whole name, in another country."""

    grounds = fields.List(fields.String())


class AlikeOut(Base):
    """The likeliest first, at most five."""

    alike = fields.List(Of(LikeOut))


class FormerOut(NumberedOut):
    """Who was merged into the customer, as he was then."""


class HeldPaperOut(Base):
    """`sort`: quotation, difference-sheet, where-to-cut, or the kind of document."""

    sort = fields.String()
    number = fields.String()
    letter = fields.String()
    language = fields.String()
    size = fields.String()
    url = fields.String()


class CustomerPageOut(KnownOut):
    """`papers`: those that are stored, as they went out."""

    erased = Of(ErasedOut, allow_none=True)
    former = fields.List(Of(FormerOut))
    alike = fields.List(Of(LikeOut))
    enquiries = fields.List(Of(EnquiryOut))
    quotations = fields.List(Of(QuotationRowOut))
    orders = fields.List(Of(OrderRowOut))
    papers = fields.List(Of(HeldPaperOut))
    history = fields.List(Of(HappeningOut))


class ErasureGoesOut(Base):
    """Which: references, numbers, papers, bank details, letters. The particulars and all notes go besides."""

    enquiries = fields.List(fields.String())
    quotations = fields.List(fields.String())
    papers = fields.List(fields.String())
    photographs = fields.List(fields.String())
    bank = fields.List(fields.String())
    letters = fields.List(fields.String())


class ErasureStaysOut(Base):
    """Which stay as they went out, since an order follows them and invoices have to be kept."""

    quotations = fields.List(fields.String())
    photographs = fields.List(fields.String())
    orders = fields.List(fields.String())
    documents = fields.List(fields.String())


class OutlookOut(NumberedOut):
    """`seen` stands for exactly this and goes back with the deed; `why_stays`, `beyond`: to be read before it."""

    goes = Of(ErasureGoesOut)
    stays = Of(ErasureStaysOut)
    why_stays = fields.String()
    beyond = fields.String()
    seen = fields.String()


class ProposedOut(Base):
    """`alike`: another entry may be the same customer's, and stays when this one goes."""

    id = fields.Integer()
    name = fields.String()
    country = fields.String()
    dealer = fields.String(allow_none=True)
    moved = fields.DateTime()
    alike = fields.Boolean()


class RetentionOut(PagedOut):
    """`months` null: nobody has said after how long. `left`: of those asked for, who was not erased."""

    months = fields.Integer(allow_none=True)
    due = fields.List(Of(ProposedOut))
    left = fields.List(fields.Integer())

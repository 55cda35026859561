"""Enquiries: the customer, his donor car in three pictures, what he wants by when."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.customers.customer import UNITS, Customer
from app.domain.quotations.enquiry import DonorCar, Intent, Picture, Source, Wish
from app.services.answering.checking import LONGEST_TEXT
from app.web.fields import LARGEST_KEY, Base, By, Country, Day, Flag, Line, Of, OneOf, QueryWhole, Text, Whole
from app.web.schemas.paging import PagedOut
from app.wording import LANGUAGES

SOURCES = tuple(source.value for source in Source)
INTENTS = tuple(intent.value for intent in Intent)


class CustomerIn(Base):
    """`dealer`: whose customer; a dealer's own is his, whatever stands here. `id`: of one who is known already."""

    id = Whole(least=1, most=LARGEST_KEY, allow_none=True, load_default=None)
    name = Line(required=True, least=1, most=200)
    trade = Flag(load_default=False)
    country = Country(blank=True, load_default="")
    language = OneOf(LANGUAGES, load_default="en")
    units = OneOf(UNITS, load_default="metric")
    telephone = Line(load_default="")
    email = Line(load_default="")
    address = Text(most=1000, load_default="")
    tax_number = Line(load_default="")
    dealer = Text(most=80, allow_none=True, load_default=None)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Customer:
        return Customer(**data)


class PictureIn(Base):
    """option → choice; `said_by` None: nobody has said so yet; `photograph`: of this enquiry, that he points to."""

    values = By(Text(most=80), load_default=dict)
    said_by = OneOf(SOURCES, allow_none=True, load_default=None)
    note = Text(most=1000, load_default="")
    photograph = Whole(least=1, most=LARGEST_KEY, allow_none=True, load_default=None)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Picture:
        said_by = data["said_by"]
        return Picture(**{**data, "said_by": Source(said_by) if said_by else None})


class DonorCarIn(Base):
    """`number_text` is kept as typed. `established`: somebody has confirmed series and number.

    `intent`: what is wanted of the shell against this car; null while nobody has asked.
    """

    number_text = Text(load_default="")
    series = Text(most=80, allow_none=True, load_default=None)
    number = Whole(least=0, most=10**9, allow_none=True, load_default=None)
    established = Flag(load_default=False)
    gearbox = Text(most=80, allow_none=True, load_default=None)
    built = Of(PictureIn, load_default=Picture)
    stands = Of(PictureIn, load_default=Picture)
    ordered = Of(PictureIn, load_default=Picture)
    intent = OneOf(INTENTS, allow_none=True, load_default=None)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> DonorCar:
        intent = data["intent"]
        return DonorCar(**{**data, "intent": Intent(intent) if intent else None})


class WishIn(Base):
    customer = Of(CustomerIn, required=True)
    donor = Of(DonorCarIn, load_default=DonorCar)
    wanted_by = Day(allow_none=True, load_default=None)
    note = Text(most=LONGEST_TEXT, load_default="")

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Wish:
        return Wish(**data)


class DonorElsewhereIn(Base):
    """`number` as typed; `enquiry`: the one at hand, whose own quotations are left out."""

    number = Text(required=True, most=200)
    enquiry = QueryWhole(least=1, most=LARGEST_KEY, load_default=None)


class CarQuotedOut(Base):
    """`letter`: of the last revision that left the house, of the draft where none did (`issued_at` null)."""

    number = fields.String()
    letter = fields.String()
    state = fields.String(attribute="standing.value")
    issued_at = fields.DateTime(allow_none=True)
    customer = fields.String()
    dealer = fields.String(allow_none=True)


class DonorElsewhereOut(Base):
    """The last issued first, at most twenty."""

    quotations = fields.List(Of(CarQuotedOut))


class CustomerOut(Base):
    id = fields.Integer()
    name = fields.String()
    trade = fields.Boolean()
    country = fields.String()
    language = fields.String()
    units = fields.String()
    telephone = fields.String()
    email = fields.String()
    address = fields.String()
    tax_number = fields.String()
    dealer = fields.String(allow_none=True)


class PictureOut(Base):
    values = fields.Dict(keys=fields.String(), values=fields.String())
    said_by = fields.Function(lambda picture: picture.said_by.value if picture.said_by else None)
    note = fields.String()
    photograph = fields.Integer(allow_none=True)


class DonorCarOut(Base):
    number_text = fields.String()
    series = fields.String(allow_none=True)
    number = fields.Integer(allow_none=True)
    established = fields.Boolean()
    gearbox = fields.String(allow_none=True)
    built = Of(PictureOut)
    stands = Of(PictureOut)
    ordered = Of(PictureOut)
    intent = fields.Function(
        lambda donor: donor.intent.value if donor.intent else None,
        metadata={"type": ["string", "null"], "enum": [*INTENTS, None]},
    )


class EnquiryOut(Base):
    """`version` is what the ETag names."""

    id = fields.Integer()
    reference = fields.String()
    customer = Of(CustomerOut)
    dealer = fields.String(allow_none=True)
    wanted_by = fields.Date(allow_none=True)
    note = fields.String()
    donor = Of(DonorCarOut)
    quotations = fields.List(fields.String())
    created_at = fields.DateTime()
    created_by = fields.String()
    updated_at = fields.DateTime()
    version = fields.Integer()


class HitOut(Base):
    """`sort`: name, former-name, telephone, email, donor, reference, quotation, order; `text` as it was typed."""

    sort = fields.String()
    text = fields.String()


class EnquiryRowOut(EnquiryOut):
    """`found_by`: which facts hold the words of `q`; empty where nothing was sought."""

    found_by = fields.List(Of(HitOut))


class EnquiriesOut(PagedOut):
    """The last changed first."""

    enquiries = fields.List(Of(EnquiryRowOut))

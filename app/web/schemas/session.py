"""Who is signed in, and what he may set for himself."""

from __future__ import annotations

from marshmallow import fields

from app.web.fields import Base, Flag, Of, OneOf, Text
from app.wording import LANGUAGES


class SignInIn(Base):
    name = Text(required=True, most=80)
    password = Text(required=True, most=200)


class SessionPatch(Base):
    prices_shown = Flag()
    language = OneOf(LANGUAGES)


class PersonOut(Base):
    name = fields.String()
    display_name = fields.String()
    role = fields.String()
    dealer = fields.String(allow_none=True)
    dealer_name = fields.String(allow_none=True)
    dealer_country = fields.String(allow_none=True)
    dealer_price_list = fields.String(allow_none=True)
    language = fields.String()


class SessionOut(Base):
    """`may`: what the role may do at all, action → sorts of thing; prices are never shown to a role that may not.

    `first_password`: he has to choose his own before he may do anything else.
    """

    person = Of(PersonOut)
    forgery_token = fields.String()
    prices_shown = fields.Boolean()
    prices_may_be_shown = fields.Boolean()
    first_password = fields.Boolean()
    may = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))
    now = fields.DateTime()
    firm = fields.Dict()

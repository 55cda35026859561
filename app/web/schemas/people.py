"""People as the manager keeps them, and what a person does to his own password."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.asking.members import LONGEST_NAME, LONGEST_PASSWORD
from app.domain.asking.people import Person, Role
from app.web.fields import Base, Of, OneOf, QueryWhole, Text
from app.web.schemas.quotations import HappeningOut
from app.wording import LANGUAGES


class PersonIn(Base):
    """`name`: what he signs in with; `dealer`: whose he is, for a dealer's people alone."""

    name = Text(required=True, least=1, most=LONGEST_NAME)
    display_name = Text(required=True, least=1)
    role = OneOf(tuple(Role), required=True)
    dealer = Text(load_default=None, allow_none=True)
    language = OneOf(LANGUAGES, load_default=LANGUAGES[0])

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Person:
        name, display = data["name"].strip(), data["display_name"].strip()
        return Person(name, display, Role(data["role"]), data["dealer"] or None, data["language"])


class OwnPasswordIn(Base):
    current = Text(required=True, least=1, most=LONGEST_PASSWORD)
    new = Text(required=True, least=1, most=LONGEST_PASSWORD)


class PageIn(Base):
    page = QueryWhole(least=1, most=100_000, load_default=1)


class MemberOut(Base):
    """`disabled_at` null: he may sign in. `first_password`: not changed for his own yet. `mine`: the reader himself."""

    name = fields.String()
    display_name = fields.String()
    role = fields.String()
    dealer = fields.String(allow_none=True)
    dealer_name = fields.String(allow_none=True)
    language = fields.String()
    added_at = fields.DateTime()
    disabled_at = fields.DateTime(allow_none=True)
    first_password = fields.Boolean()
    mine = fields.Boolean()


class MembersOut(Base):
    people = fields.List(Of(MemberOut))


class MemberToldOut(MemberOut):
    """`password`: a first one, in this answer and in no other; null where the same request had made it before."""

    password = fields.String(allow_none=True)


class DeedOut(HappeningOut):
    """`thing` and `of`: to what he did it, as in quotation, Q-2026-00042."""

    thing = fields.String()
    of = fields.String()


class MemberPageOut(MemberOut):
    """`history`: what was done to him; `deeds`: what he did, the last first, from `page` of 50."""

    history = fields.List(Of(HappeningOut))
    deeds = fields.List(Of(DeedOut))
    page = fields.Integer()
    more = fields.Boolean()


class TradeTermsIn(Base):
    """`discounts`: category → percent as decimal text, as in {"A": "12.5"}."""

    price_list = Text(required=True, least=1, most=20)
    discounts = fields.Dict(keys=Text(most=20), values=Text(most=20), required=True)
    why = Text(required=True, least=1)


class TradeTermsOut(Base):
    """`version`: what a change is made on, the ETag."""

    dealer = fields.String()
    name = fields.String()
    country = fields.String()
    price_list = fields.String()
    discounts = fields.Dict(keys=fields.String(), values=fields.String())
    version = fields.Integer()
    history = fields.List(Of(HappeningOut))


class TradeTermsListOut(Base):
    """`lists` and `categories`: what there is in the book in force."""

    dealers = fields.List(Of(TradeTermsOut))
    lists = fields.List(fields.String())
    categories = fields.List(fields.Dict())

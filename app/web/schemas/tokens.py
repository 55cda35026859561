"""Tokens of a dealer's own programs. The secret is written once, to who has just made it."""

from __future__ import annotations

from marshmallow import fields

from app.domain.asking.token import Scope
from app.services.people.letting_in import LONGEST_LABEL
from app.web.fields import Base, Day, Many, Of, OneOf, Text


class TokenIn(Base):
    """`label`: which program it is for; `expires_on`: the last day on which it lets in; left out: until revoked."""

    label = Text(required=True, most=LONGEST_LABEL)
    scopes = Many(OneOf(tuple(Scope)), required=True, most=len(Scope))
    expires_on = Day(load_default=None, allow_none=True)


class TokenOut(Base):
    """`state`: live, expired, revoked. `used_at`: when it last let its program in, to the minute; null: never yet."""

    id = fields.Integer()
    dealer = fields.String()
    dealer_name = fields.String()
    label = fields.String()
    scopes = fields.List(fields.String())
    state = fields.String()
    made_at = fields.DateTime()
    made_by_name = fields.String()
    expires_at = fields.DateTime(allow_none=True)
    used_at = fields.DateTime(allow_none=True)
    revoked_at = fields.DateTime(allow_none=True)
    revoked_by_name = fields.String(allow_none=True)


class TokenMadeOut(TokenOut):
    """`secret`: to be sent as `Authorization: Bearer …`; null where the same request had made the token before."""

    secret = fields.String(allow_none=True)


class TokensOut(Base):
    """The last made first, those that are revoked after the others; the manager sees every dealer's."""

    tokens = fields.List(Of(TokenOut))

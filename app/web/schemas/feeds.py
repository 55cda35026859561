"""Calendar feeds. The address is written once, to who has just made it."""

from __future__ import annotations

from marshmallow import fields

from app.services.planning.subscribing import LONGEST_LABEL
from app.web.fields import Base, Of, Text


class FeedIn(Base):
    """`label`: which calendar program it is for."""

    label = Text(required=True, most=LONGEST_LABEL)


class FeedOut(Base):
    """`used_at`: when it was last read, to the minute; null: never yet."""

    id = fields.Integer()
    label = fields.String()
    language = fields.String()
    live = fields.Boolean()
    made_at = fields.DateTime()
    made_by_name = fields.String()
    used_at = fields.DateTime(allow_none=True)
    revoked_at = fields.DateTime(allow_none=True)
    revoked_by_name = fields.String(allow_none=True)


class FeedMadeOut(FeedOut):
    """`address`: to be given to the program; null where the same request had made the feed before."""

    address = fields.String(allow_none=True)


class FeedsOut(Base):
    """The last made first, those that are revoked after the others; the manager sees everybody's."""

    feeds = fields.List(Of(FeedOut))

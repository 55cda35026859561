"""A list page by page: the key that asks for the next, and its address."""

from __future__ import annotations

from marshmallow import fields

from app.domain.paging import LONGEST_KEY
from app.web.fields import Base, Text


class PagedIn(Base):
    """`after`: the key of the page before, as its `next` has it; empty for the first page."""

    after = Text(most=LONGEST_KEY, load_default="")


class SearchIn(PagedIn):
    q = Text(load_default="")


class PagedOut(Base):
    """`next`: the address of the page that follows, on this desk; null where nothing follows."""

    next = fields.String(allow_none=True)

"""What was proved of a rule book, and what a change of book does. Counts are exact, as decimal digits."""

from __future__ import annotations

from typing import Any

from marshmallow import fields

from app.web.fields import Amount, Base, Of, OneOf, Words
from app.web.schemas.book import PriceListOut


def _made(**kwargs: Any) -> fields.Dict:
    """option → choice."""
    return fields.Dict(keys=fields.String(), values=fields.String(), **kwargs)


class SaidIn(Base):
    language = OneOf(("en", "de"), load_default=None, allow_none=True)


class PublishedOut(Base):
    number = fields.Integer()
    title = Words()
    published_at = fields.AwareDateTime(format="iso")
    valid_from = fields.AwareDateTime(format="iso")
    by = fields.String()
    note = fields.String()


class PublishedBooksOut(Base):
    """`current`: the number in force."""

    books = fields.List(Of(PublishedOut))
    current = fields.Integer()


class CountedOut(Base):
    option = fields.String()
    choice = fields.String()
    count = fields.String()
    outright = fields.String()


class FindingOut(Base):
    """`witness`: a whole shell that shows it, null where none can; `example` says it in a sentence.

    `weight`: fault, look (to look at, and it may be meant) or declared (the book itself declares the choice lost).
    """

    sort = fields.String()
    fault = fields.Boolean()
    weight = fields.String()
    about = fields.Dict(keys=fields.String(), metadata={"description": "Ids that it names, by what they are."})
    causes = fields.List(fields.List(fields.String()))
    witness = _made(allow_none=True)
    sentence = fields.String()
    example = fields.String(allow_none=True)


class ProofOut(Base):
    """`variants`: of structural choices alone; null where that was too large to count."""

    book = fields.Integer()
    tool_state = fields.Integer()
    sound = fields.Boolean()
    sentence = fields.String()
    remarks = fields.String()
    count = fields.String()
    outright = fields.String()
    variants = fields.String(allow_none=True)
    counts = fields.List(Of(CountedOut))
    capped = fields.Boolean()
    findings = fields.List(Of(FindingOut))


class StandardDonorOut(Base):
    series = fields.String(allow_none=True)
    number = fields.Integer(allow_none=True)
    gearbox = fields.String(allow_none=True)
    label = fields.String()


class StandardShellOut(Base):
    """`donor` null: of whatever car. `prices`: list → whole minor units; null where not priced, or while hidden."""

    keys = _made()
    donor = Of(StandardDonorOut, allow_none=True)
    specification = _made()
    needs = fields.List(fields.String())
    prices = fields.Dict(keys=fields.String(), values=Amount())


class BrokenShellOut(Base):
    """`causes`: rules that forbid it, each alone."""

    keys = _made()
    donor = Of(StandardDonorOut, allow_none=True)
    causes = fields.List(fields.String())


class StandardShellsOut(Base):
    book = fields.Integer()
    tool_state = fields.Integer()
    lists = fields.List(Of(PriceListOut))
    shells = fields.List(Of(StandardShellOut))
    broken = fields.List(Of(BrokenShellOut))


class ChoiceMovedOut(Base):
    option = fields.String()
    choice = fields.String()
    label = fields.String()
    lost = fields.String()
    gained = fields.String()


class MovedOut(Base):
    """Variants over the options `over`; lost = old − kept, gained = new − kept. `choices`: where any moved."""

    over = fields.List(fields.String())
    old = fields.String()
    new = fields.String()
    kept = fields.String()
    lost = fields.String()
    gained = fields.String()
    choices = fields.List(Of(ChoiceMovedOut))
    lost_examples = fields.List(_made())
    gained_examples = fields.List(_made())


class PriceMovedOut(Base):
    """`was` and `now` in whole minor units; null: not priced, or hidden."""

    line = fields.String()
    label = fields.String()
    list = fields.String()
    currency = fields.String()
    was = Amount()
    now = Amount()


class ComparisonOut(Base):
    """From book `against` to book `book`. `structure`: over structural options; null where too large to count."""

    book = fields.Integer()
    against = fields.Integer()
    tool_state = fields.Integer()
    sentences = fields.List(fields.String())
    whole = Of(MovedOut)
    structure = Of(MovedOut, allow_none=True)
    prices = fields.List(Of(PriceMovedOut))
    old_options = fields.List(fields.String())
    new_options = fields.List(fields.String())
    old_lines = fields.List(fields.String())
    new_lines = fields.List(fields.String())
    terms = fields.List(fields.String())

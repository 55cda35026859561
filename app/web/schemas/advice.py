"""Reasons, whys and alternatives: what is asked and what comes of it."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.web.fields import Amount, Base, Of, OneOf, Priced, Text
from app.web.schemas.asking import ORIGINS, AnswersIn, DependsOut, ReadyOut
from app.web.schemas.promises import ReadyRangeOut
from app.wording import LANGUAGES
from rules.explain.refusal import Sort
from rules.explain.why import Why


class AskedForIn(Base):
    option = Text(required=True, most=80)
    choice = Text(required=True, most=80)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> tuple[str, str]:
        return data["option"], data["choice"]


class AdviceIn(AnswersIn):
    """`language`: of the sentences; null: the reader's own."""

    language = OneOf(LANGUAGES, allow_none=True, load_default=None)


class WishedIn(AdviceIn):
    """`wish` takes the place of its option's answer; null: the answers themselves."""

    wish = Of(AskedForIn, allow_none=True, load_default=None)


class WhyIn(AdviceIn):
    option = Text(required=True, most=80)


class AskedForOut(Base):
    option = fields.String()
    choice = fields.String()


class GivenOut(Base):
    option = fields.String()
    choice = fields.String()
    origin = fields.String(metadata={"enum": list(ORIGINS)})


class AgainstOut(Base):
    """A rule, or a lost tool under its own id."""

    id = fields.String()
    sort = fields.String(metadata={"enum": ["rule", "tool"]})


class ReasonOut(Base):
    """Nothing in it can be dropped."""

    sort = fields.String(metadata={"enum": [sort.value for sort in Sort]})
    answers = fields.List(Of(GivenOut))
    rules = fields.List(Of(AgainstOut))
    sentence = fields.String()


class ReasonsOut(Base):
    """`stands` true: nothing is refused. `capped`: there are more reasons than are listed."""

    wish = Of(AskedForOut, allow_none=True)
    stands = fields.Boolean()
    capped = fields.Boolean()
    sentence = fields.String()
    reasons = fields.List(Of(ReasonOut))


class DonorToldOut(Base):
    """A fact of the donor car that told; `holds` null: not established."""

    fact = fields.String(metadata={"enum": ["number", "series", "gearbox"]})
    holds = fields.Boolean(allow_none=True)
    series = fields.List(fields.String())
    low = fields.Integer(allow_none=True)
    high = fields.Integer(allow_none=True)
    gearboxes = fields.List(fields.String())


class OriginalOut(Base):
    """Which of series, market and body made a choice usual, and which facts of the donor car."""

    answers = fields.List(Of(AskedForOut))
    donor = fields.List(Of(DonorToldOut))


class WhyOut(Base):
    option = fields.String()
    choice = fields.String(allow_none=True)
    sort = fields.String(metadata={"enum": [why.value for why in Why]})
    answers = fields.List(Of(GivenOut))
    rules = fields.List(Of(AgainstOut))
    usual = Of(OriginalOut, allow_none=True)
    sentence = fields.String()


#: `from` is a word of the language, so the class is not written out.
ChangeOut = Base.from_dict(
    {
        "option": fields.String(),
        "from": fields.String(),
        "to": fields.String(),
        "origin": fields.String(metadata={"enum": list(ORIGINS)}),
        "forced": fields.Boolean(),
    },
    name="ChangeOut",
)


class AlsoOut(Base):
    """Against alternative number `beside`, from 0: `options` change as well, `sheds` are parts and approvals spared."""

    beside = fields.Integer()
    options = fields.List(fields.String())
    sheds = fields.List(fields.String())


class WorthOut(Base):
    """Of `quantity` shells: `net` before tax; `with_tax` null where no one tax case is decided."""

    net = Amount()
    with_tax = Amount()


class DifferenceOut(WorthOut):
    """Less the same shells with the answers as they were."""

    sentence = fields.String()


class TakenUpOut(Base):
    choice = fields.String()
    origin = fields.String(metadata={"enum": list(ORIGINS)})


class AlternativeOut(Base):
    """`specification` is what to put in place of the one asked about.

    `stands`: it takes the wish back, all is as it was. `beside_first`, `days_beside_first`: against number 1, where
    what was asked can't be built; null on number 1 itself and where the differences are against what stood. `ready`: of
    what is settled with it, were a slot free; `date`: with the slots of this moment, null where no day can be named.
    """

    changes = fields.List(Of(ChangeOut))
    also_changes = fields.List(Of(AlsoOut))
    fills = fields.Boolean()
    stands = fields.Boolean()
    verdict = fields.String()
    verdicts = fields.List(fields.String())
    price = Priced(WorthOut)
    difference = Priced(DifferenceOut)
    beside_first = Priced(WorthOut)
    days_difference = fields.Integer()
    days_beside_first = fields.Integer(allow_none=True)
    ready = Of(ReadyOut, allow_none=True)
    date = Of(ReadyRangeOut, allow_none=True)
    gains = Of(DependsOut)
    sheds = Of(DependsOut)
    sentence = fields.String()
    specification = fields.Dict(keys=fields.String(), values=Of(TakenUpOut))


class AlternativesOut(Base):
    """`verdict` of the answers with the wish among them; where they stand outright both lists are empty.

    `held`: the answers before the wish can be built, and `difference` and `days_difference` are against them.
    """

    wish = Of(AskedForOut, allow_none=True)
    verdict = fields.String()
    verdicts = fields.List(fields.String())
    currency = fields.String()
    held = fields.Boolean()
    sentence = fields.String()
    alternatives = fields.List(Of(AlternativeOut))
    keep = fields.List(Of(AlternativeOut))

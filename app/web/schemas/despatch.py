"""Shells on their way out: how each is packed, what keeps it, its papers; dealers' credit; export terms."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from app.domain.despatch.despatch import INCOTERMS, Package, Packing, Term, Trade
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT
from app.web.fields import Amount, Base, Country, Day, Flag, Many, Of, OneOf, Text, Whole, Words
from app.web.schemas.orders import MOST_MONEY
from app.web.schemas.quotations import PaperOut
from app.web.schemas.signing import SignatureIn

#: More than any lorry takes: mm, kg.
LONGEST, HEAVIEST = 20_000, 20_000


class PackageIn(Base):
    """One piece that is lifted: sizes in mm, gross mass in kg as weighed; `timber`: it has any."""

    kind = Text(required=True, least=1, most=LONGEST_LINE)
    length = Whole(required=True, least=1, most=LONGEST)
    width = Whole(required=True, least=1, most=LONGEST)
    height = Whole(required=True, least=1, most=LONGEST)
    mass = Whole(required=True, least=1, most=HEAVIEST)
    timber = Flag(load_default=False)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Package:
        return Package(**data)


class DeliveryTermIn(Base):
    """An Incoterms 2020 rule with its named place; both empty where none is agreed."""

    rule = OneOf(("", *INCOTERMS), load_default="")
    place = Text(most=LONGEST_LINE, load_default="")

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Term:
        return Term(data["rule"], data["place"].strip())


class PackingIn(Base):
    """`net_mass`: of the shell itself, kg; `loose`, `returned`, `consignee`: one line each."""

    packages = Many(Of(PackageIn), required=True, most=50)
    net_mass = Whole(required=True, least=1, most=HEAVIEST)
    loose = Many(Text(most=LONGEST_LINE), load_default=list)
    returned = Many(Text(most=LONGEST_LINE), load_default=list)
    carrier = Text(most=LONGEST_LINE, load_default="")
    consignee = Many(Text(most=LONGEST_LINE), load_default=list, most=8)
    term = Of(DeliveryTermIn, load_default=Term)
    timber_mark = Text(most=LONGEST_LINE, load_default="")
    evidence = Text(most=LONGEST_TEXT, load_default="")

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Packing:
        lists = ("loose", "returned", "consignee")
        told = {name: tuple(line.strip() for line in data[name] if line.strip()) for name in lists}
        return Packing(**{**data, **told, "packages": tuple(data["packages"])})


class DespatchIn(SignatureIn):
    """Whoever saw it go signs."""


class PackageOut(Base):
    kind = fields.String()
    length = fields.Integer()
    width = fields.Integer()
    height = fields.Integer()
    mass = fields.Integer()
    timber = fields.Boolean()


class DeliveryTermOut(Base):
    rule = fields.String()
    place = fields.String()


class PackingOut(Base):
    packages = fields.List(Of(PackageOut))
    net_mass = fields.Integer()
    gross_mass = fields.Integer()
    loose = fields.List(fields.String())
    returned = fields.List(fields.String())
    carrier = fields.String()
    consignee = fields.List(fields.String())
    term = Of(DeliveryTermOut)
    timber_mark = fields.String()
    evidence = fields.String()


class PackingProposalOut(Base):
    """`into`: `loose` or `returned`; `line`: as that list would have it; `origin`: from which record it comes.

    `what` it is in the book's words; `tag`: of the customer's part, `day`: when it came or was judged; `count`: pieces.
    `sure`: it is written in at first.
    """

    into = fields.String()
    origin = fields.String()
    line = fields.String()
    what = Words()
    tag = fields.String()
    day = fields.Date(allow_none=True)
    count = fields.Integer()
    sure = fields.Boolean()


class PackingProposalsOut(Base):
    proposals = fields.List(Of(PackingProposalOut))


class KeepsOut(Base):
    """`what` keeps it in the house, and what to do about it, in a sentence."""

    what = fields.String()
    says = fields.String()


class DespatchedOut(Base):
    number = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    signed_name = fields.String()


class ShellPaperOut(Base):
    """`paper`: which of the papers that go with a shell; `papers`: each language and size that it can be had in."""

    paper = fields.String()
    papers = fields.List(Of(PaperOut))


class ConcededOut(Base):
    """A concession that was granted: its key, what it is about, and the day on which it was granted."""

    id = fields.Integer()
    says = fields.String()
    day = fields.Date()


class ExportEvidenceIn(Base):
    """`what` shows that it left the country; held since `day`."""

    what = Text(required=True, least=1, most=LONGEST_TEXT)
    day = Day(required=True)


class EvidenceWithdrawnIn(Base):
    why = Text(required=True, least=1, most=LONGEST_TEXT)


class EvidenceSaidOut(Base):
    """`day`: held since then; null: what was recorded before is no evidence, and `what` says why."""

    what = fields.String()
    day = fields.Date(allow_none=True)
    at = fields.DateTime()
    by_name = fields.String()


class ExportEvidenceOut(Base):
    """`stands`: `awaited`, `overdue`, `held` or `held-late`, in a sentence in `says`; `due`: the last day.

    `said`: all that was recorded, the last word counts.
    """

    due = fields.Date()
    stands = fields.String()
    says = fields.String()
    said = fields.List(Of(EvidenceSaidOut))


class LeavingOut(Base):
    """`place` in the order, from 1; `due`: what its invoice leaves to pay, `open` what of that nobody has paid.

    `cleared`: its balance keeps it no longer; `on_credit`: because its dealer may owe it. `keeps`: all that keeps it.
    `export_evidence`: for the office, of a shell that left as an export; else null.
    """

    id = fields.Integer()
    order = fields.String()
    customer = fields.String()
    place = fields.Integer()
    of = fields.Integer()
    name = Words()
    serial = fields.String(allow_none=True)
    state = fields.String()
    currency = fields.String()
    invoice = fields.String(allow_none=True)
    due = Amount()
    open = Amount()
    cleared = fields.Boolean()
    on_credit = fields.Boolean()
    abroad = fields.Boolean()
    untaxed = fields.Boolean()
    overcoat_by = fields.Date(allow_none=True)
    keeps = fields.List(Of(KeepsOut))
    conceded = fields.List(Of(ConcededOut))
    packing = Of(PackingOut, allow_none=True)
    despatched = Of(DespatchedOut, allow_none=True)
    export_evidence = Of(ExportEvidenceOut, allow_none=True)
    papers = fields.List(Of(ShellPaperOut))
    record = fields.String(allow_none=True)


class LeavingShellsOut(Base):
    shells = fields.List(Of(LeavingOut))


class RecordOut(Base):
    """`text` as it was kept, `sha256` of its UTF-8 bytes as it was worked out then; `whole`: they still agree."""

    text = fields.String()
    sha256 = fields.String()
    whole = fields.Boolean()


class DealerCreditIn(Base):
    """`limit` in whole minor units of `currency`, with tax, from `day` on; 0 ends it."""

    limit = Whole(required=True, least=0, most=MOST_MONEY)
    currency = Text(required=True, least=3, most=3)
    day = Day(required=True)
    why = Text(required=True, least=1)


class DealerCreditOut(Base):
    limit = Amount()
    currency = fields.String()
    day = fields.Date()
    why = fields.String()
    at = fields.DateTime()
    by_name = fields.String()


class DealerCreditsOut(Base):
    """Of one dealer, in the order in which they were said; the last whose day has come holds."""

    dealer = fields.String()
    credits = fields.List(Of(DealerCreditOut))


class ExportTermsIn(Base):
    """`hs_code`: of the Harmonized System; `damage_days`: within how many days damage must be told."""

    hs_code = Text(required=True, least=4, most=20)
    origin = Country(required=True)
    damage_days = Whole(required=True, least=1, most=60)

    @post_load
    def make(self, data: dict[str, Any], **_: Any) -> Trade:
        return Trade(**data)


class ExportTermsOut(Base):
    hs_code = fields.String()
    origin = fields.String()
    damage_days = fields.Integer()

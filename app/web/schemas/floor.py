"""Shells in the workshop and personal codes. No amount is among them."""

from __future__ import annotations

from marshmallow import fields

from app.services.answering.checking import LONGEST_TEXT
from app.web.fields import Base, Of, OneOf, Text, Words
from app.web.schemas.floor_record import ConcessionOut, ReworkOut, SubjectOut, WeldZoneOut
from app.web.schemas.quotations import PaperOut
from app.web.schemas.signing import SignatureIn


class ConfirmIn(Base):
    """`why`: only where another confirmed order has the same donor car, and the manager confirms all the same."""

    why = Text(load_default="", most=LONGEST_TEXT)


class SignedIn(SignatureIn):
    """A stage done; `deed` begun is of paint alone."""

    deed = OneOf(("done", "begun"), load_default="done")
    stage = Text(required=True, least=1)


class ShellWhyIn(Base):
    why = Text(required=True, least=1, most=LONGEST_TEXT)


class CodeIn(Base):
    """Four to eight digits; never the password."""

    code = Text(required=True, least=1, most=40)


class LackOut(Base):
    """`what` lacks before the order is confirmed, and what to do, in a sentence."""

    what = fields.String()
    rule = fields.String()
    says = fields.String()


class ConfirmationOut(Base):
    """`letter`: of the revision that was confirmed; `why` the manager's, for a second order of one donor car."""

    letter = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    why = fields.String()
    papers = fields.List(Of(PaperOut))


class MayChangeOut(Base):
    """How a change is `taken` now (free, priced, approval, no), and from which point (`next`) it is taken otherwise."""

    id = fields.String()
    label = Words()
    taken = fields.String()
    next = fields.String(allow_none=True)
    next_taken = fields.String(allow_none=True)


class StopOut(Base):
    what = fields.String()
    of = fields.String()
    says = fields.String()


class StageOut(Base):
    """A stage of the shell's route: through, at (where it is), or ahead; `start` and `end` as planned."""

    stage = fields.String()
    label = Words()
    work = fields.String()
    stands = fields.String()
    bays = fields.Integer(allow_none=True)
    start = fields.Date(allow_none=True)
    end = fields.Date(allow_none=True)


class ShellDeedOut(Base):
    deed = fields.String()
    stage = fields.String(allow_none=True)
    why = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    signed_name = fields.String(allow_none=True)


class SheetOut(Base):
    """The revision of its build sheet that a shell is built by, of which day, and the path of its PDF."""

    revision = fields.Integer()
    day = fields.Date()
    path = fields.String()


class FloorShellOut(Base):
    """`may`: the deeds that can be done to it as it stands. `replaced`: serials that were rejected in its place.

    `zones`: its welds with who made them, in build order. `subjects`: all of it that a concession or
    rework can be about.
    """

    id = fields.Integer()
    order = fields.String()
    letter = fields.String()
    shell = fields.Integer()
    of = fields.Integer()
    name = Words()
    serial = fields.String(allow_none=True)
    sheet = Of(SheetOut, allow_none=True)
    state = fields.String()
    stage = fields.String(allow_none=True)
    begins = fields.Boolean()
    route = fields.List(Of(StageOut))
    stops = fields.List(Of(StopOut))
    unchecked = fields.Integer()
    coat_due = fields.Boolean()
    held = fields.String(allow_none=True)
    may = fields.List(fields.String())
    changes = fields.List(Of(MayChangeOut))
    deeds = fields.List(Of(ShellDeedOut))
    replaced = fields.List(fields.String())
    zones = fields.List(Of(WeldZoneOut))
    concessions = fields.List(Of(ConcessionOut))
    reworks = fields.List(Of(ReworkOut))
    subjects = fields.List(fields.String())


class FloorOut(Base):
    """`subjects`: what the shells' own name, each once, in words."""

    shells = fields.List(Of(FloorShellOut))
    subjects = fields.List(Of(SubjectOut))


class SignerOut(Base):
    name = fields.String()
    display_name = fields.String()
    role = fields.String()
    has_code = fields.Boolean()


class SignersOut(Base):
    signers = fields.List(Of(SignerOut))

"""Welds and who made them, concessions, rework. No amount is among them."""

from __future__ import annotations

from marshmallow import fields

from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT
from app.services.floor.reworking import MOST_MINUTES
from app.web.fields import Base, Day, Many, Of, OneOf, Text, Whole, Words
from app.web.schemas.signing import SignatureIn

MOST_ZONES = 200


class WeldsIn(SignatureIn):
    """`zones`: all of one signing; `by` welded them on `day` (none: today) and signs with his personal `code`."""

    zones = Many(Text(required=True, least=1), required=True, most=MOST_ZONES)
    day = Day(load_default=None)


class ConcessionIn(Base):
    """`subject` as in `gap:POINT`; `measured` and `limit` in words, with their unit."""

    subject = Text(required=True, least=1)
    why = Text(required=True, least=1, most=LONGEST_TEXT)
    measured = Text(load_default="", most=LONGEST_LINE)
    limit = Text(load_default="", most=LONGEST_LINE)


class ConcessionAnswerIn(Base):
    answer = OneOf(("granted", "refused"), required=True)
    reason = Text(required=True, least=1, most=LONGEST_TEXT)
    day = Day(load_default=None)


class ReworkIn(Base):
    """`what` is to be mended about `subject`, at `stage`."""

    subject = Text(required=True, least=1)
    what = Text(required=True, least=1, most=LONGEST_TEXT)
    stage = Text(required=True, least=1)


class MendedIn(SignatureIn):
    """`by` mended it and signs with his personal `code`; `minutes` only if he knows."""

    minutes = Whole(load_default=None, allow_none=True, least=0, most=MOST_MINUTES)
    note = Text(load_default="", most=LONGEST_TEXT)


class WeldOut(Base):
    welder = fields.String()
    welder_name = fields.String()
    day = fields.Date()


class WeldZoneOut(Base):
    """`welds`: how many welds it has; `signed`: who welded it, nobody yet where it is empty."""

    zone = fields.String()
    label = Words()
    stage = fields.String()
    welds = fields.Integer()
    signed = fields.List(Of(WeldOut))


class SinceOut(Base):
    """`of`: which finding, in words; `says`: how it was when it was asked for, and how it is now."""

    finding = fields.String()
    of = fields.String()
    limit = fields.String()
    says = fields.String()


class ConcessionOut(Base):
    """`standing`: asked, granted, refused. `says`: what it is about, in words.

    `since`: what was measured after it was asked for and a yes wouldn't cover; none once it is answered.
    """

    id = fields.Integer()
    subject = fields.String()
    says = fields.String()
    why = fields.String()
    measured = fields.String()
    limit = fields.String()
    asked_by = fields.String()
    asked_by_name = fields.String()
    asked_at = fields.DateTime()
    standing = fields.String()
    answered_by_name = fields.String(allow_none=True)
    answered_on = fields.Date(allow_none=True)
    reason = fields.String(allow_none=True)
    since = fields.List(Of(SinceOut))


class SubjectOut(Base):
    """`about`: its sort, in words; `says`: all of it."""

    subject = fields.String()
    about = fields.String()
    says = fields.String()


class WaitingConcessionOut(ConcessionOut):
    """With the shell that it is of."""

    shell = fields.Integer()
    order = fields.String()
    serial = fields.String(allow_none=True)
    name = Words()


class WaitingConcessionsOut(Base):
    concessions = fields.List(Of(WaitingConcessionOut))


class ReworkOut(Base):
    """`standing`: open, mended, withdrawn; `ended_by_name` mended or withdrew it."""

    id = fields.Integer()
    subject = fields.String()
    says = fields.String()
    what = fields.String()
    stage = fields.String()
    found_by_name = fields.String()
    found_at = fields.DateTime()
    standing = fields.String()
    ended_by_name = fields.String(allow_none=True)
    ended_on = fields.Date(allow_none=True)
    minutes = fields.Integer(allow_none=True)
    note = fields.String(allow_none=True)

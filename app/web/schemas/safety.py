"""Safety faults: what may be at fault, what follows from saying so, whom it stops, and whom to write to."""

from __future__ import annotations

from marshmallow import fields

from app.domain.floor.safety import Subject
from app.services.answering.checking import LONGEST_TEXT
from app.web.fields import Base, By, Day, Of, OneOf, Text, Words
from app.web.schemas.tools import TouchedGroupOut

SUBJECTS = tuple(subject.value for subject in Subject)


class AtFaultIn(Base):
    """`of`: `option.choice`, the id of a tool, operation or zone, or `first-last`, numbers of rule books.

    `since`: what was done on that day or later may be at fault; left out: from the first shell.
    """

    subject = OneOf(SUBJECTS, required=True)
    of = Text(required=True, least=1, most=200)
    since = Day(allow_none=True, load_default=None)


class SafetyFaultIn(AtFaultIn):
    """`why`: language → what is wrong, as owners will read it; in one language at least."""

    why = By(fields.String(), required=True)


class SafetyLiftIn(Base):
    why = Text(required=True, least=1, most=LONGEST_TEXT)


class SafetySubjectOut(Base):
    subject = fields.String()
    of = fields.String()
    label = Words()


class SafetySubjectsOut(Base):
    """`last_book`: the number of the last rule book; `languages`: in which letters are written."""

    subjects = fields.List(Of(SafetySubjectOut))
    last_book = fields.Integer()
    languages = fields.List(fields.String())


class SafetyShellOut(Base):
    """`stage_label`: the stage that it is at; null before release and where nothing is left to do."""

    id = fields.Integer()
    serial = fields.String(allow_none=True)
    order = fields.String()
    shell = fields.Integer()
    name = Words()
    state = fields.String()
    stage_label = Words(allow_none=True)


class SafetyShellsOut(Base):
    """By how far each has come."""

    not_released = fields.List(Of(SafetyShellOut))
    stopped = fields.List(Of(SafetyShellOut))
    despatched = fields.List(Of(SafetyShellOut))


class SafetyConsequencesOut(Base):
    shells = Of(SafetyShellsOut)
    touched = fields.List(Of(TouchedGroupOut))


class SafetyLiftedOut(Base):
    at = fields.DateTime()
    by_name = fields.String()
    why = fields.String()


class SafetyFaultOut(Base):
    """`lifted` null: it stands."""

    id = fields.Integer()
    subject = fields.String()
    of = fields.String()
    label = Words()
    since = fields.Date(allow_none=True)
    why = Words()
    at = fields.DateTime()
    by_name = fields.String()
    lifted = Of(SafetyLiftedOut, allow_none=True)


class SafetyFaultsOut(Base):
    faults = fields.List(Of(SafetyFaultOut))


class SafetyFaultWholeOut(SafetyFaultOut):
    shells = Of(SafetyShellsOut)


class SafetyWrittenOut(Base):
    at = fields.DateTime()
    by_name = fields.String()


class SafetyOwnerOut(Base):
    """A despatched shell and who is to be written to. `untold`: the letter says what is wrong in another language."""

    id = fields.Integer()
    serial = fields.String()
    order = fields.String()
    despatched = fields.Date()
    customer = fields.String()
    country = fields.String()
    email = fields.String()
    telephone = fields.String()
    dealer_name = fields.String(allow_none=True)
    language = fields.String()
    untold = fields.Boolean()
    subject = fields.String()
    text = fields.String()
    written = Of(SafetyWrittenOut, allow_none=True)


class SafetyOwnersOut(Base):
    owners = fields.List(Of(SafetyOwnerOut))

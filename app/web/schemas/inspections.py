"""Inspections, readings, gauges, verdicts. No amount is among them."""

from __future__ import annotations

from marshmallow import fields

from app.domain.inspection.inspection import GaugeSort, Verdict
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT
from app.web.fields import LARGEST_KEY, Base, Day, Many, Moment, Of, OneOf, Text, Whole, Words
from app.web.schemas.drawing import DrawingOut
from app.web.schemas.floor_record import ConcessionOut, ReworkOut
from app.web.schemas.signing import SignatureIn
from rules.inspection.subject import Phase

#: A tablet's whole queue: several times as much as a shell has points.
MOST_READINGS = 1000


class InspectionsIn(Base):
    """`serial`: that one shell, however it stands; left out: all that wait."""

    serial = Text(load_default="", most=40)


class ReadingIn(Base):
    """`key`: made by the tablet; sent twice it is one reading. `value` with a decimal point; `at`: when it was taken.

    `gauge`: the id of its calibration, for what is measured.
    """

    key = Text(required=True, least=8, most=80)
    subject = Text(required=True, least=1, most=160)
    value = Text(required=True, least=1, most=40)
    unit = Text(load_default="", most=8)
    gauge = Whole(least=1, most=LARGEST_KEY, load_default=None, allow_none=True)
    at = Moment(required=True)


class ReadingsIn(Base):
    readings = Many(Of(ReadingIn), required=True, most=MOST_READINGS)


class VerdictIn(SignatureIn):
    """`by` signs with his `code`; `second_by` beside him, where he welded any of it. `stage`: to send it back to."""

    phase = OneOf(tuple(one.value for one in Phase), required=True)
    verdict = OneOf(tuple(one.value for one in Verdict), required=True)
    why = Text(load_default="", most=LONGEST_TEXT)
    stage = Text(load_default="", most=60)
    second_by = Text(load_default="")
    second_code = Text(load_default="", most=40)


class PrimingIn(Base):
    day = Day(required=True)


class AcknowledgedIn(Base):
    """Who takes it after its overcoat date all the same, and what he wrote."""

    said_by = Text(required=True, least=1, most=LONGEST_LINE)
    words = Text(required=True, least=1, most=LONGEST_TEXT)


class SubjectPhotographIn(Base):
    subject = Text(required=True, least=1, most=160)
    note = Text(load_default="", most=LONGEST_LINE)


class RecordIn(Base):
    """`language`: the workshop's own where it is left out; `size`: a4 or letter."""

    language = Text(load_default="")
    size = Text(load_default="a4")


class GaugeIn(Base):
    """`mark`: what is engraved on it. Calibrated on `calibrated`, good up to and including `due`."""

    mark = Text(required=True, least=1, most=LONGEST_LINE)
    sort = OneOf(tuple(one.value for one in GaugeSort), required=True)
    calibrated = Day(required=True)
    due = Day(required=True)


class GaugeOut(Base):
    id = fields.Integer()
    mark = fields.String()
    sort = fields.String()
    calibrated = fields.Date()
    due = fields.Date()
    good = fields.Boolean()


class GaugesOut(Base):
    gauges = fields.List(Of(GaugeOut))


class VerdictOut(Base):
    phase = fields.String()
    verdict = fields.String()
    why = fields.String()
    at = fields.DateTime()
    signed_name = fields.String()
    second_name = fields.String(allow_none=True)


class PhaseOut(Base):
    """`of`: how many subjects; `lacks`: what keeps it from passing by `verdict`; `passed` null: it has not."""

    phase = fields.String()
    of = fields.Integer()
    unread = fields.Integer()
    failed = fields.Integer()
    conceded = fields.Integer()
    lacks = fields.List(fields.String())
    verdict = fields.String()
    passed = Of(VerdictOut, allow_none=True)


class InspectionRowOut(Base):
    """`due`: it is at its inspection now; `phase`: the one that is looked at next."""

    shell = fields.Integer()
    serial = fields.String()
    order = fields.String()
    name = Words()
    state = fields.String()
    due = fields.Boolean()
    phase = fields.String()
    phases = fields.List(Of(PhaseOut))


class InspectionsOut(Base):
    inspections = fields.List(Of(InspectionRowOut))


class ReadOut(Base):
    value = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    gauge = fields.String(allow_none=True)
    due = fields.Date(allow_none=True)


class VoidOut(ReadOut):
    """`why`: gauge (out of date), mended, film."""

    why = fields.String()


class LookedOut(Base):
    """A subject. `told`: measure, count, yes, found, class or colour; `mark`: within, below-aim, out or unread.

    `number`: on the gap map; `outgrown`: why what was conceded of it doesn't hold as it is now, null where nothing was
    or it does; `about`: what a concession or rework for it is of; `void`: a reading that doesn't count;
    `earlier`: the others that were taken.
    """

    id = fields.String()
    kind = fields.String()
    phase = fields.String()
    says = fields.String()
    label = fields.String()
    number = fields.Integer(allow_none=True)
    told = fields.String()
    unit = fields.String()
    gauge_sort = fields.String(allow_none=True)
    limit = fields.String()
    mark = fields.String()
    conceded = fields.Boolean()
    outgrown = fields.String(allow_none=True)
    about = fields.String()
    measured = fields.String()
    reading = Of(ReadOut, allow_none=True)
    void = Of(VoidOut, allow_none=True)
    earlier = fields.List(Of(ReadOut))


class ComparedOut(Base):
    """`found`, `should_be`: as a concession for it says what was measured, and its limit."""

    id = fields.String()
    kind = fields.String()
    phase = fields.String()
    says = fields.String()
    mark = fields.String()
    conceded = fields.Boolean()
    outgrown = fields.String(allow_none=True)
    about = fields.String()
    found = fields.String()
    should_be = fields.String()


class PredictedOut(Base):
    """`found`, `should_be`: as a concession for it says what was worked out, and its limit."""

    id = fields.String()
    point = fields.String()
    says = fields.String()
    mark = fields.String()
    conceded = fields.Boolean()
    outgrown = fields.String(allow_none=True)
    about = fields.String()
    found = fields.String()
    should_be = fields.String()


class DepartsOut(Base):
    option = fields.String()
    choice = fields.String()
    usual = fields.String()


class WelderOut(Base):
    name = fields.String()
    zones = fields.List(fields.String())


class SubjectPhotographOut(Base):
    id = fields.Integer()
    subject = fields.String()
    note = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    url = fields.String()
    small_url = fields.String()


class BackToOut(Base):
    stage = fields.String()
    label = fields.String()


class PrimingOut(Base):
    day = fields.Date()
    by_name = fields.String()


class OvercoatOut(Base):
    """`by`: the last day; `stops`: nothing leaves, since it is past and nobody acknowledged it in writing."""

    by = fields.Date()
    past = fields.Boolean()
    stops = fields.Boolean()
    words = fields.String(allow_none=True)
    said_by = fields.String(allow_none=True)


class InspectionOut(InspectionRowOut):
    """`sheet`: the revision of the build sheet that holds. `stages`: to which it may be sent back."""

    sheet = fields.Integer(allow_none=True)
    departures = fields.List(Of(DepartsOut))
    subjects = fields.List(Of(LookedOut))
    compared = fields.List(Of(ComparedOut))
    predicted = fields.List(Of(PredictedOut))
    drawing = Of(DrawingOut)
    gauges = fields.List(Of(GaugeOut))
    verdicts = fields.List(Of(VerdictOut))
    welders = fields.List(Of(WelderOut))
    photographs = fields.List(Of(SubjectPhotographOut))
    stages = fields.List(Of(BackToOut))
    concessions = fields.List(Of(ConcessionOut))
    reworks = fields.List(Of(ReworkOut))
    coat = Words(allow_none=True)
    painted = fields.Boolean()
    priming = Of(PrimingOut, allow_none=True)
    overcoat = Of(OvercoatOut, allow_none=True)

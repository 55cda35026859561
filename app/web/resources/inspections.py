"""Inspections of shells: opened from the serial, read point by point, judged and signed; gauges. No money."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import request

from app.domain.asking.people import Action, Sort
from app.domain.inspection.inspection import GaugeSort, Verdict
from app.services.answering.pricing import day_of
from app.services.books import publishing
from app.services.inspection import inspecting, measuring, overcoating, passing, photographing_subjects, recording
from app.services.inspection.passing import Said
from app.store.inspections import Taken
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.files import JPEG, PDF, PICTURES, jpeg, pdf, sent
from app.web.gate import takes_file
from app.web.guard import does
from app.web.resources.floor import SHELL
from app.web.schemas.inspections import (
    AcknowledgedIn,
    GaugeIn,
    GaugesOut,
    InspectionOut,
    InspectionsIn,
    InspectionsOut,
    PrimingIn,
    ReadingsIn,
    RecordIn,
    SubjectPhotographIn,
    VerdictIn,
)
from app.web.schemas.photographs import PhotographFileIn
from app.web.views.inspected import gauge_view, inspection_view, row_view
from rules.inspection.subject import Phase

OF = f"{SHELL}/inspection"

blp = resource("inspections", "What was read of each shell, what that says, and by whose word it goes on.")


@blp.route("/inspections", methods=["GET"])
@does(Action.READ, Sort.INSPECTION)
@blp.arguments(InspectionsIn, location="query")
@blp.response(200, InspectionsOut)
def inspections(query: dict[str, str]) -> Any:
    """Every shell that waits for its inspection or is past it and in the house; or the one with that serial."""
    store, now = here.store(), here.now()
    serial = query["serial"]
    found = [inspecting.by_serial(store, here.me(), serial, now)] if serial else inspecting.waiting(store, now)
    return {"inspections": [row_view(one) for one in found]}


@blp.route(OF, methods=["GET"])
@does(Action.READ, Sort.INSPECTION)
@blp.response(200, InspectionOut)
def inspection(shell: int) -> Any:
    """Everything that is looked at on the shell, with its limits, what was read, and what that says."""
    return _shown(shell)


@blp.route(f"{OF}/record", methods=["GET"])
@does(Action.READ, Sort.INSPECTION)
@blp.arguments(RecordIn, location="query")
@blp.response(200, **PDF)
def inspection_record(query: dict[str, str], shell: int) -> Any:
    """The inspection record as PDF; until the metal has passed it says across every sheet that it has not."""
    how = (query["language"], query["size"])
    return pdf(recording.record(here.store(), here.me(), shell, how, here.now()), "inspection-record", str(shell))


@blp.route(f"{OF}/readings", methods=["POST"])
@does(Action.CHANGE, Sort.INSPECTION)
@creates
@blp.arguments(ReadingsIn)
@blp.response(201, InspectionOut)
def take_readings(body: dict[str, Any], shell: int) -> Any:
    """A reading, or all that a tablet has kept; each is taken once, by its own key."""
    taken = [Taken(**one) for one in body["readings"]]
    measuring.take(here.store(), here.me(), shell, taken, here.now(), once=once())
    return _shown(shell)


@blp.route(f"{OF}/verdicts", methods=["POST"])
@does(Action.SIGN, Sort.INSPECTION)
@creates
@blp.arguments(VerdictIn)
@blp.response(201, InspectionOut)
def give_verdict(body: dict[str, str], shell: int) -> Any:
    """Pass, concession, rework or reject, signed; in metal it signs the stage of inspection."""
    said = Said(Phase(body["phase"]), Verdict(body["verdict"]), body["why"], body["stage"])
    second = here.signature(body["second_by"], body["second_code"]) if body["second_by"] else None
    asked = (shell, said, here.signature(body["by"], body["code"]), here.now())
    passing.decide(here.store(), here.me(), *asked, second=second, once=once())
    return _shown(shell)


@blp.route(f"{OF}/primings", methods=["POST"])
@does(Action.CHANGE, Sort.INSPECTION)
@creates
@blp.arguments(PrimingIn)
@blp.response(201, InspectionOut)
def say_primed(body: dict[str, date], shell: int) -> Any:
    """The day on which it was primed, or prepared and primed anew: the overcoat date follows from it."""
    overcoating.primed(here.store(), here.me(), shell, body["day"], here.now(), once=once())
    return _shown(shell)


@blp.route(f"{OF}/acknowledgements", methods=["POST"])
@does(Action.CHANGE, Sort.INSPECTION)
@creates
@blp.arguments(AcknowledgedIn)
@blp.response(201, InspectionOut)
def acknowledge(body: dict[str, str], shell: int) -> Any:
    """Whoever takes it after its overcoat date all the same, in writing."""
    asked = (shell, body["said_by"], body["words"], here.now())
    overcoating.acknowledge(here.store(), here.me(), *asked, once=once())
    return _shown(shell)


@blp.route(f"{OF}/photographs", methods=["POST"])
@does(Action.CHANGE, Sort.INSPECTION)
@takes_file
@creates
@blp.arguments(SubjectPhotographIn, location="query")
@blp.response(201, InspectionOut)
@blp.doc(**sent(*PICTURES))
def add_photograph(query: dict[str, str], shell: int) -> Any:
    """The body is the file: JPEG, PNG or WebP, of one subject. It is made anew, upright and without metadata."""
    asked = (shell, query["subject"], query["note"], request.get_data(cache=True), here.now())
    photographing_subjects.add(here.store(), here.me(), *asked, once=once())
    return _shown(shell)


@blp.route(f"{OF}/photographs/<{KEY}:photograph>", methods=["GET"])
@does(Action.READ, Sort.INSPECTION)
@blp.arguments(PhotographFileIn, location="query")
@blp.response(200, **JPEG)
def photograph_file(query: dict[str, str], shell: int, photograph: int) -> Any:
    """The picture, whole or small."""
    small = query["size"] == "small"
    content = photographing_subjects.content(here.store(), here.me(), shell, photograph, here.now(), small=small)
    return jpeg(content, f"inspection-{photograph}")


@blp.route("/gauges", methods=["GET"])
@does(Action.READ, Sort.GAUGE)
@blp.response(200, GaugesOut)
def gauges() -> Any:
    """Each gauge as it was last calibrated."""
    return _gauges()


@blp.route("/gauges", methods=["POST"])
@does(Action.CHANGE, Sort.GAUGE)
@creates
@blp.arguments(GaugeIn)
@blp.response(201, GaugesOut)
def calibrate(body: dict[str, Any]) -> Any:
    """A gauge as it was calibrated: a new one, or one anew under its mark."""
    span = (body["calibrated"], body["due"])
    asked = (body["mark"], GaugeSort(body["sort"]), span, here.now())
    measuring.calibrate(here.store(), here.me(), *asked, once=once())
    return _gauges()


def _shown(shell: int) -> Any:
    return inspection_view(inspecting.inspection(here.store(), here.me(), shell, here.now()))


def _gauges() -> Any:
    today = day_of(publishing.current_book(here.store(), here.now()), here.now())
    return {"gauges": [gauge_view(one, today) for one in measuring.gauges(here.store())]}

"""Safety faults: what follows from one before it is said, what it stops, how it was lifted, and whom to write to."""

from __future__ import annotations

from typing import Any

from app.documents.lists.safety_csv import owners_csv
from app.domain.asking.people import Action, Sort
from app.domain.floor.safety import AtFault, Subject
from app.services.books import publishing
from app.services.floor import safety
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.files import carried_off
from app.web.guard import does
from app.web.schemas.safety import (
    AtFaultIn,
    SafetyConsequencesOut,
    SafetyFaultIn,
    SafetyFaultsOut,
    SafetyFaultWholeOut,
    SafetyLiftIn,
    SafetyOwnersOut,
    SafetySubjectsOut,
)
from app.web.views.safety import consequences_view, fault_view, owner_view, shells_view, subjects_view
from rules.model import Book

FAULT = f"/safety-faults/<{KEY}:fault>"

blp = resource("safety", "Safety faults: they stop every shell that they may be in, and list whom to write to.")


@blp.route("/safety-faults", methods=["GET"])
@does(Action.READ, Sort.SAFETY_FAULT)
@blp.response(200, SafetyFaultsOut)
def every_fault() -> Any:
    """Those that stand and those that were lifted, the last said first."""
    book = _book()
    return {"faults": [fault_view(one, book) for one in safety.faults(here.store())]}


@blp.route("/safety-subjects", methods=["GET"])
@does(Action.CREATE, Sort.SAFETY_FAULT)
@blp.response(200, SafetySubjectsOut)
def subjects() -> Any:
    """What of the book in force may be said to be at fault."""
    return subjects_view(_book())


@blp.route("/safety-consequences", methods=["GET"])
@does(Action.CREATE, Sort.SAFETY_FAULT)
@blp.arguments(AtFaultIn, location="query")
@blp.response(200, SafetyConsequencesOut)
def consequences(query: dict[str, Any]) -> Any:
    """What it would do to say that this is at fault. Changes nothing."""
    return consequences_view(safety.consequences(here.store(), _at_fault(query), here.now()))


@blp.route("/safety-faults", methods=["POST"])
@does(Action.CREATE, Sort.SAFETY_FAULT)
@creates
@blp.arguments(SafetyFaultIn)
@blp.response(201, SafetyFaultWholeOut)
def say_fault(body: dict[str, Any]) -> Any:
    """Say that this is at fault: no shell that it concerns goes on from now."""
    return _whole(safety.say_fault(here.store(), here.me(), _at_fault(body), body["why"], here.now(), once=once()))


@blp.route(FAULT, methods=["GET"])
@does(Action.READ, Sort.SAFETY_FAULT)
@blp.response(200, SafetyFaultWholeOut)
def one_fault(fault: int) -> Any:
    """One of them with the shells that it concerns as they stand now."""
    return _whole(fault)


@blp.route(f"{FAULT}/lifting", methods=["POST"])
@does(Action.CHANGE, Sort.SAFETY_FAULT)
@creates
@blp.arguments(SafetyLiftIn)
@blp.response(201, SafetyFaultWholeOut)
def lift(body: dict[str, str], fault: int) -> Any:
    """Lift it with the reason: what it stopped may go on."""
    safety.lift(here.store(), here.me(), fault, body["why"], here.now(), once=once())
    return _whole(fault)


@blp.route(f"{FAULT}/owners", methods=["GET"])
@does(Action.READ, Sort.SAFETY_LETTER)
@blp.response(200, SafetyOwnersOut)
def owners(fault: int) -> Any:
    """Whom to write to about despatched shells, each with the letter in his language."""
    return _owners(fault)


@blp.route(f"{FAULT}/owners.csv", methods=["GET"])
@does(Action.READ, Sort.SAFETY_LETTER)
@blp.response(200, {"type": "string"}, content_type="text/csv")
def owners_table(fault: int) -> Any:
    """The same as a table."""
    text = owners_csv(safety.owners(here.store(), here.me(), fault, here.now()))
    return carried_off(text, "text/csv; charset=utf-8", f"safety-fault-{fault}.csv")


@blp.route(f"{FAULT}/owners/<{KEY}:shell>/written", methods=["POST"])
@does(Action.CREATE, Sort.SAFETY_LETTER)
@creates
@blp.response(201, SafetyOwnersOut)
def record_written(fault: int, shell: int) -> Any:
    """A person has sent the letter about that shell."""
    safety.record_written(here.store(), here.me(), fault, shell, here.now(), once=once())
    return _owners(fault)


def _book() -> Book:
    return publishing.current_book(here.store(), here.now())


def _at_fault(said: dict[str, Any]) -> AtFault:
    return AtFault(Subject(said["subject"]), said["of"], said["since"])


def _whole(key: int) -> dict[str, Any]:
    fault, concerned = safety.fault(here.store(), key, here.now())
    return {**fault_view(fault, _book()), "shells": shells_view(concerned)}


def _owners(key: int) -> dict[str, Any]:
    return {"owners": [owner_view(one) for one in safety.owners(here.store(), here.me(), key, here.now())]}

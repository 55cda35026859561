"""A shell's welds, concessions and rework as plain data. Shaping only."""

from __future__ import annotations

from typing import Any

from app.domain.floor.rework import Rework
from app.domain.floor.welding import WeldZone
from app.domain.inspection.concession import Concession
from app.services.floor.overseeing import OnFloor
from app.services.inspection.inspecting import Inspection
from app.web import here
from app.web.views.ordered import shell_name
from app.web.views.since_asked import since_view
from app.web.views.subjects import subject_view
from app.web.views.things import slots
from rules.model import Book


def record_view(one: OnFloor) -> dict[str, Any]:
    """All that the floor wrote down of it."""
    return {
        "zones": [zone_view(zone) for zone in one.zones],
        "concessions": [concession_view(one.book, asked, one.looked) for asked in one.concessions],
        "reworks": [rework_view(one.book, rework) for rework in one.reworks],
        "subjects": [str(about) for about in one.subjects],
    }


def zone_view(one: WeldZone) -> dict[str, Any]:
    signed = [{"welder": w.welder, "welder_name": here.called(w.welder), "day": w.day} for w in one.welds]
    told = {"zone": one.zone.id, "label": one.zone.label, "stage": one.stage, "welds": one.zone.welds}
    return {**told, "signed": signed}


def concession_view(book: Book, one: Concession, looked: Inspection | None) -> dict[str, Any]:
    said = one.answer
    return {
        **subject_view(book, one.subject),
        **slots(one, "id", "why", "measured", "limit", "asked_by", "asked_at"),
        "asked_by_name": here.called(one.asked_by),
        "standing": one.standing.value,
        "answered_by_name": said and here.called(said.by),
        "answered_on": said and said.day,
        "reason": said and said.why,
        "since": since_view(looked, one.id),
    }


def waiting_view(asked: Concession, one: OnFloor) -> dict[str, Any]:
    """A concession with the shell that it is of."""
    frozen = one.order.lines[one.line - 1].frozen_of(one.shell)
    shell = {"shell": one.shell.id, "order": one.order.number, "serial": one.shell.serial}
    return {**concession_view(one.book, asked, one.looked), **shell, "name": shell_name(one.book, frozen.settled)}


def rework_view(book: Book, one: Rework) -> dict[str, Any]:
    end = one.end
    return {
        **subject_view(book, one.subject),
        **slots(one, "id", "what", "stage", "found_at"),
        "found_by_name": here.called(one.found_by),
        "standing": "open" if end is None else "withdrawn" if end.withdrawn else "mended",
        "ended_by_name": end and here.called(end.by),
        "ended_on": end and end.day,
        "minutes": end and end.minutes,
        "note": end and end.note,
    }

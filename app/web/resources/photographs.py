"""Photographs against a donor car. Their bytes come as they are, and go out as JPEGs that nothing may run in."""

from __future__ import annotations

from typing import Any

from flask import request

from app.domain.asking.people import Action, Sort
from app.domain.quotations.photograph import Photograph, Shows
from app.services.quotations import photographing
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.files import JPEG, PICTURES, jpeg, sent
from app.web.gate import takes_file
from app.web.guard import does
from app.web.schemas.photographs import PhotographFileIn, PhotographIn, PhotographOut, PhotographsOut
from app.web.views.things import slots

OF = f"/enquiries/<{KEY}:enquiry_id>/photographs"
ONE = f"{OF}/<{KEY}:photograph>"

blp = resource("photographs", "Photographs against a donor car, kept with the enquiry.")


@blp.route(OF, methods=["GET"])
@does(Action.READ, Sort.PHOTOGRAPH)
@blp.response(200, PhotographsOut)
def photographs_of(enquiry_id: int) -> Any:
    """All of them, the first added first."""
    found = photographing.photographs_of(here.store(), here.me(), enquiry_id)
    return {"photographs": [_view(one) for one in found]}


@blp.route(OF, methods=["POST"])
@does(Action.CREATE, Sort.PHOTOGRAPH)
@takes_file
@creates
@blp.arguments(PhotographIn, location="query")
@blp.response(201, PhotographOut)
@blp.doc(**sent(*PICTURES, "application/pdf"))
def add_photograph(query: dict[str, str], enquiry_id: int) -> Any:
    """The body is the file: JPEG, PNG or WebP, made anew, upright and without metadata; or a scan as PDF.

    Of a scan each page becomes a photograph, and the first is answered; nothing else of it is kept.
    """
    added = photographing.add(
        *(here.store(), here.me(), enquiry_id, request.get_data(cache=True)),
        *(Shows(query["shows"]), query["part"], query["note"], here.now()),
        once=once(),
    )
    return _view(added)


@blp.route(f"{ONE}/file", methods=["GET"])
@does(Action.READ, Sort.PHOTOGRAPH)
@blp.arguments(PhotographFileIn, location="query")
@blp.response(200, **JPEG)
def photograph_file(query: dict[str, str], enquiry_id: int, photograph: int) -> Any:
    """The picture, whole or small."""
    small = query["size"] == "small"
    content = photographing.content(here.store(), here.me(), enquiry_id, photograph, small=small)
    return jpeg(content, f"photograph-{photograph}")


@blp.route(ONE, methods=["DELETE"])
@does(Action.ERASE, Sort.PHOTOGRAPH)
@blp.response(204)
def remove_photograph(enquiry_id: int, photograph: int) -> None:
    """Out of the file for good, unless somebody who says so of the car points to it."""
    photographing.remove(here.store(), here.me(), enquiry_id, photograph, here.now())


def _view(one: Photograph) -> dict[str, Any]:
    at = f"/api/enquiries/{one.enquiry}/photographs/{one.id}/file"
    return {**slots(one), "by_name": here.called(one.by), "url": at, "small_url": f"{at}?size=small"}

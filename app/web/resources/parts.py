"""Customers' parts by their tags: taken in, inspected, photographed, kept or returned; what is built if one fails."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from flask import request

from app import calendar
from app.domain.asking.people import Action, Sort
from app.domain.part import Choice, PartAct
from app.services.parts import failing, recording_receipt, taking_in
from app.services.parts.failing import Wish
from app.services.quotations.tagging import Tag
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.files import JPEG, PDF, PICTURES, jpeg, pdf, sent
from app.web.gate import takes_file
from app.web.guard import does
from app.web.resources.orders import ONE as ORDER
from app.web.schemas.parts import (
    CustomersPartOut,
    CustomersPartsOut,
    PartActIn,
    PartArrivalIn,
    PartChoiceIn,
    PartPhotographIn,
    ReceiptIn,
    ReceiptVerdictIn,
    WaysIn,
    WaysOnOut,
)
from app.web.schemas.photographs import PhotographFileIn
from app.web.views.parted import part_view, ways_view

ONE = "/parts/<string(maxlength=40):quotation>/<int(max=9999):line>.<int(max=9999):piece>/<string(maxlength=40):rule>"

blp = resource("parts", "Customers’ parts by the numbers on their tags, from arrival to return.")


@blp.route("/parts", methods=["GET"])
@does(Action.READ, Sort.SHELL)
@blp.response(200, CustomersPartsOut)
def parts_awaited() -> Any:
    """Of confirmed orders: what has not passed yet, what is needed first coming first, and what lies here unused."""
    found = taking_in.awaited(here.store(), here.me(), calendar.around, here.now())
    return {"parts": list(map(part_view, found))}


@blp.route(f"{ORDER}/parts", methods=["GET"])
@does(Action.READ, Sort.PART)
@blp.response(200, CustomersPartsOut)
def parts_of_an_order(number: str) -> Any:
    """Every part of the order's shells, expected or here."""
    found = taking_in.parts_of(here.store(), here.me(), number, calendar.around, here.now())
    return {"parts": list(map(part_view, found))}


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.PART)
@blp.response(200, CustomersPartOut)
def one_part(**tag: Any) -> Any:
    """One part with everything that came under its tag."""
    return _shown(Tag(**tag))


@blp.route(f"{ONE}/arrivals", methods=["POST"])
@does(Action.CREATE, Sort.PART)
@creates
@blp.arguments(PartArrivalIn)
@blp.response(201, CustomersPartOut)
def take_in(body: dict[str, Any], **tag: Any) -> Any:
    """It came on that day, and waits to be inspected."""
    taking_in.arrive(here.store(), here.me(), Tag(**tag), body["day"], body["note"], here.now(), once=once())
    return _shown(Tag(**tag))


@blp.route(f"{ONE}/photographs", methods=["POST"])
@does(Action.CREATE, Sort.PART)
@takes_file
@creates
@blp.arguments(PartPhotographIn, location="query")
@blp.response(201, CustomersPartOut)
@blp.doc(**sent(*PICTURES))
def photograph_part(query: dict[str, str], **tag: Any) -> Any:
    """The body is the file: JPEG, PNG or WebP, of the part that came last. It is made anew, without metadata."""
    data = request.get_data(cache=True)
    taking_in.add_photograph(here.store(), here.me(), Tag(**tag), data, query["note"], here.now(), once=once())
    return _shown(Tag(**tag))


@blp.route(f"{ONE}/photographs/<{KEY}:photograph>/file", methods=["GET"])
@does(Action.READ, Sort.PART)
@blp.arguments(PhotographFileIn, location="query")
@blp.response(200, **JPEG)
def part_photograph_file(query: dict[str, str], photograph: int, **tag: Any) -> Any:
    """The picture, whole or small."""
    small = query["size"] == "small"
    content = taking_in.photograph(here.store(), here.me(), Tag(**tag), photograph, here.now(), small=small)
    return jpeg(content, f"part-{photograph}")


@blp.route(f"{ONE}/verdicts", methods=["POST"])
@does(Action.SIGN, Sort.PART)
@creates
@blp.arguments(ReceiptVerdictIn)
@blp.response(201, CustomersPartOut)
def judge_part(body: dict[str, Any], **tag: Any) -> Any:
    """Passed or failed, signed by lead or inspector with his personal code. Blanks can't pass."""
    signature = here.signature(body["by"], body["code"])
    answers = [(one["met"], None if one["measured"] is None else Decimal(one["measured"])) for one in body["findings"]]
    said = (body["passed"], answers, body["why"], signature, here.now())
    taking_in.judge(here.store(), here.me(), Tag(**tag), *said, once=once())
    return _shown(Tag(**tag))


@blp.route(f"{ONE}/acts", methods=["POST"])
@does(Action.CHANGE, Sort.PART)
@creates
@blp.arguments(PartActIn)
@blp.response(201, CustomersPartOut)
def act_on_part(body: dict[str, Any], **tag: Any) -> Any:
    """A failed part is tagged, kept, or sent back to the customer: it stays his."""
    done = (PartAct(body["act"]), body["day"], body["note"], here.now())
    taking_in.act(here.store(), here.me(), Tag(**tag), *done, once=once())
    return _shown(Tag(**tag))


@blp.route(f"{ONE}/ways-on", methods=["GET"])
@does(Action.ANSWER, Sort.PART)
@blp.arguments(WaysIn, location="query")
@blp.response(200, WaysOnOut)
def ways_on(query: dict[str, Any], **tag: Any) -> Any:
    """What can be done once the part has failed, with money and dates, and the letter about it. Nothing is written."""
    asked = (here.store(), here.me(), Tag(**tag), query["passing"], calendar.around, here.now())
    return ways_view(failing.ways_on(*asked))


@blp.route(f"{ONE}/choices", methods=["POST"])
@does(Action.ANSWER, Sort.PART)
@creates
@blp.arguments(PartChoiceIn)
@blp.response(201, CustomersPartOut)
def choose_way(body: dict[str, Any], **tag: Any) -> Any:
    """What the customer chooses. Otherwise built is a draft of the next revision; no slot is moved by it."""
    wish = Wish(Choice(body["choice"]), body["note"], body["day"], body["option"], body["instead"])
    failing.choose(here.store(), here.me(), Tag(**tag), wish, calendar.around, here.now(), once=once())
    return _shown(Tag(**tag))


@blp.route(f"{ONE}/receipt", methods=["GET"])
@does(Action.READ, Sort.PART)
@blp.arguments(ReceiptIn, location="query")
@blp.response(200, **PDF)
def receipt_record(query: dict[str, str], **tag: Any) -> Any:
    """The receipt record of one of those that came, as PDF."""
    turn = int(query["turn"]) if query["turn"].isascii() and query["turn"].isdigit() else 0
    kind = (query["language"] or here.language(), query["size"])
    content = recording_receipt.receipt(here.store(), here.me(), Tag(**tag), turn, *kind, here.now())
    return pdf(content, "receipt", Tag(**tag).number.replace("/", "-"), str(turn))


def _shown(tag: Tag) -> Any:
    return part_view(taking_in.dated_part(here.store(), here.me(), tag, calendar.around, here.now()))

"""Enquiries: taken down, found again, changed."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.quotations.enquiry import Enquiry, Wish
from app.services.quotations import elsewhere, enquiring
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, edits, expected, once, tag
from app.web.guard import does
from app.web.schemas.enquiries import DonorElsewhereIn, DonorElsewhereOut, EnquiriesOut, EnquiryOut, WishIn
from app.web.schemas.paging import SearchIn
from app.web.views.paged import next_of, turn_after
from app.web.views.things import slots

blp = resource("enquiries", "Who asked for what, for which donor car, by when.")


@blp.route("/enquiries", methods=["GET"])
@does(Action.READ, Sort.ENQUIRY)
@blp.arguments(SearchIn, location="query")
@blp.response(200, EnquiriesOut)
def find_enquiries(query: dict[str, Any]) -> Any:
    """Those that hold every word of `q`, the last changed first."""
    found = enquiring.find_enquiries(here.store(), here.me(), here.now(), query["q"], after=turn_after(query))
    hits = enquiring.found_by(here.store(), here.me(), [one.id for one in found.rows], query["q"], here.now())
    rows = [{**slots(one), "found_by": hits.get(one.id, ())} for one in found.rows]
    return {"enquiries": rows, "next": next_of(found, query)}


@blp.route("/enquiries", methods=["POST"])
@does(Action.CREATE, Sort.ENQUIRY)
@creates
@blp.arguments(WishIn)
@blp.response(201, EnquiryOut)
def create_enquiry(wish: Wish) -> Any:
    """Take an enquiry down."""
    return _tagged(enquiring.create_enquiry(here.store(), here.me(), wish, here.now(), once=once()))


@blp.route(f"/enquiries/<{KEY}:enquiry_id>", methods=["GET"])
@does(Action.READ, Sort.ENQUIRY)
@blp.response(200, EnquiryOut)
def one_enquiry(enquiry_id: int) -> Any:
    """One enquiry."""
    return _tagged(enquiring.enquiry(here.store(), here.me(), enquiry_id))


@blp.route(f"/enquiries/<{KEY}:enquiry_id>", methods=["PATCH"])
@does(Action.CHANGE, Sort.ENQUIRY)
@edits
@blp.arguments(WishIn)
@blp.response(200, EnquiryOut)
def edit_enquiry(wish: Wish, enquiry_id: int) -> Any:
    """Replace what was typed: send all of it."""
    return _tagged(enquiring.edit_enquiry(here.store(), here.me(), enquiry_id, wish, here.now(), expected=expected()))


@blp.route("/donor-elsewhere", methods=["GET"])
@does(Action.READ, Sort.DONOR_ELSEWHERE)
@blp.arguments(DonorElsewhereIn, location="query")
@blp.response(200, DonorElsewhereOut)
def donor_elsewhere(query: dict[str, Any]) -> Any:
    """The quotations of other enquiries for this donor car: a warning for the office, never a bar."""
    found = elsewhere.donor_elsewhere(here.store(), here.me(), query["number"], here.now(), besides=query["enquiry"])
    return {"quotations": found}


def _tagged(enquiry: Enquiry) -> Any:
    return enquiry, tag(enquiry.version)

"""Quotations: drafted, issued, revised, had as a paper."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort, reach
from app.domain.errors import NotFound
from app.domain.finding import Hit
from app.domain.quotations.quotation import Draft, Quotation, QuotationRow, Reason, Reply, Revision, Standing
from app.services import watching
from app.services.planning import foreseeing
from app.services.quotations import enquiring, handing_out, listing, quoting, settling, tagging
from app.services.quotations.listing import ListedQuotation
from app.web import here
from app.web.afterwards import afterwards
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, edits, expected, once, tag
from app.web.files import PDF, pdf
from app.web.guard import does, refuse_hidden_prices
from app.web.schemas.quotations import (
    AcceptIn,
    CodeOut,
    DeclineIn,
    DraftIn,
    IssueIn,
    PaperIn,
    QuotationIn,
    QuotationOut,
    QuotationSearchIn,
    QuotationsOut,
    RevisionOut,
)
from app.web.views.paged import next_of, turn_after
from app.web.views.quoted import quotation_view, revision_view, row_view

ONE = "/quotations/<string(maxlength=40):number>"
REVISION = f"{ONE}/revisions/<string(maxlength=4):letter>"

blp = resource("quotations", "Quotations and their revisions; what is issued never changes.")


@blp.route("/quotations", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(QuotationSearchIn, location="query")
@blp.response(200, QuotationsOut)
def find_quotations(query: dict[str, Any]) -> Any:
    """Those in this state that hold `q`, the last changed first."""
    state = Standing(query["state"]) if "state" in query else None
    found = quoting.quotations(
        here.store(), here.me(), here.now(), standing=state, text=query["q"], after=turn_after(query)
    )
    hits = _found_by(found.rows, query["q"])
    rows = [row_view(one, hits.get(one.row.number, ())) for one in _listed(found.rows)]
    return {"quotations": rows, "next": next_of(found, query)}


@blp.route(f"/enquiries/<{KEY}:enquiry_id>/quotations", methods=["POST"])
@does(Action.CREATE, Sort.QUOTATION)
@creates
@blp.arguments(QuotationIn)
@blp.response(201, QuotationOut)
def create_quotation(body: dict[str, Any], enquiry_id: int) -> Any:
    """A new quotation with an empty draft A."""
    made = quoting.create_quotation(
        here.store(), here.me(), enquiry_id, body["price_list"], body["delivery_place"], here.now(), once=once()
    )
    return quotation_view(made)


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.response(200, QuotationOut)
def one_quotation(number: str) -> Any:
    """One quotation with all its revisions."""
    return quotation_view(_load(number))


@blp.route(REVISION, methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.response(200, RevisionOut)
def one_revision(number: str, letter: str) -> Any:
    """One revision; its ETag is what an edit or an issue must name."""
    revision = _load(number).revision(letter)
    if revision is None:
        raise NotFound(what="revision", name=letter)
    return _tagged(number, revision)


@blp.route(REVISION, methods=["PUT"])
@does(Action.CHANGE, Sort.QUOTATION)
@edits
@blp.arguments(DraftIn)
@blp.response(200, RevisionOut)
def save_draft(draft: Draft, number: str, letter: str) -> Any:
    """Keep a draft as it is typed, buildable or not; what can't be built is counted once the answer is out."""
    kept = quoting.save_draft(here.store(), here.me(), number, letter, draft, here.now(), expected=expected())
    afterwards(partial(watching.note_refusals, here.store(), here.me(), number, letter, here.now()))
    return _tagged(number, kept)


@blp.route(f"{REVISION}/issue", methods=["POST"])
@does(Action.ISSUE, Sort.QUOTATION)
@creates
@edits
@blp.arguments(IssueIn)
@blp.response(200, RevisionOut)
def issue(body: dict[str, Any], number: str, letter: str) -> Any:
    """Freeze it and let it leave the house. What the customer has said yes to is only replaced on purpose."""
    with_dates = {"url": here.parts().config.url, "working": calendar.around, **body}
    issued = quoting.issue(
        here.store(), here.me(), number, letter, here.now(), expected=expected(), once=once(), **with_dates
    )
    return _tagged(number, issued)


@blp.route(f"{REVISION}/accept", methods=["POST"])
@does(Action.ACCEPT, Sort.QUOTATION)
@creates
@edits
@blp.arguments(AcceptIn)
@blp.response(200, RevisionOut)
def accept(body: dict[str, Any], number: str, letter: str) -> Any:
    """Record the customer's yes, while it is valid. It confirms no order."""
    accepted = settling.accept(
        here.store(), here.me(), number, letter, _reply(body), here.now(), expected=expected(), once=once()
    )
    return _tagged(number, accepted)


@blp.route(f"{REVISION}/decline", methods=["POST"])
@does(Action.DECLINE, Sort.QUOTATION)
@creates
@edits
@blp.arguments(DeclineIn)
@blp.response(200, RevisionOut)
def decline(body: dict[str, Any], number: str, letter: str) -> Any:
    """Record the customer's no, and why."""
    declined = settling.decline(
        here.store(), here.me(), number, letter, _reply(body), here.now(), expected=expected(), once=once()
    )
    return _tagged(number, declined)


@blp.route(f"{ONE}/revisions", methods=["POST"])
@does(Action.CHANGE, Sort.QUOTATION)
@creates
@blp.response(201, RevisionOut)
def next_revision(number: str) -> Any:
    """The next draft, a copy of the last revision."""
    return _tagged(number, quoting.next_revision(here.store(), here.me(), number, here.now(), once=once()))


@blp.route(f"{REVISION}/paper", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def paper(query: dict[str, str], number: str, letter: str) -> Any:
    """The paper: an issued revision's always the same bytes, a draft's made now and marked so."""
    refuse_hidden_prices()
    kind = (query["language"], query["size"])
    content = handing_out.paper(here.store(), here.me(), number, letter, *kind, here.now(), working=calendar.around)
    return pdf(content, number, letter, *kind)


@blp.route(f"{REVISION}/difference-sheet", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def difference_sheet(query: dict[str, str], number: str, letter: str) -> Any:
    """The donor car as built, as it stands and as ordered, in the rows that differ, to be signed. It names no price."""
    kind = (query["language"], query["size"])
    content = handing_out.difference_sheet(here.store(), here.me(), number, letter, *kind, here.now())
    return pdf(content, number, letter, "difference-sheet", *kind)


@blp.route(f"{REVISION}/where-to-cut", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def where_to_cut(query: dict[str, str], number: str, letter: str) -> Any:
    """How each customer's part comes out of the donor car, to be sent before anybody cuts. It names no price."""
    kind = (query["language"], query["size"])
    content = handing_out.where_to_cut(here.store(), here.me(), number, letter, *kind, here.now())
    return pdf(content, number, letter, "where-to-cut", *kind)


@blp.route(f"{REVISION}/part-tags", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def part_tags(query: dict[str, str], number: str, letter: str) -> Any:
    """A tag for each customer's part of each shell, as of now. It names no price and no customer."""
    kind = (query["language"], query["size"])
    content = tagging.part_tags(here.store(), here.me(), number, letter, *kind, calendar.around, here.now())
    return pdf(content, number, letter, "part-tags", *kind)


@blp.route(f"{REVISION}/acceptance-form", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def acceptance_form(query: dict[str, str], number: str, letter: str) -> Any:
    """What the customer signs to order: the total, the dates, what differs, what is fixed, the cautions."""
    refuse_hidden_prices()
    kind, working = (query["language"], query["size"]), calendar.around
    content = handing_out.acceptance_form(here.store(), here.me(), number, letter, *kind, here.now(), working=working)
    return pdf(content, number, letter, "order-form", *kind)


@blp.route("/codes/<string(maxlength=80):code>", methods=["GET"])
@does(Action.READ, Sort.CODE)
@blp.response(200, CodeOut)
def behind_a_code(code: str) -> Any:
    """The quotation and revision that a paper's QR code leads to; what the reader may not read is nothing here."""
    found = handing_out.by_code(here.store(), code)
    if found is None:
        raise NotFound(what="code", name=code)
    _refuse_unseen(found[0])
    return {"number": found[0], "letter": found[1]}


def _refuse_unseen(number: str) -> None:
    """Whoever reads no quotations reads of them what may have to be built. Raises NotFound."""
    if reach(here.me().role, Action.READ, Sort.QUOTATION) is None:
        foreseeing.one_work_to_come(here.store(), number, here.now())
    else:
        _load(number)


def _load(number: str) -> Quotation:
    return quoting.quotation(here.store(), here.me(), number, here.now())


def _tagged(number: str, revision: Revision) -> Any:
    """`revision` among the others as they stand now."""
    quotation = _load(number)
    shown = quotation.revision(revision.letter) or revision
    return revision_view(quotation, shown), tag(shown.version)


def _reply(body: dict[str, Any]) -> Reply:
    reason = Reason(body["reason"]) if "reason" in body else None
    return Reply(body["said_at"] or here.now(), body["said_by"], reason, body["note"])


def _listed(rows: Sequence[QuotationRow]) -> list[ListedQuotation]:
    return listing.listed(here.store(), here.me(), rows, here.now(), sums=here.prices_visible())


def _found_by(rows: Sequence[QuotationRow], text: str) -> dict[str, tuple[Hit, ...]]:
    """Its enquiry's facts are its own, but for the numbers of the enquiry's other quotations."""
    of = enquiring.found_by(here.store(), here.me(), [row.enquiry for row in rows], text, here.now())
    return {
        row.number: tuple(hit for hit in of.get(row.enquiry, ()) if hit.sort != "quotation" or hit.text == row.number)
        for row in rows
    }

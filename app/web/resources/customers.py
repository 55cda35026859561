"""Customers: found, looked at, merged, handed out to themselves, erased."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from flask import url_for

from app.domain.asking.people import Action, Sort
from app.domain.customers.customer import Customer
from app.domain.happenings import deeds
from app.services.customers import disclosing, erasing, knowing, merging
from app.services.customers.knowing import Like, Page
from app.services.money import accounts
from app.services.quotations import listing
from app.store.customers import Kept
from app.store.held import HeldPaper
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import edits, expected, tag
from app.web.files import carried_off
from app.web.guard import does, refuse_hidden_prices
from app.web.schemas.customers import (
    AlikeIn,
    AlikeOut,
    ApartIn,
    CustomerPageOut,
    CustomersOut,
    EraseProposedIn,
    ErasureIn,
    MergeIn,
    OutlookOut,
    RetentionIn,
    RetentionOut,
)
from app.web.schemas.paging import PagedIn, SearchIn
from app.web.views.ordered import row_view as order_view
from app.web.views.paged import FIRST_PAGE, after, next_of, turn_after
from app.web.views.quoted import deed_view, row_view
from app.web.views.things import slots
from app.wording import say

ONE = f"/customers/<{KEY}:customer_id>"

blp = resource("customers", "Who asked, all that was asked for and promised, and what becomes of personal data.")


@blp.route("/customers", methods=["GET"])
@does(Action.READ, Sort.CUSTOMER)
@blp.arguments(SearchIn, location="query")
@blp.response(200, CustomersOut)
def find_customers(query: dict[str, Any]) -> Any:
    """Those that hold every word of `q` in name, telephone or e-mail, the last come first."""
    found = knowing.find_customers(here.store(), here.me(), here.now(), query["q"], after=turn_after(query))
    rows = [{**_kept(one.kept), "found_by": one.found_by} for one in found.rows]
    return {"customers": rows, "next": next_of(found, query)}


@blp.route("/customers/alike", methods=["POST"])
@does(Action.READ, Sort.CUSTOMER)
@blp.arguments(AlikeIn)
@blp.response(200, AlikeOut)
def alike(customer: Customer) -> Any:
    """Who is known already and may be the one who is typed in. It saves nothing."""
    return {"alike": [_like(one) for one in knowing.alike(here.store(), here.me(), customer)]}


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.CUSTOMER)
@blp.response(200, CustomerPageOut)
def one_customer(customer_id: int) -> Any:
    """One customer; of one who was merged, the page of whom he was merged into."""
    return _shown(customer_id)


@blp.route(f"{ONE}/merge", methods=["POST"])
@does(Action.CHANGE, Sort.CUSTOMER)
@edits
@blp.arguments(MergeIn)
@blp.response(200, CustomerPageOut)
def merge(body: dict[str, Any], customer_id: int) -> Any:
    """Make the other one this one; what is taken from the other is named."""
    kept = merging.merge(
        here.store(),
        here.me(),
        customer_id,
        body["other"],
        body["take"],
        here.now(),
        expected=expected(),
        other_expected=body["version"],
    )
    return _shown(kept)


@blp.route(f"{ONE}/apart", methods=["POST"])
@does(Action.CHANGE, Sort.CUSTOMER)
@blp.arguments(ApartIn)
@blp.response(200, CustomerPageOut)
def keep_apart(body: dict[str, int], customer_id: int) -> Any:
    """The other one is somebody else: neither is offered for the other again."""
    merging.keep_apart(here.store(), here.me(), customer_id, body["other"], here.now())
    return _shown(customer_id)


@blp.route(f"{ONE}/everything", methods=["POST"])
@does(Action.READ, Sort.PERSONAL_DATA)
@blp.response(200, {"type": "string", "format": "binary"}, content_type="application/zip")
def everything(customer_id: int) -> Any:
    """All that is held on the customer: data.json and every paper. That it was handed out is recorded."""
    refuse_hidden_prices()
    archive = disclosing.everything_on(here.store(), here.me(), customer_id, here.now())
    return carried_off(archive, "application/zip", f"customer-{customer_id}.zip")


@blp.route(f"{ONE}/erasure", methods=["GET"])
@does(Action.ERASE, Sort.PERSONAL_DATA)
@blp.response(200, OutlookOut)
def erasure_outlook(customer_id: int) -> Any:
    """What erasing would take away, what would stay, and why. It erases nothing."""
    told = erasing.outlook(here.store(), here.me(), customer_id)
    return {
        "id": told.kept.id,
        "customer": told.kept.customer,
        "goes": told.reach.goes,
        "stays": told.reach.stays,
        "why_stays": say("erasing.why-stays", here.language()),
        "beyond": say("erasing.beyond", here.language()),
        "seen": told.seen,
    }


@blp.route(f"{ONE}/erasure", methods=["POST"])
@does(Action.ERASE, Sort.PERSONAL_DATA)
@blp.arguments(ErasureIn)
@blp.response(200, CustomerPageOut)
def erase(body: dict[str, str], customer_id: int) -> Any:
    """Erase it, as it was looked at. There is no way back."""
    return _shown(erasing.erase(here.store(), here.me(), customer_id, body["why"], body["seen"], here.now()))


@blp.route("/retention", methods=["GET"])
@does(Action.READ, Sort.RETENTION)
@blp.arguments(PagedIn, location="query")
@blp.response(200, RetentionOut)
def retention(query: dict[str, Any]) -> Any:
    """After how many months whoever never ordered is proposed for erasing, and who, the longest still first."""
    return _proposed(query)


@blp.route("/retention", methods=["PUT"])
@does(Action.CHANGE, Sort.RETENTION)
@blp.arguments(RetentionIn)
@blp.response(200, RetentionOut)
def set_retention(body: dict[str, Any]) -> Any:
    """Say after how many months. It erases nobody."""
    erasing.keep_for(here.store(), here.me(), body["months"], here.now())
    return _proposed(FIRST_PAGE)


@blp.route("/retention/erasures", methods=["POST"])
@does(Action.ERASE, Sort.PERSONAL_DATA)
@blp.arguments(EraseProposedIn)
@blp.response(200, RetentionOut)
def erase_proposed(body: dict[str, Any]) -> Any:
    """Erase those of the customers named that are still proposed."""
    return _proposed(FIRST_PAGE, erasing.erase_proposed(here.store(), here.me(), body["customers"], here.now()))


def _proposed(query: Mapping[str, Any], left: tuple[int, ...] = ()) -> dict[str, Any]:
    path = url_for("customers.retention")
    told = erasing.retention_proposals(here.store(), here.now(), after=after(query, str, int, path=path))
    due = [{**asdict(one), "alike": one.id in told.alike} for one in told.due.rows]
    return {"months": told.months, "due": due, "left": left, "next": next_of(told.due, query, path=path)}


def _shown(number: int) -> Any:
    page = knowing.customer_page(here.store(), here.me(), number, here.now())
    return _page(page), tag(page.kept.version)


def _page(page: Page) -> dict[str, Any]:
    store, me, now = here.store(), here.me(), here.now()
    stand = accounts.accounts_of(store, page.orders)
    return {
        **_kept(page.kept),
        "former": [{"id": one.id, "customer": one.customer} for one in page.former],
        "alike": [_like(one) for one in page.alike],
        "enquiries": page.enquiries,
        "quotations": [
            row_view(one) for one in listing.listed(store, me, page.quotations, now, sums=here.prices_visible())
        ],
        "orders": [order_view(row, stand[row.number]) for row in page.orders],
        "papers": [{**slots(paper), "url": _url(paper)} for paper in page.papers],
        "history": [deed_view(deed) for deed in deeds(page.history)],
    }


def _kept(kept: Kept) -> dict[str, Any]:
    return {"id": kept.id, "customer": kept.customer, "version": kept.version, "erased": kept.erased}


def _like(like: Like) -> dict[str, Any]:
    return {**_kept(like.kept), "grounds": [ground.value for ground in like.grounds]}


def _url(paper: HeldPaper) -> str:
    asked = f"language={paper.language}&size={paper.size}"
    if paper.letter:
        which = "paper" if paper.sort == "quotation" else paper.sort
        return f"/api/quotations/{paper.number}/revisions/{paper.letter}/{which}?{asked}"
    return f"/api/documents/{paper.number}/paper?{asked}"

"""Approvals: asked for by clerk or dealer, answered by the manager alone."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort, reach
from app.domain.quotations.approval import Stage
from app.services.quotations import approving
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, edits, expected, once
from app.web.guard import does
from app.web.resources.quotations import REVISION
from app.web.schemas.approvals import (
    ApprovalAnswerIn,
    ApprovalIn,
    ApprovalOut,
    ApprovalsIn,
    NeedsOut,
    WeighedListOut,
    WeighedOut,
    WithdrawIn,
)
from app.web.views.approved import approval_view, needs_view, weighed_view
from app.web.views.paged import next_of, turn_after

ONE = f"/approvals/<{KEY}:approval>"

blp = resource("approvals", "What only a manager can allow: asked for, answered, withdrawn.")


@blp.route(f"{REVISION}/approvals", methods=["GET"])
@does(Action.READ, Sort.APPROVAL)
@blp.response(200, NeedsOut)
def needed(number: str, letter: str) -> Any:
    """Every approval that the revision's lines depend on, and how far each is."""
    return needs_view(here.store(), approving.approvals_of(here.store(), here.me(), number, letter, here.now()))


@blp.route(f"{REVISION}/approvals", methods=["POST"])
@does(Action.ASK, Sort.APPROVAL)
@creates
@edits
@blp.arguments(ApprovalIn)
@blp.response(201, ApprovalOut)
def ask_for(body: dict[str, Any], number: str, letter: str) -> Any:
    """Ask for the manager's yes to one rule on one line."""
    asked = approving.ask_for(
        here.store(),
        here.me(),
        number,
        letter,
        body["line"],
        body["rule"],
        body["note"],
        here.now(),
        expected=expected(),
        once=once(),
    )
    return approval_view(asked)


@blp.route("/approvals", methods=["GET"])
@does(Action.READ, Sort.APPROVAL)
@blp.arguments(ApprovalsIn, location="query")
@blp.response(200, WeighedListOut)
def every_approval(query: dict[str, Any]) -> Any:
    """What waits first, the oldest at the top; a dealer sees his own."""
    stage = Stage(query["stage"]) if "stage" in query else None
    found = approving.approvals(here.store(), here.me(), here.now(), stage=stage, after=turn_after(query))
    return {"approvals": [weighed_view(one) for one in found.rows], "next": next_of(found, query)}


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.APPROVAL)
@blp.response(200, WeighedOut)
def one_approval(approval: int) -> Any:
    """One request with all that whoever answers it must see."""
    return weighed_view(approving.weigh(here.store(), here.me(), approval, here.now()))


@blp.route(f"{ONE}/answer", methods=["POST"])
@does(Action.ANSWER, Sort.APPROVAL)
@creates
@blp.arguments(ApprovalAnswerIn)
@blp.response(200, WeighedOut)
def answer(body: dict[str, Any], approval: int) -> Any:
    """The manager's yes or no, with his reason."""
    granted = body["answer"] == "granted"
    approving.answer(
        here.store(), here.me(), approval, granted, body["reason"], here.now(), day=body["day"], once=once()
    )
    return weighed_view(approving.weigh(here.store(), here.me(), approval, here.now()))


@blp.route(f"{ONE}/withdraw", methods=["POST"])
@does(Action.ASK, Sort.APPROVAL)
@creates
@blp.arguments(WithdrawIn)
@blp.response(200, WeighedOut)
def withdraw(body: dict[str, Any], approval: int) -> Any:
    """Take a request back; a yes that was given only the manager takes back."""
    takes_back = reach(here.me().role, Action.ANSWER, Sort.APPROVAL) is not None
    approving.withdraw(
        here.store(), here.me(), approval, body["reason"], here.now(), takes_back=takes_back, once=once()
    )
    return weighed_view(approving.weigh(here.store(), here.me(), approval, here.now()))

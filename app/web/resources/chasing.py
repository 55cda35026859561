"""What is out and unanswered, the texts to send about it, and the record that one was sent. This sends nothing."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.quotations.chasing import Sending, Sent
from app.services.letters import chasing
from app.services.letters.chasing import Chased
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.resources.quotations import REVISION
from app.web.schemas.chasing import ChasingIn, ChasingOut, CorrespondenceIn, CorrespondenceOut, SendingIn
from app.web.views.paged import after, next_of
from app.web.views.things import slots, total_view

blp = resource("chasing", "Quotations to be chased, the texts for that, and what a person has sent.")


@blp.route("/chasing", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(ChasingIn, location="query")
@blp.response(200, ChasingOut)
def to_chase(query: dict[str, Any]) -> Any:
    """Out and unanswered: what lapses first comes first."""
    lapsed = query["which"] == "lapsed"
    ended = after(query, str, int)
    found = chasing.to_chase(here.store(), here.me(), here.now(), lapsed=lapsed, after=ended)
    return {"chased": [_chased(one) for one in found.rows], "next": next_of(found, query)}


@blp.route(f"{REVISION}/letters", methods=["GET"])
@does(Action.READ, Sort.QUOTATION)
@blp.arguments(CorrespondenceIn, location="query")
@blp.response(200, CorrespondenceOut)
def letters(query: dict[str, Any], number: str, letter: str) -> Any:
    """The texts that suit the revision as it stands, and what was sent about its quotation."""
    return _letters(number, letter, query["language"])


@blp.route(f"{REVISION}/sendings", methods=["POST"])
@does(Action.ISSUE, Sort.QUOTATION)
@creates
@blp.arguments(SendingIn)
@blp.response(201, CorrespondenceOut)
def record_sent(sending: Sending, number: str, letter: str) -> Any:
    """A person has sent it."""
    chasing.record_sent(here.store(), here.me(), number, letter, sending, here.now(), once=once())
    return _letters(number, letter, None)


def _letters(number: str, letter: str, language: str | None) -> dict[str, Any]:
    found = chasing.letters(here.store(), here.me(), number, letter, here.now(), language)
    said = chasing.sent(here.store(), here.me(), number, here.now())
    texts = [{"kind": o.kind.value, "language": o.language, "subject": o.subject, "text": o.text} for o in found]
    return {"letters": texts, "sent": [_sent(one) for one in said]}


def _sent(sent: Sent) -> dict[str, Any]:
    sending = sent.sending
    return {
        "kind": sending.kind.value,
        "way": sending.way.value,
        "to": sending.addressee,
        "sent_on": sending.sent_on,
        "text": sending.text,
        "by": sent.by,
        "by_name": here.called(sent.by),
        "at": sent.at,
    }


def _chased(one: Chased) -> dict[str, Any]:
    plain = ("number", "letter", "customer", "telephone", "email", "dealer", "issued_at", "valid_until")
    return {
        **slots(one.out, *plain),
        "state": one.standing.value,
        "left": one.pressing.left,
        "silent": one.pressing.silent,
        "last": None if one.last is None else _sent(one.last),
        "parts": one.parts,
        "approvals": one.approvals,
        "fits": [kind.value for kind in one.fits],
        "total": total_view(one.out.totals, one.out.currency),
    }

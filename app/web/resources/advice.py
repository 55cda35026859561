"""Why not, why so, and what else. Nothing is saved."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.services.answering import advising
from app.services.planning import dating
from app.web import here
from app.web.blueprint import resource
from app.web.guard import does
from app.web.resources.asking import asked_of
from app.web.schemas.advice import AlternativesOut, ReasonsOut, WhyIn, WhyOut, WishedIn
from app.web.telling import offers_view, refusal_view, why_view

blp = resource("advice", "Why something can't be built, why a detail is there, and what can be built instead.")


@blp.route("/reasons", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(WishedIn)
@blp.response(200, ReasonsOut)
def reasons(body: dict[str, Any]) -> Any:
    """Every smallest reason why a wish, or the answers themselves, can't be built."""
    refused = advising.reasons(here.store(), here.me(), asked_of(body), body["wish"], here.now())
    return refusal_view(refused, _language(body))


@blp.route("/whys", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(WhyIn)
@blp.response(200, WhyOut)
def why(body: dict[str, Any]) -> Any:
    """Why an option stands as it does."""
    grounded = advising.why(here.store(), here.me(), asked_of(body), body["option"], here.now())
    return why_view(grounded, _language(body))


@blp.route("/alternatives", methods=["POST"])
@does(Action.ASK, Sort.BOOK)
@blp.arguments(WishedIn)
@blp.response(200, AlternativesOut)
def alternatives(body: dict[str, Any]) -> Any:
    """The nearest shells that can be built, with what each costs and waits for, and when it would be ready."""
    store, me, asked, now = here.store(), here.me(), asked_of(body), here.now()
    offered = advising.alternatives(store, me, asked, body["wish"], now)
    answers = [offer.suggestion.answer for offer in (*offered.offers, *offered.keep)]
    dates = dating.dates_of(store, me, asked, answers, calendar.around, now) if answers else []
    return offers_view(offered, dates, _language(body))


def _language(body: dict[str, Any]) -> str:
    return body["language"] or here.language()

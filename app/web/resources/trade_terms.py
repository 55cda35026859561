"""Dealers' trade terms: the list that each is quoted from, and what is taken off by category."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.books import publishing
from app.services.people import trading
from app.services.people.trading import Terms
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import edits, expected, tag
from app.web.guard import does
from app.web.schemas.people import TradeTermsIn, TradeTermsListOut, TradeTermsOut
from app.web.views.ordered import happening_view
from app.web.views.things import decimal_text

blp = resource("trade-terms", "What each dealer is quoted from and what is taken off; every change with who and why.")


@blp.route("/trade-terms", methods=["GET"])
@does(Action.READ, Sort.TRADE_TERMS)
@blp.response(200, TradeTermsListOut)
def every_dealers() -> Any:
    """Every dealer's, and what lists and categories there are."""
    book = publishing.current_book(here.store(), here.now())
    categories = [{"id": one.id, "label": dict(one.label)} for one in book.categories]
    dealers = [_view(one) for one in trading.every(here.store())]
    return {"dealers": dealers, "lists": [one.id for one in book.lists], "categories": categories}


@blp.route("/trade-terms/<string(maxlength=40):dealer>", methods=["PUT"])
@does(Action.CHANGE, Sort.TRADE_TERMS)
@edits
@blp.arguments(TradeTermsIn)
@blp.response(200, TradeTermsOut)
def change(body: dict[str, Any], dealer: str) -> Any:
    """For what is quoted from now on. What is issued keeps its prices, drafts show what moved."""
    told = (body["price_list"], body["discounts"], body["why"])
    after = trading.change(here.store(), here.me(), dealer, *told, here.now(), expected=expected())
    return _view(after), tag(after.version)


def _view(terms: Terms) -> dict[str, Any]:
    one = terms.dealer
    discounts = {category: decimal_text(percent) for category, percent in one.discounts.items()}
    plain = {"dealer": one.id, "name": one.name, "country": one.country, "price_list": one.price_list}
    told = [happening_view(entry) for entry in reversed(terms.history)]
    return {**plain, "discounts": discounts, "version": terms.version, "history": told}

"""A dealer's own offers to his customers. No trade price is in any of it; while prices are hidden, no price at all."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.quotations import retailing
from app.services.quotations.retailing import RetailOffer
from app.web import here
from app.web.blueprint import resource
from app.web.files import PDF, pdf
from app.web.guard import does
from app.web.resources.quotations import REVISION
from app.web.schemas.quotations import PaperIn
from app.web.schemas.retail import RetailOut, RetailTermsIn, RetailTermsOut
from app.web.views.things import decimal_text, papers_view, slots

blp = resource("retail", "A dealer's own offers, at his own margin, before tax.")


@blp.route("/retail-terms", methods=["GET"])
@does(Action.READ, Sort.RETAIL)
@blp.response(200, RetailTermsOut)
def retail_terms() -> Any:
    """How the dealer heads his own offers, and his margin."""
    return _terms()


@blp.route("/retail-terms", methods=["PUT"])
@does(Action.CHANGE, Sort.RETAIL)
@blp.arguments(RetailTermsIn)
@blp.response(200, RetailTermsOut)
def say_retail_terms(body: dict[str, Any]) -> Any:
    """Say them: they hold for every offer printed from now on."""
    retailing.say_terms(here.store(), here.me(), **body, now=here.now())
    return _terms()


@blp.route(f"{REVISION}/retail", methods=["GET"])
@does(Action.READ, Sort.RETAIL)
@blp.response(200, RetailOut)
def retail(number: str, letter: str) -> Any:
    """What the dealer's customer pays him for this revision, before tax."""
    return _offer_view(number, retailing.offer(here.store(), here.me(), number, letter, here.now()))


@blp.route(f"{REVISION}/retail-paper", methods=["GET"])
@does(Action.READ, Sort.RETAIL)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def retail_paper(query: dict[str, str], number: str, letter: str) -> Any:
    """The dealer's own paper; while prices are hidden it names none."""
    kind, shown = (query["language"], query["size"]), here.prices_visible()
    content = retailing.paper(here.store(), here.me(), number, letter, *kind, here.now(), prices=shown)
    return pdf(content, number, letter, "offer", *kind)


def _terms() -> dict[str, Any]:
    dealer, said = retailing.terms(here.store(), here.me())
    own = {} if said is None else slots(said.terms, "address", "telephone", "email")
    margin = None if said is None or said.terms.margin is None else decimal_text(said.terms.margin)
    return {
        "dealer": dealer.id,
        "name": dealer.name,
        **{"address": "", "telephone": "", "email": "", **own},
        "margin": margin,
        "missing": ["address", "margin"] if said is None else said.terms.missing,
        "said_at": None if said is None else said.at,
        "said_by": None if said is None else here.called(said.by),
    }


def _offer_view(number: str, offer: RetailOffer) -> dict[str, Any]:
    whole, margin = offer.sum, offer.terms.margin
    at = f"/api/quotations/{number}/revisions/{offer.revision.letter}/retail-paper"
    labels = {line.id: line.label for line in offer.book.lines} | {one.id: one.label for one in offer.book.extras}
    shells = () if whole is None else whole.shells
    extras = () if whole is None else whole.extras
    return {
        "number": number,
        "letter": offer.revision.letter,
        "currency": offer.currency,
        "margin": None if margin is None else decimal_text(margin),
        "missing": offer.terms.missing,
        "shells": [
            {
                "quantity": one.number,
                "lines": [{"line": line.line, "label": labels[line.line], "amount": line.amount} for line in one.lines],
                "one": one.one,
                "all": one.all,
            }
            for one in shells
        ],
        "extras": [{"extra": one.extra, "label": labels[one.extra], "quantity": one.quantity, "each": one.each,
                    "all": one.all} for one in extras],
        "before_tax": None if whole is None else whole.before_tax,
        "papers": papers_view(offer.book, at, set(), offer.own_kind),
    }  # fmt: skip

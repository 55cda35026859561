"""What is proved of a book, its standard shells, and what a change of book does. For the office alone."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.books import proving, publishing, standard_lists
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.files import PDF, carried_off, pdf
from app.web.guard import does, refuse_hidden_prices
from app.web.schemas.proof import ComparisonOut, ProofOut, PublishedBooksOut, SaidIn, StandardShellsOut
from app.web.views.proved import comparison_view, proof_view, standard_view

blp = resource("proofs", "What is proved of a rule book before anybody asks it, and what a change of book does.")

BOOK = f"/books/<{KEY}:number>"


@blp.route("/books", methods=["GET"])
@does(Action.READ, Sort.PROOF)
@blp.response(200, PublishedBooksOut)
def all_books() -> Any:
    """Every published book, the newest first."""
    current = publishing.current_number(here.store(), here.now())
    return {"books": publishing.published_books(here.store()), "current": current}


@blp.route(f"{BOOK}/proof", methods=["GET"])
@does(Action.READ, Sort.PROOF)
@blp.arguments(SaidIn, location="query")
@blp.response(200, ProofOut)
def proof(query: dict[str, Any], number: int) -> Any:
    """Every finding with the tools as they stand, in words and with a shell that shows it."""
    return proof_view(proving.proved(here.store(), number), _language(query))


@blp.route(f"{BOOK}/standard-shells", methods=["GET"])
@does(Action.READ, Sort.PROOF)
@blp.arguments(SaidIn, location="query")
@blp.response(200, StandardShellsOut)
def standard_shells(query: dict[str, Any], number: int) -> Any:
    """Every usual specification of series, market and body: those that can be built with their prices."""
    return standard_view(proving.proved(here.store(), number), _language(query))


@blp.route(f"{BOOK}/standard-shells.csv", methods=["GET"])
@does(Action.READ, Sort.PROOF)
@blp.arguments(SaidIn, location="query")
@blp.response(200, {"type": "string"}, content_type="text/csv")
def standard_shells_csv(query: dict[str, Any], number: int) -> Any:
    """The same as CSV, a row for each shell on each list; amounts in major units."""
    refuse_hidden_prices()
    language = _language(query)
    content = standard_lists.standard_csv(proving.proved(here.store(), number), language)
    name = f"standard-shells-{number}-{language}.csv"
    return carried_off(content, "text/csv; charset=utf-8; header=present", name)


@blp.route(f"{BOOK}/standard-shells.pdf", methods=["GET"])
@does(Action.READ, Sort.PROOF)
@blp.arguments(SaidIn, location="query")
@blp.response(200, **PDF)
def standard_shells_pdf(query: dict[str, Any], number: int) -> Any:
    """The same on the firm's paper."""
    refuse_hidden_prices()
    language = _language(query)
    found = proving.proved(here.store(), number)
    content = standard_lists.standard_pdf(here.store(), found, language, here.now())
    return pdf(content, "standard-shells", str(number), language)


@blp.route(f"{BOOK}/against/<{KEY}:against>", methods=["GET"])
@does(Action.READ, Sort.PROOF)
@blp.arguments(SaidIn, location="query")
@blp.response(200, ComparisonOut)
def against(query: dict[str, Any], number: int, against: int) -> Any:
    """What the book builds and charges otherwise than the other one, exactly, with the tools as they stand."""
    return comparison_view(proving.compared(here.store(), number, against), _language(query))


def _language(query: dict[str, Any]) -> str:
    return query["language"] or here.language()

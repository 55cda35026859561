"""Rule books as readers see them."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.books import publishing
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.guard import does
from app.web.schemas.book import BookConditionsOut, BookOut, BookPricesOut
from app.web.schemas.proof import SaidIn
from app.web.telling.conditions import rule_condition
from app.web.views.things import book_prices_view, book_view

blp = resource("books", "Rule books: options, choices, rules and their reasons; prices apart.")


@blp.route("/books/current", methods=["GET"])
@does(Action.READ, Sort.BOOK)
@blp.response(200, BookOut)
def current_book() -> Any:
    """The book in force."""
    return book_view(publishing.current_book(here.store(), here.now()))


@blp.route(f"/books/<{KEY}:number>", methods=["GET"])
@does(Action.READ, Sort.BOOK)
@blp.response(200, BookOut)
def one_book(number: int) -> Any:
    """A published book by its number; it never changes."""
    return book_view(publishing.book(here.store(), number))


@blp.route(f"/books/<{KEY}:number>/conditions", methods=["GET"])
@does(Action.READ, Sort.BOOK)
@blp.arguments(SaidIn, location="query")
@blp.response(200, BookConditionsOut)
def conditions_of_a_book(query: dict[str, Any], number: int) -> Any:
    """When each rule speaks, in words of the book."""
    book, language = publishing.book(here.store(), number), query["language"] or here.language()
    return {"number": number, "rules": {rule.id: rule_condition(book, rule, language) for rule in book.rules}}


@blp.route(f"/books/<{KEY}:number>/prices", methods=["GET"])
@does(Action.READ, Sort.PRICE_LIST)
@blp.response(200, BookPricesOut)
def prices_of_a_book(number: int) -> Any:
    """Every line and extra with its amount on each list, before tax and any discount."""
    return book_prices_view(publishing.book(here.store(), number))

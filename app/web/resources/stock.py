"""Building for stock: shells that nobody ordered fill free slots and give way to whoever is promised a day."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.people import Action, Sort
from app.domain.stock import StockShell
from app.services import stocking
from app.services.pricing import day_of
from app.services.shop_calendar import told
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.dated import promise_view
from app.web.guard import does
from app.web.schemas.stock import StockCapIn, StockIn, StockOut
from app.web.views import slots
from rules.model import Book

blp = resource("stock", "What is built for stock: within a cap, and giving way to whoever is promised a day.")


@blp.route("/stock-shells", methods=["GET"])
@does(Action.READ, Sort.STOCK)
@blp.response(200, StockOut)
def the_stock() -> Any:
    """All that is planned or in the workshop for stock, by slot, and how many there may be."""
    return _stock()


@blp.route("/stock-shells", methods=["POST"])
@does(Action.CREATE, Sort.STOCK)
@creates
@blp.arguments(StockIn)
@blp.response(201, StockOut)
def build_for_stock(body: dict[str, Any]) -> Any:
    """It takes the first slot that is free beside everybody's."""
    wanted = (body["number"], body["letter"], body["line"])
    stocking.make(here.store(), here.me(), *wanted, calendar.around, here.now(), once=once())
    return _stock()


@blp.route(f"/stock-shells/<{KEY}:shell>", methods=["DELETE"])
@does(Action.CHANGE, Sort.STOCK)
@blp.response(200, StockOut)
def withdraw(shell: int) -> Any:
    """It is not built; its slot is free. What is in the workshop stays."""
    stocking.withdraw(here.store(), here.me(), shell, here.now())
    return _stock()


@blp.route("/stock-cap", methods=["PUT"])
@does(Action.CHANGE, Sort.STOCK_CAP)
@blp.arguments(StockCapIn)
@blp.response(200, StockOut)
def cap(body: dict[str, int]) -> Any:
    """From now on there may be so many. What there is already stays."""
    stocking.set_cap(here.store(), here.me(), body["cap"], here.now())
    return _stock()


def _stock() -> dict[str, Any]:
    found = stocking.stock(here.store())
    return {"cap": found.cap, "shells": [_view(*pair) for pair in found.shells]}


def _view(shell: StockShell, book: Book) -> dict[str, Any]:
    return {
        **slots(shell, "id", "number", "at", "because"),
        "what": [book.option(of).choice(had).label for of, had in told(book, shell.settled).items()],
        "plan": promise_view(book, shell.plan),
        "begun": shell.begun(day_of(book, here.now())),
        "act": shell.act.value,
    }

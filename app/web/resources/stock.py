"""Stock: built within a cap and giving way, offered where it fits, held for a quotation, given to an order."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Role, Sort
from app.services.quotations import quoting
from app.services.stock import allocating, claiming, matching, offering, seconds, stocking
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, edits, expected, once, tag
from app.web.guard import does
from app.web.resources.asking import asked_of
from app.web.resources.floor import SHELL, shown
from app.web.resources.orders import ONE as ORDER
from app.web.resources.quotations import ONE as QUOTATION
from app.web.resources.quotations import REVISION
from app.web.schemas.asking import AnswersIn
from app.web.schemas.floor import FloorShellOut
from app.web.schemas.quotations import RevisionOut
from app.web.schemas.stock import (
    AllocationIn,
    HeldForOut,
    MatchesOut,
    OffersIn,
    OffersOut,
    SecondIn,
    StockCapIn,
    StockHoursIn,
    StockIn,
    StockOut,
    TakenFromStockIn,
)
from app.web.views.quoted import revision_view
from app.web.views.stock import held_view, matches_view, offers_view, stock_view

ONE = f"/stock-shells/<{KEY}:shell>"

blp = resource("stock", "Stock: what is built and whose it is; what of it could be what a customer wants.")


@blp.route("/stock-shells", methods=["GET"])
@does(Action.READ, Sort.STOCK)
@blp.response(200, StockOut)
def the_stock() -> Any:
    """All that is planned, in the workshop or finished for stock, by slot, whose it is, and how many there may be."""
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


@blp.route(ONE, methods=["DELETE"])
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


@blp.route("/stock-hours", methods=["PUT"])
@does(Action.CHANGE, Sort.STOCK_CAP)
@blp.arguments(StockHoursIn)
@blp.response(200, StockOut)
def hours(body: dict[str, int]) -> Any:
    """For so long a shell is held for a quotation from now on."""
    stocking.set_hours(here.store(), here.me(), body["hours"], here.now())
    return _stock()


@blp.route("/stock-matches", methods=["POST"])
@does(Action.ASK, Sort.STOCK_OFFER)
@blp.arguments(AnswersIn)
@blp.response(200, MatchesOut)
def what_of_it_fits(body: dict[str, Any]) -> Any:
    """Shells of stock that could be what is specified: what differs, what is changed, the days that it saves."""
    return matches_view(matching.matches(here.store(), here.me(), asked_of(body), calendar.around, here.now()))


@blp.route(f"{QUOTATION}/stock", methods=["GET"])
@does(Action.READ, Sort.RESERVATION)
@blp.response(200, HeldForOut)
def held_for_a_quotation(number: str) -> Any:
    """The shells of stock that are held for it, and until when."""
    return _held(number)


@blp.route(f"{REVISION}/stock", methods=["POST"])
@does(Action.CREATE, Sort.RESERVATION)
@creates
@edits
@blp.arguments(TakenFromStockIn)
@blp.response(201, RevisionOut)
def take_from_stock(body: dict[str, int], number: str, letter: str) -> Any:
    """A line of the draft becomes that shell, which is held for the quotation for a while."""
    wanted = (number, letter, body["line"], body["shell"], calendar.around, here.now())
    may = here.me().role is Role.MANAGER
    claiming.take(here.store(), here.me(), *wanted, may_approve=may, expected=expected(), once=once())
    quotation = quoting.quotation(here.store(), here.me(), number, here.now())
    revision = quotation.revision(letter)
    assert revision is not None
    return revision_view(quotation, revision), tag(revision.version)


@blp.route(f"{ONE}/reservation", methods=["POST"])
@does(Action.CHANGE, Sort.RESERVATION)
@creates
@blp.response(201, HeldForOut)
def hold_longer(shell: int) -> Any:
    """Held as long again from now; once."""
    return _held(claiming.extend(here.store(), here.me(), shell, here.now(), once=once()))


@blp.route(f"{ONE}/reservation", methods=["DELETE"])
@does(Action.CHANGE, Sort.RESERVATION)
@blp.response(200, HeldForOut)
def let_go(shell: int) -> Any:
    """Held no longer: it is free."""
    return _held(claiming.let_go(here.store(), here.me(), shell, here.now()))


@blp.route(f"{ORDER}/stock-offers", methods=["GET"])
@does(Action.CREATE, Sort.ALLOCATION)
@blp.arguments(OffersIn, location="query")
@blp.response(200, OffersOut)
def offers_for_an_order(query: dict[str, int], number: str) -> Any:
    """Shells of stock that could be the order's planned one: what would be changed, and when it would be ready."""
    wanted = (number, query["shell"], calendar.around, here.now())
    return offers_view(offering.offers(here.store(), here.me(), *wanted))


@blp.route(f"{ONE}/allocation", methods=["POST"])
@does(Action.CREATE, Sort.ALLOCATION)
@creates
@blp.arguments(AllocationIn)
@blp.response(201, StockOut)
def allocate(body: dict[str, Any], shell: int) -> Any:
    """An order's planned shell is this one of stock; a slot that the order had for it is free."""
    wanted = (body["order"], body["shell"], shell, calendar.around, here.now())
    may = here.me().role is Role.MANAGER
    allocating.allocate(here.store(), here.me(), *wanted, may_approve=may, once=once())
    return _stock()


@blp.route(f"{ONE}/allocation", methods=["DELETE"])
@does(Action.CHANGE, Sort.ALLOCATION)
@blp.response(200, StockOut)
def give_up(shell: int) -> Any:
    """The order has it no more: it is free, and the order's own shell takes a slot."""
    allocating.give_up(here.store(), here.me(), shell, calendar.around, here.now())
    return _stock()


@blp.route(f"{SHELL}/second", methods=["POST"])
@does(Action.CREATE, Sort.SECOND)
@creates
@blp.arguments(SecondIn)
@blp.response(201, FloorShellOut)
def take_as_second(body: dict[str, str], shell: int) -> Any:
    """A rejected shell comes into stock as it is, to be sold as a second, with the concession that lets it."""
    seconds.take_in(here.store(), here.me(), shell, body["why"], calendar.around, here.now(), once=once())
    return shown(shell)


def _held(number: str) -> dict[str, Any]:
    return held_view(claiming.held_for(here.store(), here.me(), number, here.now()))


def _stock() -> dict[str, Any]:
    return stock_view(stocking.stock(here.store()))

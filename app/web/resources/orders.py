"""Orders: found, and what was paid for them. The customer's yes makes them, the office confirms them."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort, reach
from app.domain.money.payment import Entry
from app.services.money import accounts, billing, receiving
from app.services.money.receiving import Agreed
from app.services.orders import confirming, handing_confirmations, ordering
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.files import PDF, pdf
from app.web.guard import does, refuse_hidden_prices
from app.web.schemas.floor import ConfirmIn
from app.web.schemas.orders import (
    AgreementIn,
    MistakeIn,
    OrderNumberOut,
    OrderOut,
    OrdersOut,
    PaymentIn,
    TaxCaseIn,
    ToleranceIn,
    TolerancesOut,
)
from app.web.schemas.paging import SearchIn
from app.web.schemas.quotations import PaperIn
from app.web.views.ordered import order_view, row_view
from app.web.views.paged import next_of, turn_after

ONE = "/orders/<string(maxlength=40):number>"
PAYMENT = f"{ONE}/payments/<{KEY}:payment>"

blp = resource("orders", "Orders, their planned shells, and what was paid for them; nothing is converted.")


@blp.route("/orders", methods=["GET"])
@does(Action.READ, Sort.ORDER)
@blp.arguments(SearchIn, location="query")
@blp.response(200, OrdersOut)
def find_orders(query: dict[str, Any]) -> Any:
    """Those that hold `q`, the last made first."""
    found = ordering.orders(here.store(), here.me(), text=query["q"], after=turn_after(query))
    stand = accounts.accounts_of(here.store(), found.rows)
    return {"orders": [row_view(row, stand[row.number]) for row in found.rows], "next": next_of(found, query)}


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.ORDER)
@blp.response(200, OrderOut)
def one_order(number: str) -> Any:
    """One order with its shells, its money and its history."""
    return shown(number)


@blp.route("/quotations/<string(maxlength=40):number>/order", methods=["GET"])
@does(Action.READ, Sort.ORDER)
@blp.response(200, OrderNumberOut)
def order_of_a_quotation(number: str) -> Any:
    """The number of the order that the quotation's acceptance made."""
    return {"number": ordering.order_of(here.store(), here.me(), number)}


@blp.route(f"{ONE}/confirmation", methods=["POST"])
@does(Action.CONFIRM, Sort.ORDER)
@creates
@blp.arguments(ConfirmIn)
@blp.response(201, OrderOut)
def confirm(body: dict[str, str], number: str) -> Any:
    """Confirm the order as it stands, or be told all that it lacks. A second one for a donor car is the manager's."""
    asked = (here.store(), here.me(), number, calendar.around, here.now())
    second = reach(here.me().role, Action.CONFIRM, Sort.SECOND_ORDER) is not None
    confirming.confirm(*asked, why=body["why"], may_second=second, once=once())
    return shown(number)


@blp.route(f"{ONE}/confirmations/<string(maxlength=4):letter>/paper", methods=["GET"])
@does(Action.READ, Sort.DOCUMENT)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def confirmation_paper(query: dict[str, str], number: str, letter: str) -> Any:
    """The order confirmation of that revision: always the same bytes. Not while prices are hidden: it names them."""
    refuse_hidden_prices()
    kind = (query["language"], query["size"])
    content = handing_confirmations.paper(here.store(), here.me(), number, letter, *kind, here.now())
    return pdf(content, number, letter, *kind)


@blp.route(f"{ONE}/tax-case", methods=["POST"])
@does(Action.CHANGE, Sort.ORDER)
@creates
@blp.arguments(TaxCaseIn)
@blp.response(201, OrderOut)
def decide_tax_case(body: dict[str, str], number: str) -> Any:
    """Decide which tax case holds, where the quotation left it to a person."""
    billing.decide_tax(here.store(), here.me(), number, body["case"], body["why"], here.now(), once=once())
    return shown(number)


@blp.route(f"{ONE}/payments", methods=["POST"])
@does(Action.CREATE, Sort.PAYMENT)
@creates
@blp.arguments(PaymentIn)
@blp.response(201, OrderOut)
def record_payment(body: tuple[Entry, str], number: str) -> Any:
    """Record money as it came, or as it was paid back, in the currency in which it came."""
    entry, token = body
    receiving.record(here.store(), here.me(), number, entry, here.now(), gives_back=token, once=once())
    return shown(number)


@blp.route(f"{PAYMENT}/agreement", methods=["POST"])
@does(Action.CREATE, Sort.PAYMENT)
@creates
@blp.arguments(AgreementIn)
@blp.response(201, OrderOut)
def agree_payment(body: tuple[Agreed, str], number: str, payment: int) -> Any:
    """What money in another currency counts for, at which rate of which day, and who agreed."""
    agreed, token = body
    receiving.agree(here.store(), here.me(), number, payment, agreed, here.now(), gives_back=token, once=once())
    return shown(number)


@blp.route(f"{PAYMENT}/mistake", methods=["POST"])
@does(Action.CREATE, Sort.PAYMENT)
@creates
@blp.arguments(MistakeIn)
@blp.response(201, OrderOut)
def payment_was_mistaken(body: dict[str, str], number: str, payment: int) -> Any:
    """It was recorded by mistake: it stays, and counts for nothing."""
    told = (number, payment, body["why"], here.now())
    receiving.was_mistaken(here.store(), here.me(), *told, gives_back=body["gives_back"], once=once())
    return shown(number)


@blp.route("/tolerances", methods=["GET"])
@does(Action.READ, Sort.TOLERANCE)
@blp.response(200, TolerancesOut)
def tolerances() -> Any:
    """By how much a deposit may be short in each currency; 0 until the manager says otherwise."""
    return _tolerances()


@blp.route("/tolerances/<string(length=3):currency>", methods=["PUT"])
@does(Action.CHANGE, Sort.TOLERANCE)
@blp.arguments(ToleranceIn)
@blp.response(200, TolerancesOut)
def tolerate(body: dict[str, int], currency: str) -> Any:
    """From now on a deposit in this currency may be short by so much."""
    receiving.tolerate(here.store(), here.me(), currency, body["amount"], here.now())
    return _tolerances()


def _tolerances() -> dict[str, Any]:
    told = receiving.tolerances(here.store(), here.now())
    return {"tolerances": [{"currency": currency, "amount": amount} for currency, amount in told.items()]}


def shown(number: str) -> dict[str, Any]:
    """The order as it stands now."""
    asked = (here.store(), here.me(), number, here.now())
    return order_view(accounts.open_order(*asked), confirming.how_confirmed(*asked))

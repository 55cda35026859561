"""Documents about orders' money: written, credited, handed out always the same, exported for the bookkeeper."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.money.crediting import Credit
from app.services.money import balancing, billing, bookkeeping, handing_documents, refunding
from app.services.money.refunding import Decided
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.files import PDF, carried_off, pdf
from app.web.guard import does, refuse_hidden_prices
from app.web.resources.orders import ONE, shown
from app.web.schemas.orders import (
    BalanceIn,
    CreditIn,
    DepositIn,
    KeptIn,
    OrderOut,
    PeriodIn,
    WorksheetIn,
    WorksheetOut,
)
from app.web.schemas.quotations import PaperIn
from app.web.views.ordered import worksheet_view

DOCUMENT = "/documents/<string(maxlength=40):number>"

blp = resource("documents", "Deposit invoices, invoices, credit notes and refund worksheets; none ever changes.")


@blp.route(f"{ONE}/deposit-invoices", methods=["POST"])
@does(Action.CREATE, Sort.DOCUMENT)
@creates
@blp.arguments(DepositIn)
@blp.response(201, OrderOut)
def bill_deposit(body: dict[str, Any], number: str) -> Any:
    """Write the document of a payment in advance, at the tax point of the day on which it came."""
    told = {"exchange": body["exchange"], "once": once()}
    billing.bill_deposit(here.store(), here.me(), number, body["payment"], here.now(), **told)
    return shown(number)


@blp.route(f"{ONE}/invoices", methods=["POST"])
@does(Action.CREATE, Sort.DOCUMENT)
@creates
@blp.arguments(BalanceIn)
@blp.response(201, OrderOut)
def bill_balance(body: dict[str, Any], number: str) -> Any:
    """Write the invoice of one shell, or of all that is not billed yet, with what was billed in advance set off."""
    told = {"shell": body["shell"], "exchange": body["exchange"], "once": once()}
    balancing.bill_balance(here.store(), here.me(), number, here.now(), **told)
    return shown(number)


@blp.route(f"{ONE}/credit-notes", methods=["POST"])
@does(Action.CREATE, Sort.DOCUMENT)
@creates
@blp.arguments(CreditIn)
@blp.response(201, OrderOut)
def credit(wanted: Credit, number: str) -> Any:
    """Write a credit note on one line of one document, for a reason."""
    billing.credit(here.store(), here.me(), number, wanted, here.now(), once=once())
    return shown(number)


@blp.route(f"{ONE}/refund-sum", methods=["POST"])
@does(Action.CREATE, Sort.REFUND)
@blp.arguments(KeptIn)
@blp.response(200, WorksheetOut)
def refund_sum(body: dict[str, int], number: str) -> Any:
    """What comes of keeping so much. Nothing is written, and nothing proposed."""
    return worksheet_view(refunding.refund_sum(here.store(), here.me(), number, body["kept"], here.now()))


@blp.route(f"{ONE}/refund-worksheets", methods=["POST"])
@does(Action.CREATE, Sort.REFUND)
@creates
@blp.arguments(WorksheetIn)
@blp.response(201, OrderOut)
def write_worksheet(decided: Decided, number: str) -> Any:
    """Write down a refund as it was decided. It pays nothing back and credits nothing."""
    refunding.write_worksheet(here.store(), here.me(), number, decided, here.now(), once=once())
    return shown(number)


@blp.route(f"{ONE}/refund-worksheets/<string(maxlength=40):worksheet>/credit-notes", methods=["POST"])
@does(Action.CREATE, Sort.REFUND)
@creates
@blp.response(201, OrderOut)
def credit_refund(number: str, worksheet: str) -> Any:
    """Write the credit notes of a worksheet: once."""
    refunding.credit_refund(here.store(), here.me(), number, worksheet, here.now(), once=once())
    return shown(number)


@blp.route(f"{DOCUMENT}/paper", methods=["GET"])
@does(Action.READ, Sort.DOCUMENT)
@blp.arguments(PaperIn, location="query")
@blp.response(200, **PDF)
def document_paper(query: dict[str, str], number: str) -> Any:
    """The paper, always the same bytes."""
    refuse_hidden_prices()
    kind = (query["language"], query["size"])
    return pdf(handing_documents.paper(here.store(), here.me(), number, *kind), number, *kind)


@blp.route(f"{DOCUMENT}/ubl", methods=["GET"])
@does(Action.READ, Sort.DOCUMENT)
@blp.response(200, {"type": "string"}, content_type="application/xml")
def document_ubl(number: str) -> Any:
    """UBL 2.1: an Invoice or a CreditNote, always the same bytes."""
    refuse_hidden_prices()
    return carried_off(handing_documents.ubl(here.store(), here.me(), number), "application/xml", f"{number}.xml")


@blp.route("/bookkeeping.csv", methods=["GET"])
@does(Action.READ, Sort.BOOKKEEPING)
@blp.arguments(PeriodIn, location="query")
@blp.response(200, {"type": "string"}, content_type="text/csv")
def bookkeeping_export(query: dict[str, Any]) -> Any:
    """Every document dated and every payment that came or went from `since` to `until`, both days included."""
    text = bookkeeping.exported(here.store(), query["since"], query["until"])
    return carried_off(text, "text/csv; charset=utf-8", f"bookkeeping-{query['since']}-{query['until']}.csv")

"""An order as plain data: what it follows, its shells, its money and its documents. Shaping only."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from app.documents.saying.figures import Figures
from app.domain.money.account import Account
from app.domain.money.crediting import credits_of, left_of_line
from app.domain.money.invoice import Document, Kind, Stated, Worksheet
from app.domain.money.payment import Payment, counted
from app.domain.orders.confirming import Confirmation, Lack, Lacking
from app.domain.orders.order import Order, OrderLine, OrderRow, Shell, case_of
from app.domain.orders.pending import MovedShell, Pending
from app.domain.quotations.quotation import Happening
from app.services.books import publishing
from app.services.money import stating
from app.services.money.accounts import Opened
from app.services.orders.confirming import Confirmed, HowConfirmed, fault_of
from app.services.quotations.papering import kind_for
from app.web import here
from app.web.addressed import fault_said
from app.web.problems import told_facts
from app.web.views.subjects import told_subject, zones_said
from app.web.views.things import decimal_text, papers_view, slots, stage_label, tax_case_view
from app.wording import knows, locale_of, say
from rules.model import Book, Role
from rules.money.settlement import tax_of
from rules.money.totals import CaseTotal, TaxedSum


def order_view(opened: Opened, how: HowConfirmed) -> dict[str, Any]:
    """All that the order's page shows."""
    order = opened.order
    book = publishing.book(here.store(), order.revision.book or 0)
    return {
        **_head(order, how.confirmation),
        "confirmations": [_confirmation(order, book, one) for one in how.every],
        "lacks": [_lack(lack) for lack in how.lacks],
        "state_tax_in": _state_tax_in(book, order),
        "lines": [_line(book, line, how.lacks, at) for at, line in enumerate(order.lines, start=1)],
        "gates": [{"gate": gate, "open": open_} for gate, open_ in _gates(opened, how.lacks)],
        "account": account_view(opened.account),
        "open_cases": list(_open_cases(order)),
        "pending": opened.pending and _pending(opened.pending, order.frozen.currency),
        "decision": None if order.decision is None else _decision(order),
        "payments": [_payment(opened, book, payment) for payment in opened.payments],
        "documents": [_document(opened, book, document) for document in opened.documents],
        "history": [happening_view(_worded(entry, book)) for entry in order.history],
    }


def _worded(entry: Happening, book: Book) -> Happening:
    """Stages, weld zones and what a concession or rework is about by their names in the reader's language."""
    words: dict[str, Callable[[str], str]] = {
        "stage": lambda stage: _stage_said(book, stage),
        "subject": lambda about: told_subject(book, about),
        "zones": lambda zones: zones_said(book, zones),
        "phase": lambda phase: say(f"phase.{phase}", here.language()),
        "verdict": lambda verdict: say(f"verdict.{verdict}", here.language()),
    }
    told = {name: words[name](fact) if name in words else fact for name, fact in entry.facts.items()}
    return replace(entry, facts=told)


def _stage_said(book: Book, stage: str) -> str:
    return next((one.label.get(here.language(), stage) for one in book.stages if one.id == stage), stage)


def row_view(row: OrderRow, account: Account) -> dict[str, Any]:
    """An order as the list shows it."""
    return {
        **slots(row),
        "cancelled": bool(row.cancelled),
        "deposit_met": account.deposit_met,
        "account": account_view(account),
    }


def account_view(account: Account) -> dict[str, Any]:
    names = ("currency", "payable", "deposit", "deposit_tax", "received", "short", "tolerance", "due", "over")
    return slots(account, *names)


def worksheet_view(sheet: Worksheet) -> dict[str, Any]:
    """With what is paid back and kept of each category and rate."""
    shares = {name: [_taxed(row) for row in getattr(sheet, name)] for name in ("received", "refunded", "kept")}
    told = {"stage": sheet.stage, "hours": sheet.hours, "resale": sheet.resale}
    return {**told, **shares, "documents": sheet.documents}


def _head(order: Order, confirmation: Confirmation | None) -> dict[str, Any]:
    frozen = order.frozen
    return {
        "number": order.number,
        "quotation": order.quotation,
        "letter": order.revision.letter,
        "followed": [basis.letter for basis in order.bases],
        "state": order.state.value,
        "confirmed": confirmation is not None,
        "dealer": order.dealer,
        "customer": frozen.customer.name,
        "customer_country": frozen.customer.country,
        "donor_number": frozen.donor.number_text,
        "currency": frozen.currency,
        "made_at": order.made_at,
        "made_by_name": here.called(order.made_by),
    }


def _lack(lack: Lack) -> dict[str, Any]:
    return {"what": lack.what.value, "rule": lack.rule, "says": fault_said(fault_of(lack))}


def _confirmation(order: Order, book: Book, one: Confirmed) -> dict[str, Any]:
    told, at = one.confirmation, f"/api/orders/{order.number}/confirmations/{one.confirmation.letter}/paper"
    frozen = order.frozen
    own = kind_for(book, frozen.customer, order.revision.delivery_place.country)
    return {
        **slots(told, "letter", "at", "why"),
        "by_name": here.called(told.by),
        "papers": papers_view(book, at, {(paper.language, paper.size) for paper in one.papers}, own),
    }


def _state_tax_in(book: Book, order: Order) -> str | None:
    case = case_of(order)
    return None if case is None else stating.wanted(book, order.frozen.currency, case.sum.taxed)


def _line(book: Book, line: OrderLine, lacks: tuple[Lack, ...], at: int) -> dict[str, Any]:
    """`at`: which line it is, from 1."""
    frozen = line.line.frozen
    assert frozen is not None
    return {
        "name": shell_name(book, frozen.settled),
        "quantity": line.line.quantity,
        "settled": frozen.settled,
        "parts": frozen.depends.parts,
        "approvals": frozen.depends.approvals,
        "awaits": [lack.rule for lack in lacks if lack.what is Lacking.APPROVAL and lack.line == at],
        "shells": [_shell(book, shell) for shell in line.shells],
        "net": line.net,
    }


def _shell(book: Book, shell: Shell) -> dict[str, Any]:
    stands, replaced = shell.progress, [before.serial for before in shell.replaced if before.serial]
    sheet = None if shell.sheet is None else shell.sheet.revision
    told = {"id": shell.id, "place": shell.place, "serial": shell.serial, "sheet": sheet, "replaced": replaced}
    stage = {"stage": stands.stage, "stage_label": stage_label(book, stands.stage)}
    return {**told, "state": shell.state.value, "stock": shell.stock, **stage}


def shell_name(book: Book, settled: Mapping[str, str]) -> dict[str, str]:
    """A shell in a few words of every language: series, body, steering, market."""
    roles = [book.roles[role] for role in (Role.SERIES, Role.BODY, Role.STEERING, Role.MARKET) if role in book.roles]
    labels = [book.option(option).choice(settled[option]).label for option in roles if option in settled]
    return {language: " · ".join(label.get(language, "") for label in labels) for language in book.languages}


def _gates(opened: Opened, lacks: tuple[Lack, ...]) -> Iterator[tuple[str, bool | None]]:
    """What an order waits for. Parts are no matter of its confirmation: each stops its own shell before its stage."""
    frozen = [line.line.frozen for line in opened.order.lines if line.line.frozen is not None]
    missing = {lack.what for lack in lacks}
    yield "deposit", opened.account.deposit_met
    yield "specification", Lacking.SPECIFICATION not in missing
    if any(one.depends.parts for one in frozen):
        yield "parts", None
    if any(one.depends.approvals for one in frozen):
        yield "approvals", Lacking.APPROVAL not in missing


def _open_cases(order: Order) -> Iterator[dict[str, Any]]:
    totals = order.totals
    for case in () if totals.decided else totals.cases:
        view = tax_case_view(case, here.language())
        plain = {name: view[name] for name in ("case", "reason", "payable", "deposit")}
        yield {**plain, "says": _says_security(case, order.frozen.currency)}


def _says_security(case: CaseTotal, currency: str) -> str:
    """What is usually done in doubt, of the case that is taxed."""
    if not case.sum.tax:
        return ""
    money = Figures(locale_of(here.language()), currency).money
    return say("tax-case.security", here.language(), sum=money(case.sum.tax))


def _pending(out: Pending, currency: str) -> dict[str, Any]:
    """The later revision's sums, and what each shell that stays costs more or less, as a sentence to be read out."""
    sums = {"payable": out.case and out.case.sum.payable, "deposit": out.case and out.case.deposit}
    moved = [{**slots(one), "says": _says_moved(one, currency)} for one in out.moved]
    return {"letter": out.letter, **sums, "moved": moved}


def _says_moved(moved: MovedShell, currency: str) -> str:
    money = Figures(locale_of(here.language()), currency).money
    slots = {"shells": moved.shells, "each": money(abs(moved.each)), "taxed": money(abs(moved.taxed))}
    key = ("dearer" if moved.each > 0 else "cheaper") + ("-one" if moved.shells == 1 else "")
    return say(f"pending.{key}", here.language(), **slots)


def _decision(order: Order) -> dict[str, Any]:
    decided = order.decision
    assert decided is not None
    return {"case": decided.case, "why": decided.why, "at": decided.at, "by_name": here.called(decided.by)}


def _payment(opened: Opened, book: Book, payment: Payment) -> dict[str, Any]:
    entry, agreed = payment.entry, payment.agreement
    return {
        "id": payment.id,
        "direction": entry.direction.value,
        "amount": entry.amount,
        "currency": entry.currency,
        "counts_for": counted(payment, opened.order.frozen.currency),
        "day": entry.day,
        "means": entry.means.value,
        "note": entry.note,
        "at": payment.at,
        "by_name": here.called(payment.by),
        "agreement": agreed and {**slots(agreed), "by_name": here.called(agreed.by)},
        "mistake": payment.mistake and payment.mistake.why,
        "document": payment.document,
        "says": list(_says(opened, book, payment)),
    }


def _says(opened: Opened, book: Book, payment: Payment) -> Iterator[str]:
    """Of money in another currency: what must be agreed of it, and that there is no such list."""
    frozen, paid = opened.order.frozen, payment.entry.currency
    if payment.mistake is not None or paid == frozen.currency:
        return
    if payment.agreement is None:
        yield say("payment.other-currency", here.language(), currency=frozen.currency)
    if all(listed.currency != paid for listed in book.lists):
        slots = {"paid": paid, "customer": frozen.customer.name, "currency": frozen.currency}
        yield say("payment.no-list", here.language(), **slots)


def _document(opened: Opened, book: Book, document: Document) -> dict[str, Any]:
    content, whole = document.content, document.content.sum
    plain = ("number", "kind", "dated", "tax_point", "currency", "credited_line", "why", "concession")
    return {
        **slots(content, *plain),
        "kind": content.kind.value,
        "net": whole.without_tax,
        "tax": whole.tax,
        "with_tax": whole.with_tax,
        "prepaid": whole.prepaid,
        "payable": whole.payable,
        "taxed": [_taxed(row) for row in whole.taxed],
        "lines": list(_lines(opened, document)),
        "credits": content.credits or None,
        "granted": content.granted and slots(content.granted),
        "follows": next((one.number for one in opened.documents if one.id == document.worksheet), None),
        "worksheet": content.worksheet and worksheet_view(content.worksheet),
        "stated": content.stated and _stated(content.stated),
        "credited_by": [one.number for one in credits_of(document, opened.documents)],
        "by_name": here.called(document.by),
        "at": document.at,
        "papers": _papers(opened, book, document),
        "ubl": None if document.kind is Kind.WORKSHEET else f"/api/documents/{document.number}/ubl",
    }


def _lines(opened: Opened, document: Document) -> Iterator[dict[str, Any]]:
    bills = document.kind in (Kind.DEPOSIT, Kind.BALANCE)
    for number, line in enumerate(document.content.lines, start=1):
        left = left_of_line(document, number, opened.documents) if bills and line.net > 0 else None
        yield {"line": number, "name": line.name, "quantity": line.quantity, "net": line.net, "left": left}


def _taxed(row: TaxedSum) -> dict[str, Any]:
    sums = {"net": row.taxable, "tax": row.tax, "with_tax": row.taxable + row.tax}
    return {"category": row.category, "percent": decimal_text(row.percent), **sums}


def _stated(stated: Stated) -> dict[str, Any]:
    sums = {"tax": tax_of(stated.rows), "taxed": [_taxed(row) for row in stated.rows]}
    return {"currency": stated.currency, **sums, **slots(stated.exchange)}


def _papers(opened: Opened, book: Book, document: Document) -> list[dict[str, Any]]:
    own = (document.content.language, document.content.size)
    stored = {(paper.language, paper.size) for paper in opened.papers.get(document.number, ())}
    return papers_view(book, f"/api/documents/{document.number}/paper", stored, own)


def happening_view(entry: Happening) -> dict[str, Any]:
    """An entry of the history as a sentence."""
    key = f"history.{entry.what}"
    what = say(key, here.language(), **told_facts(entry.facts, here.language())) if knows(key) else entry.what
    by_name = here.called(entry.by)
    return {"at": entry.at, "by": entry.by, "by_name": by_name, "kind": entry.what, "what": what}

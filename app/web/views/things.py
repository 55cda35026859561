"""Things of the engine and the domain as plain data for the schemas. Shaping only: no amount is hidden here."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Any

from app.services.quotations.papering import Kind as PaperKind
from app.services.quotations.papering import kinds
from app.wording import say
from rules.answer import Depends
from rules.model import Book, Extra, Kind, Line, Rule, Words
from rules.money.price import LineNet, ShellPrice
from rules.money.tax import TaxRefusal
from rules.money.totals import CaseTotal, Totals
from rules.schedule.promise import Promise


def slots(thing: Any, *names: str) -> dict[str, Any]:
    """Name → value of everything that a frozen type with slots holds; with `names`, of these alone."""
    return {name: getattr(thing, name) for name in names or thing.__slots__}


def range_view(promise: Promise) -> dict[str, Any]:
    """From when to when it is ready, and the ISO 8601 weeks of both."""
    return {
        **slots(promise, "ready", "ready_by"),
        "weeks": [week_text(promise.ready), week_text(promise.ready_by)],
    }


def week_text(day: date) -> str:
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02d}"


def book_view(book: Book) -> dict[str, Any]:
    """A book without its prices and conditions."""
    return {
        "number": book.number,
        "title": book.title,
        "languages": book.languages,
        "groups": book.groups,
        "options": book.options,
        "rules": [_rule(rule) for rule in book.rules],
        "tools": book.tools,
        "lists": book.lists,
        "categories": book.categories,
        "adjustments": book.adjustments,
        "extras": book.extras,
        "series": book.series,
        "gearboxes": book.gearboxes,
        "roles": {role.value: option for role, option in book.roles.items()},
        "delivery": book.tax.goes,
        "terms": book.terms,
        "draws": bool(book.drawing),
        "cautions": [{"id": c.id, "text": c.text, "papers": sorted(c.papers)} for c in book.cautions],
    }


def book_prices_view(book: Book) -> dict[str, Any]:
    """What stands on the lists of a book."""
    return {
        "number": book.number,
        "lists": book.lists,
        "lines": [_priced(book, line, line.option, line.choice, None) for line in book.lines],
        "extras": [_priced(book, extra, None, None, extra.unit) for extra in book.extras],
    }


def _priced(book: Book, priced: Line | Extra, option: str | None, choice: str | None, unit: Any) -> dict[str, Any]:
    return {
        "id": priced.id,
        "label": priced.label,
        "category": priced.category,
        "option": option,
        "choice": choice,
        "unit": unit,
        "amounts": {listed.id: priced.amounts.get(listed.id) for listed in book.lists},
    }


def depends_view(depends: Depends) -> dict[str, Any]:
    """Rule ids by kind."""
    return {
        "parts": depends.parts,
        "approvals": depends.approvals,
        "cautions": depends.cautions,
        "holds": depends.holds,
        "tools": depends.tools,
    }


def price_view(book: Book, price: ShellPrice) -> dict[str, Any]:
    """One shell's price with its labels."""
    by_id = {line.id: line for line in book.lines}
    return {
        "lines": [line_view(net, by_id.get(net.line)) for net in price.lines],
        "unpriced": [{"line": line, "label": _label(by_id.get(line), line)} for line in price.unpriced],
        "net": price.net,
    }


def line_view(net: LineNet, line: Line | None) -> dict[str, Any]:
    """One line of a price; `list_amount` None where a waived line is not on the list."""
    return {
        "line": net.line,
        "label": _label(line, net.line),
        "category": net.category,
        "option": line.option if line else None,
        "choice": line.choice if line else None,
        "list_amount": net.listed,
        "adjustments": net.adjustments,
        "adjusted": net.adjusted,
        "discount": net.discount,
        "several": net.several,
        "net": net.net,
    }


def _label(line: Line | None, line_id: str) -> Any:
    return line.label if line else {"en": line_id}


def _rule(rule: Rule) -> dict[str, Any]:
    kinds = [kind.value for kind in Kind if kind in rule.kinds]
    return {"id": rule.id, "kinds": kinds, "title": rule.title, "reason": rule.reason, "part": rule.part}


def totals_view(totals: Totals | None, currency: str, language: str) -> dict[str, Any] | None:
    """The totals with their tax cases, the reasons in the reader's language."""
    if totals is None:
        return None
    cases = [tax_case_view(case, language) for case in totals.cases]
    return {"currency": currency, "lines_net": totals.lines_net, "tax_cases": cases, "decided": totals.decided}


def total_view(totals: Totals | None, currency: str) -> dict[str, Any] | None:
    """What a list shows of the totals: with tax, in each case that a person may still choose."""
    if totals is None:
        return None
    with_tax = [case.sum.with_tax for case in totals.cases]
    return {"currency": currency, "with_tax": with_tax, "decided": totals.decided}


def tax_case_view(total: CaseTotal, language: str) -> dict[str, Any]:
    """One tax case; where lines are taxed differently the highest rate is named and every reason said."""
    return {
        "case": total.kind,
        "reason": " ".join(dict.fromkeys(_reasons(total, language))),
        "tax_percent": decimal_text(max((row.percent for row in total.sum.taxed), default=Decimal(0))),
        "tax": total.sum.tax,
        "with_tax": total.sum.with_tax,
        "payable": total.sum.payable,
        "deposit": total.deposit,
        "deposit_tax": total.deposit_tax,
        "balance": total.balance,
    }


def untold_view(refusal: TaxRefusal | None, language: str) -> dict[str, Any] | None:
    """Why no tax case can be named, as a sentence."""
    if refusal is None:
        return None
    text = say(f"tax-untold.{refusal.why}", language, **refusal.fields)
    return {"why": refusal.why, "text": text, "fitting": refusal.fitting}


def papers_view(book: Book, at: str, stored: set[PaperKind], own: PaperKind | None) -> list[dict[str, Any]]:
    """Each kind of paper under its address `at`; `own`: the kind that is made for whom it goes to."""
    return [
        {
            "language": kind[0],
            "size": kind[1],
            "url": f"{at}?language={kind[0]}&size={kind[1]}",
            "stored": kind in stored,
            "own": kind == own,
        }
        for kind in kinds(book)
    ]


def stage_label(book: Book, stage: str | None) -> Words | None:
    """What the stage with this id is called; None where the book has no such."""
    return next((one.label for one in book.stages if one.id == stage), None)


def decimal_text(value: Decimal) -> str:
    """20 rather than 20.00 or 2E+1."""
    return f"{value.normalize():f}"


def _reasons(total: CaseTotal, language: str) -> Iterator[str]:
    for part in total.parts:
        yield say(f"tax.{part.reason}", language, percent=decimal_text(part.percent))
    for caution in dict.fromkeys(caution for part in total.parts for caution in part.cautions):
        yield say(f"tax-caution.{caution}", language)

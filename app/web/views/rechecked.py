"""A comparison of then and now as plain data for the schemas. Shaping only; labels are of either side's book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from app.domain.quotations.changes import Moved
from app.domain.quotations.then_and_now import AnswerRow, LineThenAndNow, PriceRow, RuleRow, Stood, ThenAndNow
from app.services.quotations.rechecking import Rechecked
from rules.model import Book, ToolCondition, Words


def rechecked_view(found: Rechecked, now: datetime) -> dict[str, Any]:
    """Everything, moved or not, in the order of the book of now; what only then had comes last."""
    held, books = found.found, found.books
    then = {"book": found.then.book, "tool_state": found.then.tool_state, "at": found.then.at}
    return {
        "state": found.revision.standing.value,
        "then": then,
        "now": {"book": books.after.number, "tool_state": found.tools.after.number, "at": now},
        "comparable": held is not None,
        "moved": held is not None and held.moved,
        "advice": found.advice,
        "answers_moved": 0 if held is None else sum(len(line.answers) for line in held.lines),
        "tools": list(_tools(found)),
        **(_NOTHING if held is None else _held(held, books)),
    }


_NOTHING: Mapping[str, Any] = {"lines": [], "extras": [], "sums": None, "ready": {"before": None, "after": None}}


def _held(held: ThenAndNow, books: Moved[Book]) -> dict[str, Any]:
    labels = _labels(books)
    return {
        "lines": [_line(line, books, labels) for line in held.lines],
        "extras": [_price(row, labels) for row in held.extras],
        "sums": held.sums,
        "ready": held.ready,
    }


def _line(line: LineThenAndNow, books: Moved[Book], labels: Mapping[str, Words]) -> dict[str, Any]:
    verdict = line.verdict
    return {
        "line": line.line,
        "moved": line.moved,
        "verdict": {"before": _value(verdict.before), "after": _value(verdict.after)},
        "answers": [_answer(row, books) for row in line.answers],
        "rules": [_rule(row, labels) for row in line.rules],
        "come": line.come,
        "gone": line.gone,
        "prices": [_price(row, labels) for row in line.prices],
        "net": line.net,
        "ready": line.ready,
    }


def _value(verdict: Any) -> str | None:
    return None if verdict is None else str(verdict.value)


def _answer(row: AnswerRow, books: Moved[Book]) -> dict[str, Any]:
    return {
        "option": row.option,
        "label": _option(books.after, row.option) or _option(books.before, row.option) or {"en": row.option},
        "typed": row.typed,
        "before": _stood(row.before, books.before, row.option),
        "after": _stood(row.after, books.after, row.option),
    }


def _stood(stood: Stood | None, book: Book, option: str) -> dict[str, Any] | None:
    if stood is None:
        return None
    choices = next((one.choices for one in book.options if one.id == option), ())
    label = next((choice.label for choice in choices if choice.id == stood.choice), None)
    return {"choice": stood.choice, "choice_label": label, "closed": stood.closed, "usual": stood.usual}


def _option(book: Book, option: str) -> Words | None:
    return next((one.label for one in book.options if one.id == option), None)


def _rule(row: RuleRow, labels: Mapping[str, Words]) -> dict[str, Any]:
    reason = labels.get(row.id, {"en": row.id})
    return {
        "id": row.id,
        "sort": row.sort,
        "reason": reason,
        "before": row.before,
        "after": row.after,
        "moved": row.moved,
    }


def _price(row: PriceRow, labels: Mapping[str, Words]) -> dict[str, Any]:
    sides = {"before": row.before, "after": row.after}
    amounts = {side: one and {"list_amount": one.listed, "net": one.net} for side, one in sides.items()}
    return {"line": row.id, "label": labels.get(row.id, {"en": row.id}), "moved": row.moved, **amounts}


def _labels(books: Moved[Book]) -> dict[str, Words]:
    """Reasons of rules and tools, labels of price lines and extras, by id; those of now where both have one."""
    return dict(pair for book in (books.before, books.after) for pair in _of(book))


def _of(book: Book) -> Iterator[tuple[str, Words]]:
    yield from ((rule.id, rule.reason) for rule in book.rules)
    yield from ((tool.id, tool.reason) for tool in book.tools)
    yield from ((line.id, line.label) for line in book.lines)
    yield from ((extra.id, extra.label) for extra in book.extras)


def _tools(found: Rechecked) -> Iterator[dict[str, Any]]:
    before, after = found.tools.before.conditions(), found.tools.after.conditions()
    for tool in found.books.after.tools:
        was, now = before.get(tool.id, ToolCondition.OK), after.get(tool.id, ToolCondition.OK)
        if was is not now:
            yield {"tool": tool.id, "label": tool.label, "before": was.value, "after": now.value}

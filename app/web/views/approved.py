"""Approvals as plain data for the schemas. Shaping only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from app.domain.quotations.approval import Act, Approval, Need, structure_of
from app.services.books import publishing
from app.services.quotations.approving import Weighed
from app.store.db import Store
from app.web import here
from app.web.views.things import slots, total_view
from rules.model import Book, Kind, Rule


def needs_view(store: Store, needs: Sequence[Need]) -> dict[str, Any]:
    """What lines need, in the words of the book that asked, or of the one in force."""
    current = publishing.current_book(store, here.now())
    return {"approvals": [_need(store, current, need) for need in needs], "open": sum(not n.met for n in needs)}


def approval_view(approval: Approval) -> dict[str, Any]:
    """A request as it was made, and all that was said of it."""
    return _approval(approval)


def weighed_view(weighed: Weighed) -> dict[str, Any]:
    """A request with the whole shell in words, what is bound first."""
    rule = _rule(weighed.book, weighed.approval.rule)
    return {
        "approval": _approval(weighed.approval),
        "stage": weighed.stage.value,
        "letter": weighed.letter,
        "line": weighed.line,
        **_words(rule),
        "cautions": rule is not None and Kind.CAUTION in rule.kinds,
        "customer": weighed.customer,
        "dealer": weighed.dealer,
        "state": weighed.quotation_stands.value,
        "specification": list(_specification(weighed)),
        "total": total_view(weighed.totals, weighed.currency),
    }


def _need(store: Store, current: Book, need: Need) -> dict[str, Any]:
    book = current if need.approval is None else publishing.book(store, need.approval.book)
    approval = None if need.approval is None else _approval(need.approval)
    return {
        "line": need.line,
        "rule": need.rule,
        **_words(_rule(book, need.rule)),
        "met": need.met,
        "approval": approval,
    }


def _approval(approval: Approval) -> dict[str, Any]:
    plain = ("id", "number", "letter", "line", "rule", "asked_at", "asked_by", "note")
    return {
        **slots(approval, *plain),
        "stage": approval.stage.value,
        "asked_by_name": here.called(approval.asked_by),
        "acts": [_act(act) for act in approval.acts],
    }


def _act(act: Act) -> dict[str, Any]:
    said = slots(act, "at", "by", "day", "reason")
    return {**said, "stage": act.stage.value, "by_name": here.called(act.by)}


def _specification(weighed: Weighed) -> Iterator[dict[str, Any]]:
    bound = structure_of(weighed.book, weighed.settled)
    for option in weighed.book.options:
        choice = weighed.settled.get(option.id)
        if choice is not None:
            standing = weighed.standing.get(option.id)
            yield {
                "option": option.id,
                "label": option.label,
                "choice": choice,
                "choice_label": next((one.label for one in option.choices if one.id == choice), {"en": choice}),
                "standing": standing and standing.value,
                "bound": option.id in bound,
                "unusual": option.id in weighed.unusual,
            }


def _rule(book: Book, rule_id: str) -> Rule | None:
    return next((rule for rule in book.rules if rule.id == rule_id), None)


def _words(rule: Rule | None) -> dict[str, Any]:
    return {"title": rule.title if rule else {}, "reason": rule.reason if rule else {}}

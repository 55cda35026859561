"""What a rehearsal found as plain data for the schemas, its causes in the draft's own sentences. Shaping only."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from app.domain.books.book_draft import BookDraft
from app.domain.books.rehearsal import KnownHeld, Rehearsal, TouchedRevision
from app.services.books import drafting, rehearsing
from app.store.db import Store
from app.web import here
from app.web.views.things import slots
from rules.model import Book, Known

_NOTHING: Mapping[str, Any] = {
    "done": 0, "of": 0, "against": None, "tool_state": None, "at": None, "by_name": None, "looked_at": None,
    "touched": [], "known": [], "stored": None,
}  # fmt: skip


def rehearsal_view(store: Store, draft: BookDraft, now: datetime, language: str) -> dict[str, Any]:
    """Done before underway: what was found once stays true of the very text."""
    found, told = rehearsing.rehearsed(store, draft, now), rehearsing.progress(store, draft)
    book = drafting.read(draft.text).book
    if found is not None and book is not None:
        return {**_NOTHING, "state": "done", **_found(book, found, language)}
    if told is None:
        return {**_NOTHING, "state": "none"}
    return {**_NOTHING, "state": "failed" if told.failed else "underway", "done": told.done, "of": told.of}


def _found(book: Book, found: Rehearsal, language: str) -> dict[str, Any]:
    known = {one.id: one for one in book.known}
    return {
        "against": found.against,
        "tool_state": found.tool_state,
        "at": found.at,
        "by_name": here.called(found.by),
        "looked_at": found.looked_at,
        "touched": [_touched(book, one, language) for one in found.touched],
        "known": [_known(book, one, known[one.id]) for one in found.known],
        "stored": found.stored,
    }


def _touched(book: Book, one: TouchedRevision, language: str) -> dict[str, Any]:
    said = {rule.id: rule.reason for rule in book.rules} | {tool.id: tool.reason for tool in book.tools}
    reasons = dict.fromkeys(name for cause in one.causes for name in cause)
    return {
        **slots(one, "number", "letter", "customer", "shells", "advice", "causes"),
        **slots(one, "answers", "comparable", "currency", "before", "after"),
        "standing": one.standing.value,
        "reasons": [said.get(name, {}).get(language, name) for name in reasons],
        "verdicts": [
            {
                "line": moved.line,
                "before": moved.before and moved.before.value,
                "after": moved.after and moved.after.value,
            }
            for moved in one.verdicts
        ],
    }


def _known(book: Book, held: KnownHeld, known: Known) -> dict[str, Any]:
    currencies = {one.id: one.currency for one in book.lists}
    return {
        "id": held.id,
        "label": known.label,
        "fault": held.is_fault,
        "wrong": held.wrong,
        "known_answer": known.answer,
        "known_because": sorted(known.because),
        "known_price": known.price and known.price[1],
        "answer": held.answer,
        "because": held.because,
        "price": held.price,
        "currency": known.price and currencies[known.price[0]],
    }

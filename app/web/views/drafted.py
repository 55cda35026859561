"""Book drafts as plain data for the schemas. Shaping only."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.books.book_draft import BookDraft, Step
from app.services.books import drafting, wordings
from app.services.books.drafting import Spot
from app.services.books.saying import Said
from app.services.books.wordings import Shown
from app.web import here
from app.web.telling.conditions import condition_said
from app.web.views.things import slots
from app.wording import told
from rules.drafting import entry_of, sheet_of
from rules.drafting.differing import DiffLine
from rules.drafting.naming import call, declared


def row_view(draft: BookDraft) -> dict[str, Any]:
    """One of the list."""
    return {
        "id": draft.id,
        "base": draft.base,
        "standing": _standing(draft),
        "version": draft.step.version,
        "begun_at": draft.begun_at,
        "begun_by_name": here.called(draft.begun_by),
        "changed_at": draft.step.at,
        "changed_by_name": here.called(draft.step.by),
        "mistakes": len(drafting.read(draft.text, calendar.knows).mistakes) if draft.is_open else 0,
        "book": draft.book,
    }


def draft_view(draft: BookDraft) -> dict[str, Any]:
    """A draft with its blocks, its mistakes and all that it declares."""
    sheet, spots = sheet_of(draft.text), drafting.spots(draft, calendar.knows)
    known = declared(sheet)
    pieces = [call(piece, known.languages) for piece in sheet.pieces]
    return {
        **row_view(draft),
        "sha256": draft.sha256,
        "faults": [_fault(spot) for spot in spots],
        "declared": known,
        "pieces": [
            {"kind": kind, "name": name, "label": label, "mistakes": sum(spot.piece == at for spot in spots)}
            for at, (kind, name, label) in enumerate(pieces)
        ],
    }


def piece_view(draft: BookDraft, at: int) -> dict[str, Any]:
    """One block with its fields and its table."""
    piece = sheet_of(draft.text).pieces[at]
    entry = entry_of(piece)
    return {
        "at": at,
        "kind": entry.kind,
        "name": entry.name,
        "fields": [{"name": name, "value": value} for name, value in entry.fields],
        "rows": entry.rows,
        "whole": entry.whole,
        "text": piece.text,
        "faults": [_fault(spot) for spot in drafting.spots(draft, calendar.knows) if spot.piece == at],
    }


def words_view(draft: BookDraft) -> dict[str, Any]:
    """Every text for readers, side by side in the book's languages."""
    sheet = sheet_of(draft.text)
    return {"languages": declared(sheet).languages, "texts": [_text(one) for one in wordings.texts_of(sheet)]}


def _text(one: Shown) -> dict[str, Any]:
    told = slots(one.worded, "kind", "name", "field", "row", "of", "texts", "missing")
    return {**told, **slots(one, "piece", "shipped", "slots")}


def said_view(found: Said, language: str) -> dict[str, Any]:
    """A typed condition in the book's words."""
    typed, book = found.typed, found.book
    said = None
    if typed.condition is not None and book is not None:
        said = condition_said(book, typed.condition, language)
    return {
        "said": said,
        "terms": found.terms,
        "faults": [_fault(Spot(mistake, None, None)) for mistake in typed.mistakes],
    }


def steps_view(steps: tuple[Step, ...]) -> dict[str, Any]:
    """What was done, the last first."""
    return {"steps": [_step(step) for step in steps]}


def diff_view(against: int, lines: tuple[DiffLine, ...]) -> dict[str, Any]:
    """Line by line, with how many are new and how many are gone."""
    marks = [line.mark for line in lines]
    return {"against": against, "added": marks.count("+"), "taken_out": marks.count("-"), "lines": lines}


def _standing(draft: BookDraft) -> str:
    if draft.is_open:
        return "open"
    return "thrown-away" if draft.book is None else "published"


def _fault(spot: Spot) -> dict[str, Any]:
    mistake = spot.mistake
    return {
        "line": mistake.line,
        "piece": spot.piece,
        "row": spot.row,
        "what": told(mistake.what, here.language()),
        "instead": told(mistake.instead, here.language()),
    }


def _step(step: Step) -> dict[str, Any]:
    return {
        "version": step.version,
        "act": step.act.value,
        "about": step.about,
        "at": step.at,
        "by_name": here.called(step.by),
    }

"""A condition as it is typed into a draft: in the book's own words, as terms, or what is wrong with it."""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.books.book_draft import BookDraft
from app.services.books.drafting import read
from rules.drafting.terms import Terms, terms_of
from rules.model import Book
from rules.reading.typed import Typed, condition_typed


@dataclass(frozen=True, slots=True)
class Said:
    """`terms` None: it can only be written out. `book`: whose words say it, None while the draft has mistakes."""

    typed: Typed
    terms: Terms | None
    book: Book | None


def said(draft: BookDraft, text: str) -> Said:
    """What the text says in that draft, whatever other mistakes the draft has."""
    typed = condition_typed(text, draft.text)
    terms = None if typed.condition is None else terms_of(typed.condition, typed.series_option)
    return Said(typed, terms, read(draft.text).book)

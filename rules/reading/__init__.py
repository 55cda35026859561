"""Rule-book text → `Book`, or *all* its mistakes with their places. The format is described in docs/rule-book.md.

Pure: the text is handed in, no file is opened.
"""

from __future__ import annotations

from rules.model import Book
from rules.reading.assembly import assemble
from rules.reading.mistakes import BookMistakes, Enough, Ledger, Mistake
from rules.reading.summary import summary

__all__ = ["BookMistakes", "Mistake", "read_book", "summary"]


def read_book(text: str, file: str, *, published: bool = False) -> Book:
    """The book that `text` says; BookMistakes with every mistake found. `file` only names the text in messages.

    `published`: a text that was taken before. What could be read two ways then is read as it was, and not refused.
    """
    ledger = Ledger(file, published)
    try:
        book = assemble(text, ledger)
    except Enough:
        book = None
    ledger.refuse()
    if book is None:  # pragma: no cover - Enough is only raised with mistakes in the ledger
        raise AssertionError("reading stopped without a mistake")
    return book

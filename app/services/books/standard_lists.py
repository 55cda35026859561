"""The list of a book's standard shells as a PDF and as CSV. What is on it was proved; nothing is decided here."""

from __future__ import annotations

from datetime import datetime

from app.documents.contents import Firm
from app.documents.lists.standard_csv import standard_shells_csv
from app.documents.lists.standard_shells import StandardShellsPaper, standard_shells_pdf
from app.documents.saying.figures import locale_for
from app.services.answering import checking
from app.services.answering.pricing import day_of
from app.services.books.proving import Proved
from app.services.people import introducing
from app.services.quotations import papering
from app.store.db import Store


def standard_pdf(store: Store, proved: Proved, language: str, now: datetime) -> bytes:
    """The PDF, dated where the firm is. Raises BadInput for a language that it can't be written in."""
    checking.refuse(checking.one_of("language", language, papering.languages(proved.book.languages)))
    paper = StandardShellsPaper(
        book=proved.book,
        tool_state=proved.tools.number,
        firm=firm_of(store),
        dated=day_of(proved.book, now),
        shells=proved.proof.standard,
        broken=proved.proof.broken,
        language=language,
        locale=locale_for(language),
    )
    with papering.PRESS:
        return standard_shells_pdf(paper)


def standard_csv(proved: Proved, language: str) -> str:
    """The CSV."""
    return standard_shells_csv(proved.book, proved.proof.standard, language)


def firm_of(store: Store) -> Firm:
    """As it heads a paper of its own."""
    known = introducing.firm(store)
    address = tuple(known.get("address", ()))
    return Firm(known.get("name", ""), address, known.get("telephone", ""), known.get("email", ""))

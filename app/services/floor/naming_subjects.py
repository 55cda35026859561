"""What a concession or a piece of rework is about, in the words of the book: one name on every paper."""

from __future__ import annotations

from collections.abc import Iterator

from app.documents.saying.phrases import sentences
from app.domain.inspection.subject import Subject
from app.services.quotations.papering import languages
from rules.model import Book, Words


def words_of(book: Book, subject: Subject) -> Words:
    """The same in every language that papers are had in."""
    return {language: said_of(book, subject, language) for language in languages(book.languages)}


def said_of(book: Book, subject: Subject, language: str) -> str:
    """As in *Gap in metal: Bonnet to wing, left front*; its sort alone where it is about all of the shell."""
    label = dict(_labels(book)).get(subject.of, {}).get(language, "")
    kind = sentences(language).get(f"looked.{subject.about.value}", subject.about.value)
    return f"{kind}: {label}" if label else kind


def _labels(book: Book) -> Iterator[tuple[str, Words]]:
    made = book.making
    yield from ((zone.id, zone.label) for zone in made.zones)
    yield from ((datum.id, datum.label) for datum in made.datums)
    yield from ((hole.id, hole.label) for hole in made.holes)
    yield from ((gap.id, gap.label) for gap in made.gaps)
    yield from ((thread.id, thread.label) for thread in made.threads)
    yield from ((panel.id, panel.label) for panel in made.panels)
    yield from ((option.id, option.label) for option in book.options)
    for gap in made.gaps:
        for point in gap.points:
            yield point.id, {code: f"{gap.label[code]}, {point.label[code]}" for code in point.label}

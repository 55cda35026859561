"""What a concession or rework is about, in the book's words and the reader's language."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from app.domain.inspection.subject import About, Subject, subject
from app.web import here
from app.wording import say
from rules.model import Book, Words


def subject_view(book: Book, about: Subject) -> dict[str, Any]:
    """The subject as it is written, and as it is said."""
    return _view(about, dict(_labels(book, about.about)))


def told_subject(book: Book, text: str) -> str:
    """The same of a subject as it was written; one that is none stays as it is."""
    about = subject(text)
    return text if about is None else _says(about, dict(_labels(book, about.about)))


def zones_said(book: Book, zones: str) -> str:
    """Ids of weld zones, set apart by commas, in words."""
    labels: Mapping[str, Words] = {zone.id: zone.label for zone in book.making.zones}
    return "; ".join(here.words(labels[one]) if one in labels else one for one in zones.split(", "))


def subjects_view(shells: Iterable[tuple[Book, Iterable[Subject]]]) -> list[dict[str, Any]]:
    """What all of the shells have, each once, with its sort in words, for picking."""
    books = {about: book for book, subjects in shells for about in subjects}
    sorts = {(id(book), about.about): book for about, book in books.items()}
    labels = {(held, sort): dict(_labels(book, sort)) for (held, sort), book in sorts.items()}
    return [
        {"about": _sort_says(about), **_view(about, labels[id(book), about.about])} for about, book in books.items()
    ]


def _view(about: Subject, labels: Mapping[str, Words]) -> dict[str, Any]:
    return {"subject": str(about), "says": _says(about, labels)}


def _says(about: Subject, labels: Mapping[str, Words]) -> str:
    """As in *weld zone Sills from below, seams*. `labels`: of everything of its sort, by id."""
    of = here.words(labels[about.of]) if about.of in labels else about.of
    return say(f"subject.{about.about.value}{'' if of else '-all'}", here.language(), of=of)


def _sort_says(about: Subject) -> str:
    return say(f"subject.{about.about.value}-all", here.language())


def _joined(gap: Words, point: Words) -> Words:
    return {language: f"{label}, {point.get(language, '')}" for language, label in gap.items()}


def _labels(book: Book, about: About) -> Iterator[tuple[str, Words]]:
    made = book.making
    match about:
        case About.WELD:
            yield from ((zone.id, zone.label) for zone in made.zones)
        case About.GAP | About.FLUSH | About.PAINTED | About.FLUSH_PAINTED:
            yield from ((gap.id, gap.label) for gap in made.gaps)
            yield from ((point.id, _joined(gap.label, point.label)) for gap in made.gaps for point in gap.points)
        case About.DATUM:
            yield from ((datum.id, datum.label) for datum in made.datums)
        case About.HOLE:
            yield from ((hole.id, hole.label) for hole in made.holes)
        case About.THREAD:
            yield from ((thread.id, thread.label) for thread in made.threads)
        case About.FILM:
            yield from ((panel.id, panel.label) for panel in made.panels)
        case About.FEATURE:
            yield from ((option.id, option.label) for option in book.options)
        case _:
            return

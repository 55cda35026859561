"""What a change of book does, in sentences for the manager. No amount stands in them: amounts may be hidden."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from babel.numbers import format_decimal

from app.web.telling.findings import line_named
from app.web.telling.speech import Speech
from app.wording import say
from rules.model import Book
from rules.proof.compare import Comparison, Moved


def comparison_sentences(new: Book, old: Book, compared: Comparison, language: str) -> tuple[str, ...]:
    """From the whole to the single, each in one sentence."""
    return tuple(_sentences(Speech(new, language), Speech(old, language), compared))


def _sentences(new: Speech, old: Speech, compared: Comparison) -> Iterator[str]:
    yield _say(new, "same" if _same(compared.whole) else "whole", **_counts(compared.whole, new))
    if compared.structure is not None:
        way = "structure-same" if _same(compared.structure) else "structure"
        yield _say(new, way, **_counts(compared.structure, new))
    yield from _names(new, "options-gone", [old.option(option) for option in compared.old_options])
    yield from _names(new, "options-new", [new.option(option) for option in compared.new_options])
    yield from _names(new, "lines-gone", [line_named(old, line) for line in compared.old_lines])
    yield from _names(new, "lines-new", [line_named(new, line) for line in compared.new_lines])
    yield from _names(new, "terms", [_term(new, old, term) for term in compared.terms])
    moved = len(compared.prices)
    yield _say(new, "prices-same" if not moved else "prices-one" if moved == 1 else "prices", count=moved)


def _same(moved: Moved) -> bool:
    return not moved.lost and not moved.gained


def _counts(moved: Moved, speech: Speech) -> dict[str, str]:
    counts = {"old": moved.old, "new": moved.new, "lost": moved.lost, "gained": moved.gained, "count": moved.new}
    return {name: format_decimal(count, locale=speech.language) for name, count in counts.items()}


def _names(speech: Speech, key: str, names: list[str]) -> Iterator[str]:
    if names:
        yield _say(speech, key, names=speech.list(names))


def _term(new: Speech, old: Speech, term: str) -> str:
    """By the newer book's label, else the older's."""
    named = line_named(new, term)
    return line_named(old, term) if named == term else named


def _say(speech: Speech, key: str, **slots: Any) -> str:
    return say(f"proof.against.{key}", speech.language, **slots)

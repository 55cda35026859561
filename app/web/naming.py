"""Ids in a refusal's facts as the book's own words, so that the sentence can be read out; ids stay beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rules.model import Book, Role, Words

Word = Callable[[Words], str]


def named(facts: Mapping[str, Any], book: Book | None, word: Word) -> dict[str, Any]:
    """The facts with options, deliveries, lines and causes named; as they are where no book is in force."""
    if book is None:
        return dict(facts)
    renames: dict[str, Callable[[Any], Any]] = {
        "options": lambda ids: [_option(book, one, word) for one in ids],
        "open_questions": lambda ids: [_option(book, one, word) for one in ids],
        "unpriced": lambda ids: [_priced(book, one, word) for one in ids],
        "fitting": lambda ids: [_delivery(book, one, word) for one in ids],
        "choice": lambda one: _delivery(book, one, word),
        "causes": lambda causes: [_cause(book, cause, word) for cause in causes],
    }
    return {key: renames[key](value) if key in renames else value for key, value in facts.items()}


def _option(book: Book, option_id: str, word: Word) -> str:
    return next((word(option.label) for option in book.options if option.id == option_id), option_id)


def _delivery(book: Book, choice_id: str, word: Word) -> str:
    role = book.roles.get(Role.DELIVERY)
    choices = () if role is None else book.option(role).choices
    return next((word(choice.label) for choice in choices if choice.id == choice_id), choice_id)


def _priced(book: Book, line_id: str, word: Word) -> str:
    labels = {line.id: line.label for line in book.lines} | {extra.id: extra.label for extra in book.extras}
    return word(labels[line_id]) if line_id in labels else line_id


def _cause(book: Book, cause: tuple[str, ...], word: Word) -> str:
    reasons = {tool.id: tool.reason for tool in book.tools} | {rule.id: rule.reason for rule in book.rules}
    return " + ".join(f"{one} ({word(reasons[one]).rstrip('.')})" if one in reasons else one for one in cause)

"""How a thing is found again by whatever part of a name or number is at hand, however it is spaced or hyphenated."""

from __future__ import annotations

from collections.abc import Iterable
from unicodedata import normalize


def sought_text(fields: Iterable[str]) -> str:
    """What is searched in: each field without its spaces and signs, in one line."""
    return " ".join(squeezed for squeezed in map(_squeeze, fields) if squeezed)


def sought_words(text: str) -> tuple[str, ...]:
    """The words of a query, each of which must be found."""
    return tuple(squeezed for squeezed in map(_squeeze, text.split()) if squeezed)


def _squeeze(text: str) -> str:
    return "".join(character for character in normalize("NFKC", text).casefold() if character.isalnum())

"""Lengths within a text of the book: `{2 mm}`. A paper writes them in its reader's units; here they are only found."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

_LENGTH = re.compile(r"\{([1-9]\d{0,4}|\d{1,5}\.\d{1,2}) mm\}", re.ASCII)


def lengths_of(text: str) -> tuple[Decimal, ...]:
    """Every length of the text in millimetres, in written order."""
    return tuple(Decimal(found) for found in _LENGTH.findall(text))


def stray_braces(text: str) -> bool:
    """Whether a brace stands in the text that opens or closes no length."""
    return bool(set("{}") & set(_LENGTH.sub("", text)))


def with_lengths(text: str, write: Callable[[Decimal], str]) -> str:
    """The text with every length as `write` says it."""
    return _LENGTH.sub(lambda found: write(Decimal(found[1])), text)

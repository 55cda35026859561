"""How a thing is found again by whatever part of a name or number is at hand, however it is spaced or hyphenated.

What is searched in is kept as it was typed, squeezed; what is typed to search is folded until it is a part of that. So
a number that was taken down in one way is found by any other, and nothing that was taken down has to be read anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from unicodedata import normalize

import phonenumbers

from rules.donor.identity import Unreadable, read_number
from rules.model import Series

#: Where a telephone number without its country is dialled from: the firm's own.
DIALLED_FROM = "GB"

#: What is shorter is rather some other number, or the end of one.
SHORTEST = 6

#: What may be a telephone number: it begins as one that is dialled, and holds nothing else.
_DIALLED = re.compile(r"(?<!\S)(?:\+|\(?0)[\d\s()/.\-‐-―]*\d(?!\S)")


@dataclass(frozen=True, slots=True)
class Hit:
    """By what a thing was found: which sort of fact holds the word, and the fact as it was typed."""

    sort: str
    text: str


def hits(words: Sequence[str], facts: Mapping[str, Sequence[str]]) -> tuple[Hit, ...]:
    """Of each word of `sought_words` the first fact that holds it. `facts`: sort → texts as typed."""
    found = (next(_holding(word, facts), None) for word in words)
    return tuple(dict.fromkeys(hit for hit in found if hit is not None))


def _holding(word: str, facts: Mapping[str, Sequence[str]]) -> Iterator[Hit]:
    return (Hit(sort, text) for sort, texts in facts.items() for text in texts if word in _squeeze(text))


def sought_text(fields: Iterable[str]) -> str:
    """What is searched in: each field without its spaces and signs, in one line."""
    return " ".join(squeezed for squeezed in map(_squeeze, fields) if squeezed)


def sought_words(text: str, series: Sequence[Series] = ()) -> tuple[str, ...]:
    """The words of a query, each of which must be found.

    A telephone number counts as one word, without its country and what is dialled before it; a word that reads as a
    donor car's number of one of the `series` counts as that number written out.
    """
    dialled = [found for found in _DIALLED.finditer(text) if subscriber(found[0])]
    rest = _DIALLED.sub(lambda found: " " if subscriber(found[0]) else found[0], text)
    words = (*(subscriber(found[0]) for found in dialled), *(_known_as(word, series) for word in rest.split()))
    return tuple(squeezed for squeezed in map(_squeeze, words) if squeezed)


def known_number(text: str, series: Sequence[Series]) -> str:
    """A donor car's number written out, as far as it can be read at all; empty where it can't."""
    reading = read_number(text.strip(), tuple(series))
    if isinstance(reading, Unreadable):
        return ""
    return getattr(reading, "offer", "") or getattr(reading, "canonical", "")


def subscriber(text: str) -> str:
    """The part of a telephone number that stays the same from wherever one dials; empty where it is none."""
    try:
        number = phonenumbers.parse(text, DIALLED_FROM)
    except phonenumbers.NumberParseException:
        return ""
    subscriber = phonenumbers.national_significant_number(number)
    return subscriber if phonenumbers.is_possible_number(number) and len(subscriber) >= SHORTEST else ""


def _known_as(word: str, series: Sequence[Series]) -> str:
    return known_number(word, series) or word


def _squeeze(text: str) -> str:
    return "".join(character for character in normalize("NFKC", text).casefold() if character.isalnum())

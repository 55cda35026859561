"""The service's own sentences, whole, with named slots, in every language. Sentences are never glued from fragments.

The rule book's words are not here (the book carries them), nor are the papers' (the documents carry those).
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

LANGUAGES = ("en", "de")

#: Whose way of writing days and sums, where a language has several and nobody says.
_LOCALES = {"en": "en_GB"}

_WORDS = Path(__file__).parent / "words"


@cache
def catalogue(language: str) -> Mapping[str, str]:
    """Every sentence of a language under its dotted key, as in `problem.frozen.title`; KeyError: no such language."""
    if language not in LANGUAGES:
        raise KeyError(language)
    files = (_WORDS / f"{language}.toml", *sorted(_WORDS.glob(f"*.{language}.toml")))
    trees = (tomllib.loads(file.read_text(encoding="utf-8")) for file in files)
    return {key: sentence for tree in trees for key, sentence in _flat(tree)}


def say(key: str, language: str, /, **slots: Any) -> str:
    """The sentence in that language (English where we have none), its slots filled; KeyError: no such sentence."""
    sentence = catalogue(language if language in LANGUAGES else LANGUAGES[0])[key]
    return sentence.format_map(_Slots({name: _as_text(value) for name, value in slots.items()}))


def knows(key: str) -> bool:
    """Whether there is a sentence under this key."""
    return key in catalogue(LANGUAGES[0])


def locale_of(language: str) -> str:
    """By which locale days, sums and countries are written in that language."""
    return _LOCALES.get(language, language)


class _Slots(dict[str, str]):
    """A slot that nobody filled shows as a dash: a sentence with a gap beats no answer at all."""

    def __missing__(self, key: str) -> str:
        return "–"


def _as_text(value: Any) -> str:
    if isinstance(value, tuple | list | frozenset | set):
        return ", ".join(_as_text(part) for part in value)
    return "–" if value is None else str(value)


def _flat(tree: Mapping[str, Any], above: str = "") -> list[tuple[str, str]]:
    pairs: list[tuple[str, str]] = []
    for key, value in tree.items():
        pairs += _flat(value, f"{above}{key}.") if isinstance(value, dict) else [(above + key, value)]
    return pairs

"""The service's own sentences, whole, with named slots, in every language. Sentences are never glued from fragments.

The rule book's words are not here (the book carries them), nor are the papers' (the documents carry those).
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from rules.reading.mistakes import Sentence

LANGUAGES = ("en", "de")

#: Whose way of writing days and sums, where a language has several and nobody says.
_LOCALES = {"en": "en_GB"}

_WORDS = Path(__file__).parent / "words"

_QUOTED = re.compile("“[^”]*”")

#: Languages beside English in which mistakes of a rule book are told.
_TOLD = ("de",)


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


def told(sentence: Sentence, language: str, /) -> str:
    """What is wrong with a rule book, or how it is mended; English where we have it in no such language.

    A fact within quotation marks is the author's own word. Any other may be a word of ours, and is told, too.
    """
    if language not in _TOLD:
        return str(sentence)
    sentences, words = _mistakes(language)
    quoted = "".join(_QUOTED.findall(sentence.template))

    def fact(name: str, value: object) -> object:
        if isinstance(value, Sentence):
            return told(value, language)
        return value if f"{{{name}}}" in quoted else words.get(str(value), value)

    facts = {name: fact(name, value) for name, value in sentence.facts.items()}
    return sentences[sentence.template].format_map(facts)


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


@cache
def _mistakes(language: str) -> tuple[Mapping[str, str], Mapping[str, str]]:
    """The reader's sentences, and the words that may fill a slot of one, each English → the language's own."""
    tree = tomllib.loads((_WORDS / f"mistakes-{language}.toml").read_text(encoding="utf-8"))
    return tree["sentences"], tree["words"]


def _flat(tree: Mapping[str, Any], above: str = "") -> list[tuple[str, str]]:
    pairs: list[tuple[str, str]] = []
    for key, value in tree.items():
        pairs += _flat(value, f"{above}{key}.") if isinstance(value, dict) else [(above + key, value)]
    return pairs

"""The papers' own sentences, whole, with named slots, in every language. The book's words are the book's."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path

_WORDS = Path(__file__).parent / "words"

LANGUAGES = tuple(sorted(file.stem for file in _WORDS.glob("*.toml")))


@cache
def sentences(language: str) -> Mapping[str, str]:
    """Every sentence of a language under its dotted key; KeyError where we have no such language."""
    if language not in LANGUAGES:
        raise KeyError(f"no paper is worded in {language!r}; there are {', '.join(LANGUAGES)}")
    tree = tomllib.loads((_WORDS / f"{language}.toml").read_text(encoding="utf-8"))
    return {f"{part}.{key}": sentence for part, keys in tree.items() for key, sentence in keys.items()}

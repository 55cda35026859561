"""The papers' own sentences, whole, with named slots, in every language. The book's words are the book's."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path

_WORDS = Path(__file__).parents[1] / "words"

LANGUAGES = tuple(sorted(file.stem for file in _WORDS.glob("*.toml") if "." not in file.stem))


@cache
def sentences(language: str) -> Mapping[str, str]:
    """Every sentence of a language under its dotted key; KeyError where we have no such language."""
    if language not in LANGUAGES:
        raise KeyError(f"no paper is worded in {language!r}; there are {', '.join(LANGUAGES)}")
    files = (_WORDS / f"{language}.toml", *sorted(_WORDS.glob(f"*.{language}.toml")))
    trees = [tomllib.loads(file.read_text(encoding="utf-8")) for file in files]
    return {f"{part}.{key}": said for tree in trees for part, keys in tree.items() for key, said in keys.items()}

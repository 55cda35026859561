"""Sentences and figures of a paper that speaks of money alone, and of no rule book."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.documents.saying.figures import Figures


@dataclass(frozen=True, slots=True)
class Speech:
    """One language, one locale and currency."""

    sentences: Mapping[str, str]
    language: str
    figures: Figures

    def say(self, key: str, **slots: object) -> str:
        """The paper's sentence; KeyError names a sentence or a slot that is missing."""
        return self.sentences[key].format_map(slots)

    def words(self, words: Mapping[str, str]) -> str:
        """Frozen words in this language, else in the first they were written in."""
        return words.get(self.language) or next(iter(words.values()), "")

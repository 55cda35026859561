"""Breaks plain words into lines as the library does, which measures every word anew each time that it breaks one."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from reportlab.pdfbase.pdfmetrics import getAscentDescent, stringWidth
from reportlab.platypus import Flowable, Paragraph

#: What is over in a line (negative: drawn together), and its words: as the library tells a line of a paragraph.
Line = tuple[float, list[str]]


class Measured(Paragraph):
    """A paragraph that is asked for its height often, at one width, and comes out as it did."""

    _asked = -1.0

    def wrap(self, availWidth: float, availHeight: float) -> tuple[float, float]:  # noqa: N803 - the library's names
        if availWidth != self._asked:
            self._asked = availWidth
            super().wrap(availWidth, availHeight)
        return self.width, self.height

    def split(self, availWidth: float, availHeight: float) -> list[Flowable]:  # noqa: N803 - the library's names
        """One that was split forgets its lines: it is wrapped anew."""
        self.wrap(availWidth, availHeight)
        self._asked = -1.0
        return list(super().split(availWidth, availHeight))


class PlainParagraph(Measured):
    """A paragraph of one piece, its words with one space between them. What was torn off one is the library's again."""

    def breakLines(self, width: Any) -> Any:  # noqa: N802 - the library's name
        piece, first = self.frags[0], max(width)  # type: ignore[attr-defined]
        words = piece.text.split(" ") if hasattr(piece, "text") and first == min(width) else []
        lines = _lines(words, piece.fontName, piece.fontSize, first, self.style.spaceShrinkage)  # type: ignore[attr-defined]
        if not lines:
            return super().breakLines(width)
        ascent, descent = getAscentDescent(piece.fontName, piece.fontSize)
        return piece.clone(kind=0, lines=lines, ascent=ascent, descent=descent, fontSize=piece.fontSize)


def _lines(words: Sequence[str], font: str, size: float, width: float, shrinks: float) -> list[Line]:
    """As many words in each line as it holds; none where there is a word that no line holds.

    `shrinks`: by what share of itself a space may shrink so that one more word goes in.
    """
    space = word_width(" ", font, size)
    lines, line, used = list[Line](), list[str](), -space
    for word in words:
        wide = word_width(word, font, size)
        if wide > width:
            return []
        longer = used + space + wide
        if longer > width + shrinks * space * len(line):
            lines.append((width - used, line))
            line, used = [word], wide
        else:
            line.append(word)
            used = longer
    return [*lines, (width - used, line)] if line else lines


@lru_cache(maxsize=16384)
def word_width(word: str, font: str, size: float) -> float:
    """Points. Kept: papers say much in the same words."""
    return stringWidth(word, font, size)

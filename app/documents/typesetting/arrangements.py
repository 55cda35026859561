"""Which of several arrangements of one paper is taken. It lays nothing out: it is told how each comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeVar

from reportlab.platypus import Flowable

from app.documents.typesetting.laying import Laid

T = TypeVar("T")

#: Under two fifths a sheet looks left over.
_THIN = 0.4


@dataclass(frozen=True, slots=True)
class Arranged:
    """A story and how it comes out on sheets."""

    story: list[Flowable]
    laid: Laid

    @property
    def sheets(self) -> int:
        return len(self.laid.sheets)

    @property
    def thin(self) -> bool:
        """Whether the last sheet holds little more than a few lines."""
        return self.sheets > 1 and self.laid.last < _THIN

    @property
    def rank(self) -> tuple[int, bool]:
        """The less the better."""
        return self.sheets, self.thin


def best(stories: Iterable[T], lay: Callable[[T], Arranged], fewest: Callable[[T], int]) -> Arranged:
    """The first, unless it ends on a thin sheet: then of all the one with the fewest sheets, and none of them thin.

    `fewest`: sheets that a story fills at least; one that can't come out better for it is not laid out at all.
    """
    waiting = iter(stories)
    found = lay(next(waiting))
    for story in waiting if found.thin else ():
        if (fewest(story), False) < found.rank:
            found = min(found, lay(story), key=lambda one: one.rank)
    return found

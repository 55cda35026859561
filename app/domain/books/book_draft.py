"""A rule book being drafted: its text as it stands, whose book it began from, and how it ended."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Act(StrEnum):
    """What was done to a draft's text."""

    BEGUN = "begun"
    CHANGED = "changed"
    ADDED = "added"
    TAKEN_OUT = "taken-out"
    MOVED = "moved"
    WRITTEN = "written"
    RAISED = "raised"
    PASTED = "pasted"
    TAKEN_BACK = "taken-back"


@dataclass(frozen=True, slots=True)
class Step:
    """One version of the text, without it. `about`: the block it was done to, empty where to the whole."""

    version: int
    act: Act
    about: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class BookDraft:
    """`base`: number of the book it was copied from; `step`: the last; `book`: what it was published as.

    Closed without a book: thrown away.
    """

    id: int
    base: int
    text: str
    sha256: str
    step: Step
    begun_at: datetime
    begun_by: str
    closed_at: datetime | None = None
    closed_by: str | None = None
    book: int | None = None

    @property
    def is_open(self) -> bool:
        """Whether it can still be changed."""
        return self.closed_at is None

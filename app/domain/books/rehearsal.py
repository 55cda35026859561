"""What was found when a draft of a rule book was rehearsed: plain data, kept with the draft's very text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from app.domain.quotations.quotation import Standing
from rules.answer import Cause, Verdict


@dataclass(frozen=True, slots=True)
class HeadlineMoved:
    """A line (from 1) whose headline changes; None on the side that can't answer it at all."""

    line: int
    before: Verdict | None
    after: Verdict | None


@dataclass(frozen=True, slots=True)
class TouchedRevision:
    """A revision that would be otherwise. `verdicts`: where the headline changes.

    `advice`: ids of what the desk does about it, by the firm's table. `causes`: new reasons why it can't be built.
    `answers`: how many answers stand otherwise. `comparable` False: the draft has no such price list.
    `before`, `after`: whole minor units before tax, None where they can't be held against each other.
    """

    number: str
    letter: str
    standing: Standing
    customer: str
    shells: int
    advice: tuple[str, ...]
    verdicts: tuple[HeadlineMoved, ...]
    causes: tuple[Cause, ...]
    answers: int
    comparable: bool
    currency: str | None
    before: int | None
    after: int | None


@dataclass(frozen=True, slots=True)
class KnownHeld:
    """A known specification of the draft. `wrong`: answer, because, price, as far as they are not as known.

    Prices are raised on purpose: another price is told, another answer keeps the draft from being published.
    """

    id: str
    wrong: tuple[str, ...]
    answer: str
    because: tuple[str, ...]
    price: int | None

    @property
    def is_fault(self) -> bool:
        """Whether it says otherwise what can be built, or why."""
        return any(part != "price" for part in self.wrong)


@dataclass(frozen=True, slots=True)
class Stored:
    """Specifications quoted at any time: so many looked at, no longer and newly buildable."""

    looked_at: int
    lost: int
    gained: int


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """`against`: the book in force then; `looked_at`: drafts and revisions. `stored` None: too large to say.

    `at`, `by` are set of one that was kept.
    """

    against: int
    tool_state: int
    touched: tuple[TouchedRevision, ...]
    looked_at: int
    known: tuple[KnownHeld, ...]
    stored: Stored | None
    at: datetime | None = None
    by: str = ""

    def faults(self) -> Iterator[KnownHeld]:
        """The known specifications that the draft answers otherwise."""
        return (one for one in self.known if one.is_fault)

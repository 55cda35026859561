"""A dealer asks the office for a formal quotation of a draft of his; the office answers by issuing it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from rules.specification import Specification


class Stage(Enum):
    """How a request stands. ANSWERED: the revision, or a later one, was issued."""

    WAITING = "waiting"
    ANSWERED = "answered"
    WITHDRAWN = "withdrawn"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class End:
    """How it ended, by whom; `why`: what was said to it."""

    stage: Stage
    why: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class AskedLine:
    """`quantity` shells of a specification, as it is typed now."""

    quantity: int
    specification: Specification


@dataclass(frozen=True, slots=True)
class Request:
    """`number`, `letter`: the draft that was asked for; `customer` and `donor_number` as its enquiry has them now."""

    id: int
    number: str
    letter: str
    dealer: str
    customer: str
    donor_number: str
    lines: tuple[AskedLine, ...]
    note: str
    at: datetime
    by: str
    end: End | None = None

    @property
    def stage(self) -> Stage:
        return Stage.WAITING if self.end is None else self.end.stage

"""What goes with a shell unfitted and what goes back to the customer: proposed from the records, never decided."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from app.domain.part import Arrival, PartStands
from rules.model import Words


class Into(Enum):
    """On which list of the packing: loose parts that go with it, or customer's parts that go back."""

    LOOSE = "loose"
    RETURNED = "returned"


class Origin(Enum):
    """Where a proposal comes from.

    PASSED, UNJUDGED: a customer's part that could be hung on the shell or lie beside it. FAILED, NOT_NEEDED: one that
    is built into nothing. NO_SHELL: it came for a shell that the order has no longer. COMPANY: what the book has sent
    together with a part. SENT: what the book asks of the customer besides. EXTRA: sold beside the shells.
    """

    PASSED = "passed"
    UNJUDGED = "unjudged"
    FAILED = "failed"
    NOT_NEEDED = "not-needed"
    NO_SHELL = "no-shell"
    COMPANY = "company"
    SENT = "sent"
    EXTRA = "extra"


#: Here for certain, and built into nothing: what goes back unless somebody says otherwise.
_SURE = (Origin.FAILED, Origin.NOT_NEEDED)


@dataclass(frozen=True, slots=True)
class Proposal:
    """A line for a list. `what`: in the book's words; `tag`: of the customer's part; `day`: when it came or was judged.

    `line`: as the list has it, in the language of the customer's papers; `count`: pieces of an extra.
    """

    into: Into
    origin: Origin
    line: str
    what: Words
    tag: str = ""
    day: date | None = None
    count: int = 1

    @property
    def sure(self) -> bool:
        """Whether it is written in at first; of anything else whoever packs knows how it travels."""
        return self.origin in _SURE


def goes(arrival: Arrival, *, needed: bool, welded: bool) -> tuple[Into, Origin] | None:
    """Where what came belongs; None for what is gone. `welded`: its rule's part is welded in."""
    if arrival.gone:
        return None
    if arrival.stands is PartStands.FAILED:
        return Into.RETURNED, Origin.FAILED
    if not needed:
        return Into.RETURNED, Origin.NOT_NEEDED
    if welded:
        return None
    return Into.LOOSE, Origin.UNJUDGED if arrival.stands is PartStands.ARRIVED else Origin.PASSED

"""A shell built for stock: a specification without customer and donor car. Nobody was promised it, so it gives way."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum

from rules.promise import Promise


class StockAct(Enum):
    """What was last done with it."""

    TAKEN = "taken"
    MOVED = "moved"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class StockShell:
    """`book`: number of the rule book it is built by; `settled`: option → choice. `plan`: its days as they stand.

    `act` was done `at`, `because` of the order that needed its slot, else empty.
    """

    id: int
    book: int
    settled: Mapping[str, str]
    made_at: datetime
    made_by: str
    plan: Promise
    act: StockAct
    at: datetime
    because: str = ""

    @property
    def number(self) -> str:
        return f"S-{self.id:05}"

    def begun(self, today: date) -> bool:
        """Its slot has come: it is in the workshop and gives way no more."""
        return self.plan.slot <= today


@dataclass(frozen=True, slots=True)
class StockMove:
    """A stock shell that makes room: its days before and after."""

    shell: StockShell
    after: Promise

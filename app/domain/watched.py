"""What left the house and is watched: what a customer said no to, and what was quoted with something taken off."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.domain.quotation import Reason


@dataclass(frozen=True, slots=True)
class Declined:
    """`net` before tax, minor units; `note`: what was said besides the reason."""

    number: str
    letter: str
    reason: Reason
    note: str
    at: datetime
    currency: str
    net: int


@dataclass(frozen=True, slots=True)
class Discounted:
    """`listed`: what the shells come to before any discount; `off`: the trade's and for several together."""

    number: str
    letter: str
    dealer: str | None
    at: datetime
    currency: str
    listed: int
    off: int

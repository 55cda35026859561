"""What one shell costs: its lines by list, adjustment, trade discount. Feasibility is no business of this module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Tariff:
    """Which price list, and the trade discount in percent by category; a category that is missing has none."""

    list: str
    discounts: Mapping[str, Decimal] = field(default_factory=dict)

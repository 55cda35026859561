"""An appointed dealer and his trade terms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Dealer:
    """`price_list` is the list he is quoted from; `discounts`: category → percent; `country` ISO 3166-1 alpha-2."""

    id: str
    name: str
    country: str
    language: str
    units: str
    price_list: str
    discounts: Mapping[str, Decimal] = field(default_factory=dict)

"""Who a shell is for. His country says neither how the shell is built nor where it goes."""

from __future__ import annotations

from dataclasses import dataclass

UNITS = ("metric", "imperial")


@dataclass(frozen=True, slots=True)
class Customer:
    """`country` ISO 3166-1 alpha-2, `language` of his papers; `dealer`: whose customer, None: the firm's own."""

    name: str
    trade: bool = False
    country: str = ""
    language: str = "en"
    units: str = "metric"
    telephone: str = ""
    email: str = ""
    address: str = ""
    tax_number: str = ""
    dealer: str | None = None
    id: int | None = None

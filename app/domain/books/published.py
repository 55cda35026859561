"""The entry of a published rule book: what is known of it beside its text."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from rules.model import Words


@dataclass(frozen=True, slots=True)
class Published:
    """In force from `valid_from` on, until a later one is. `sha256` of the text, hexadecimal."""

    number: int
    title: Words
    sha256: str
    published_at: datetime
    valid_from: datetime
    by: str
    note: str

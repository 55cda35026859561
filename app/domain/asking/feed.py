"""A calendar feed: an address by which somebody's own calendar program reads the shop's. No storage, no HTTP."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Feed:
    """`person`: who made it, as whom it reads; `label`: which program it is for; `language` of its sentences."""

    id: int
    person: str
    label: str
    language: str
    made_at: datetime
    used_at: datetime | None = None
    revoked_at: datetime | None = None
    revoked_by: str | None = None

    @property
    def live(self) -> bool:
        return self.revoked_at is None

"""Moments, days and mappings as the text that is stored, and back."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, timedelta
from typing import Any


def moment_text(moment: datetime) -> str:
    """ISO 8601 in UTC, always of one length, so that texts sort as moments do. Refuses a moment without a zone."""
    if moment.tzinfo is None:
        raise ValueError(f"{moment} has no zone")
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


#: From where the places of lists are counted.
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def place(moment: datetime) -> int:
    """Where what happened at that moment begins in a list that is walked in order: a thousand for each microsecond."""
    return (moment - _EPOCH) // timedelta(microseconds=1) * 1000


def moment(text: str) -> datetime:
    return datetime.fromisoformat(text)


def maybe_moment(text: str | None) -> datetime | None:
    return None if text is None else datetime.fromisoformat(text)


def maybe_day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


def json_text(value: Any) -> str:
    """Sorted and compact, so that the same value is always the same text."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))

"""The one clock. Nothing else asks the machine for the time; whoever needs it is handed `now`."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

#: Gives the present moment, aware, in UTC.
Clock = Callable[[], datetime]


def running() -> datetime:
    """The machine's own time."""
    return datetime.now(UTC)


def fixed(text: str) -> Clock:
    """A clock that stands at `text` (ISO 8601; without a zone it is UTC); ValueError where it is no moment."""
    moment = datetime.fromisoformat(text)
    aware = moment if moment.tzinfo else moment.replace(tzinfo=UTC)
    at = aware.astimezone(UTC)
    return lambda: at

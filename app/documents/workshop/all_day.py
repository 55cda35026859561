"""All-day entries as an iCalendar stream (RFC 5545; its name and how often to ask again: RFC 7986).

No METHOD is set, so DTSTAMP says when an entry was last revised, and the same plan is the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from icalendar import Calendar, Event

_DAY = timedelta(days=1)
_ASK_AGAIN = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class AllDay:
    """From `first` to `last`, both included, wherever the reader is. `uid` stays its own whatever else changes.

    `revised` knows its zone; `url` empty: none.
    """

    uid: str
    first: date
    last: date
    summary: str
    description: str
    revised: datetime
    url: str = ""


def calendar_bytes(name: str, entries: Iterable[AllDay]) -> bytes:
    """The stream, in UTF-8."""
    calendar = Calendar()
    calendar.add("prodid", "-//Bodywright//Calendar of the shop//EN")
    calendar.add("version", "2.0")
    calendar.add("name", name)
    calendar.add("refresh-interval", _ASK_AGAIN, parameters={"VALUE": "DURATION"})
    for entry in entries:
        calendar.add_component(_event(entry))
    return bytes(calendar.to_ical())


def _event(entry: AllDay) -> Event:
    event = Event()
    event.add("uid", entry.uid)
    event.add("dtstamp", entry.revised.astimezone(UTC).replace(microsecond=0))
    event.add("dtstart", entry.first)
    event.add("dtend", entry.last + _DAY)
    event.add("summary", entry.summary)
    event.add("description", entry.description)
    event.add("transp", "TRANSPARENT")
    if entry.url:
        event.add("url", entry.url)
    return event

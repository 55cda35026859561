"""The firm's working days: public holidays come from the `holidays` table here and go to the engine as a set.

Counts nothing itself and reads no clock: which years are wanted is handed in.
"""

from __future__ import annotations

from datetime import date
from functools import cache

import holidays

from rules.model import Calendar
from rules.schedule.days import WorkingDays

#: Years ahead whose holidays are looked up: beyond them no day is named.
AHEAD = 9


def working_days(calendar: Calendar, first_year: int, last_year: int) -> WorkingDays:
    """The calendar's working days for those years, both included; ValueError for a country that has no table."""
    days = public_holidays(calendar.country, calendar.subdivision, first_year, last_year)
    return WorkingDays(days, calendar.closures, known_to=date(last_year, 12, 31))


def around(calendar: Calendar, today: date) -> WorkingDays:
    """From the year before that day on, as far ahead as anybody promises anything."""
    return working_days(calendar, today.year - 1, today.year + AHEAD)


@cache
def public_holidays(country: str, subdivision: str | None, first_year: int, last_year: int) -> frozenset[date]:
    """Public holidays of an ISO 3166 country and subdivision; a calendar that names no country has none."""
    if not country:
        return frozenset()
    years = range(first_year, last_year + 1)
    try:
        return frozenset(holidays.country_holidays(country, subdiv=subdivision, years=years))
    except NotImplementedError as unknown:
        raise ValueError(
            f"No public holidays are known for {country} {subdivision or ''}. Name an ISO 3166 country and subdivision."
        ) from unknown


def knows(country: str, subdivision: str | None) -> bool:
    """Whether there is a table of public holidays for this ISO 3166 country and subdivision."""
    known = _regions()
    return not country or (country in known and (subdivision is None or subdivision in known[country]))


@cache
def _regions() -> dict[str, list[str]]:
    return holidays.list_supported_countries()

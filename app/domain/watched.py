"""What is watched: what a customer said no to, what was taken off, what of shells was not right, how old the stock is.

Pure.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum

from app.domain.inspection.subject import Subject
from app.domain.quotations.quotation import Reason


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


class Amends(Enum):
    """What is done about something that is not right: it is mended, or may stay so."""

    REWORK = "rework"
    CONCESSION = "concession"


@dataclass(frozen=True, slots=True)
class Amiss:
    """Something of a shell that was not right. `order` None: of a shell of stock.

    `standing`: open, mended or withdrawn of rework, asked, granted or refused of a concession; `minutes` it took.
    """

    amends: Amends
    subject: Subject
    shell: int
    serial: str
    order: str | None
    at: datetime
    why: str
    standing: str
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class AmissCounted:
    """Of one subject. `standings`: how many stand how; `minutes`: what the rework took, as far as anybody said."""

    rework: int
    concessions: int
    shells: int
    minutes: int
    standings: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Aged:
    """A shell of stock that nobody's order has. `days` since it came into stock; `made`: option → choice."""

    number: str
    book: int
    made: Mapping[str, str]
    since: date
    days: int
    ready: date


#: Days that a band of age goes up to, the last without an end.
BANDS = (30, 90, 180, None)


def band_of(days: int) -> int | None:
    """The band that so many days fall into, by its end."""
    return next((end for end in BANDS if end is None or days <= end), None)


def by_subject(amiss: Iterable[Amiss]) -> dict[Subject, AmissCounted]:
    """What came up most often first."""
    rows: dict[Subject, list[Amiss]] = {}
    for one in amiss:
        rows.setdefault(one.subject, []).append(one)
    return {of: _counted(rows[of]) for of in sorted(rows, key=lambda of: (-len(rows[of]), of))}


def _counted(rows: list[Amiss]) -> AmissCounted:
    standings = [one.standing for one in rows]
    rework = sum(one.amends is Amends.REWORK for one in rows)
    return AmissCounted(
        rework=rework,
        concessions=len(rows) - rework,
        shells=len({one.shell for one in rows}),
        minutes=sum(one.minutes or 0 for one in rows),
        standings={standing: standings.count(standing) for standing in dict.fromkeys(standings)},
    )

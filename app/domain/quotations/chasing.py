"""What a quotation that is out may need to be told to its customer: which text fits, and how pressing it is. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum

from app.domain.quotations.quotation import Standing


class Kind(Enum):
    """The texts there are."""

    OFFER = "offer"
    REMINDER = "reminder"
    LAPSE_NOTICE = "lapse-notice"
    PART_REQUEST = "part-request"


class Way(Enum):
    """How it went out: by a person's hand, never by this desk."""

    E_MAIL = "e-mail"
    POST = "post"
    TELEPHONE = "telephone"
    BY_HAND = "by-hand"


@dataclass(frozen=True, slots=True)
class Sending:
    """A text that a person sent: to whom, which day (None: today), which way, and its words as they went."""

    kind: Kind
    way: Way
    addressee: str
    sent_on: date | None
    text: str


@dataclass(frozen=True, slots=True)
class Sent:
    """A sending, and who recorded it when."""

    sending: Sending
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Pressing:
    """`left`: days to the last on which it holds, negative once lapsed; `silent`: days since anybody wrote to him."""

    left: int
    silent: int


def fitting(standing: Standing, parts: bool) -> tuple[Kind, ...]:
    """The texts that suit a revision as it stands; none for a draft or one that has been superseded or declined."""
    return tuple(_fitting(standing, parts))


def pressing(last_day: date, issued_on: date, last_contact: date | None, today: date) -> Pressing:
    """Letting it out was a contact, too."""
    return Pressing((last_day - today).days, (today - (last_contact or issued_on)).days)


def _fitting(standing: Standing, parts: bool) -> Iterator[Kind]:
    if standing is Standing.ISSUED:
        yield from (Kind.OFFER, Kind.REMINDER)
    if standing is Standing.LAPSED:
        yield Kind.LAPSE_NOTICE
    if parts and standing in (Standing.ISSUED, Standing.ACCEPTED):
        yield Kind.PART_REQUEST

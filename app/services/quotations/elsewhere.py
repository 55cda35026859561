"""Whether a donor car is on another enquiry's quotation: told to the office, as a warning and never a bar.

A dealer is told nothing, by no answer and by no pause: nothing he may ask for comes through here.
"""

from __future__ import annotations

from datetime import datetime

from app.domain.asking.actor import Actor
from app.domain.errors import MayNot
from app.domain.finding import known_number
from app.services.books.publishing import current_book
from app.store import elsewhere
from app.store.db import Store
from app.store.elsewhere import CarQuoted
from rules.donor.identity import Unreadable, read_number

#: More would help nobody to decide.
MOST = 20


def donor_elsewhere(
    store: Store, actor: Actor, text: str, now: datetime, *, besides: int | None = None
) -> tuple[CarQuoted, ...]:
    """All quotations of that car, the last issued first, but those of the enquiry `besides`.

    `text` is the number as typed; none where it can't be read. Raises MayNot for a dealer before anything is looked up,
    and NoBook.
    """
    if actor.dealer is not None:
        raise MayNot(action="read", role="dealer")
    series = current_book(store, now).series
    reading = read_number(text.strip(), series)
    if isinstance(reading, Unreadable):
        return ()
    car = known_number(text, series)
    with store.reading() as db:
        return elsewhere.quotations_of(db, reading.series, reading.number, car, besides, now, MOST)

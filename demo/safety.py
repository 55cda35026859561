"""A safety fault of the demo's: it stopped what it might be in over one night, and was lifted."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from app.domain.floor.safety import AtFault, Subject
from app.services.floor import safety
from app.store.db import Store
from demo.people import PERSON

PIERS = PERSON["piers"]

WHY = {
    "en": "One batch of anchorage plates may be too soft: the harness could pull out.",
    "de": "Eine Lieferung Verankerungsplatten kann zu weich sein: Der Gurt könnte ausreißen.",
}
LIFTED = "Every plate of the batch was tested for hardness: all are as they should be."


def find_fault(store: Store, now: datetime) -> None:
    """Between one evening and the next morning nobody signed anything."""
    at_fault = AtFault(Subject.ZONE, "z-belts-three-point", (now - timedelta(days=25)).date())
    morning = datetime.combine(now.date() - timedelta(days=17), time(7), now.tzinfo)
    said = safety.say_fault(store, PIERS, at_fault, WHY, morning - timedelta(hours=14))
    safety.lift(store, PIERS, said, LIFTED, morning)

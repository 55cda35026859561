"""The letter about a date that moves: a whole text in the customer's language, to be copied and sent by a person."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from babel.dates import format_date

from app.domain.actor import Actor
from app.domain.slots import Move
from app.store import dealers
from app.store.db import Store
from app.wording import LANGUAGES, say

#: Whose way of writing days, where a language has several.
_LOCALES = {"en": "en_GB"}


@dataclass(frozen=True, slots=True)
class MovedLetter:
    language: str
    subject: str
    text: str


def letter_of(store: Store, actor: Actor, move: Move) -> MovedLetter | None:
    """None where the customer's dates stand: only the slot moves."""
    if not move.days_move:
        return None
    language = move.language if move.language in LANGUAGES else LANGUAGES[0]
    key = "letter.moved" if move.after is not None else "letter.released"
    slots = {**_days(move, language), "number": move.seat.number, "shell": move.seat.place, "name": move.customer}
    with store.reading() as db:
        sender = str(dealers.firm(db).get("name", ""))
    text = say(key, language, **slots, author=actor.display_name, sender=sender).strip()
    return MovedLetter(language, say(f"{key}-subject", language, **slots), text)


def _days(move: Move, language: str) -> dict[str, str]:
    def day(on: date) -> str:
        return format_date(on, "long", locale=_LOCALES.get(language, language))

    was = {"was_from": day(move.before.ready), "was_to": day(move.before.ready_by)}
    return was if move.after is None else {**was, "from": day(move.after.ready), "to": day(move.after.ready_by)}

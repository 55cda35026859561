"""The letter about a date that moves: a whole text in the customer's language, to be copied and sent by a person."""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.actor import Actor
from app.domain.slots import Move
from app.services.writing import day_in_words, language_of, sender_of
from app.store.db import Store
from app.wording import say


@dataclass(frozen=True, slots=True)
class MovedLetter:
    language: str
    subject: str
    text: str


def letter_of(store: Store, actor: Actor, move: Move) -> MovedLetter | None:
    """None where the customer's dates stand: only the slot moves."""
    if not move.days_move:
        return None
    language = language_of(move.customer.language)
    key = "letter.moved" if move.after is not None else "letter.released"
    slots = {**_days(move, language), "number": move.seat.number, "shell": move.seat.place, "name": move.customer.name}
    with store.reading() as db:
        sender = sender_of(db, actor)
    text = say(key, language, **slots, author=actor.display_name, sender=sender).strip()
    return MovedLetter(language, say(f"{key}-subject", language, **slots), text)


def _days(move: Move, language: str) -> dict[str, str]:
    told = {"was_from": move.before.ready, "was_to": move.before.ready_by}
    if move.after is not None:
        told |= {"from": move.after.ready, "to": move.after.ready_by}
    return {slot: day_in_words(day, language, move.customer.country) for slot, day in told.items()}

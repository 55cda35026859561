"""The letter about a date that moves: a whole text in the customer's language, to be copied and sent by a person."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.domain.asking.actor import Actor
from app.domain.planning.slots import Move
from app.services.books.publishing import current_book
from app.services.letters.writing import day_in_words, language_of, sender_of, worded
from app.store.db import Store


@dataclass(frozen=True, slots=True)
class MovedLetter:
    language: str
    subject: str
    text: str


def letter_of(store: Store, actor: Actor, move: Move, now: datetime) -> MovedLetter | None:
    """None where the customer's dates stand: only the slot moves. It speaks as the book in force words it."""
    if not move.days_move:
        return None
    language = language_of(move.customer.language)
    key = "letter.moved" if move.after is not None else "letter.released"
    slots = {**_days(move, language), "number": move.seat.number, "shell": move.seat.place, "name": move.customer.name}
    with store.reading() as db:
        sender = sender_of(db, actor)
    book = current_book(store, now)
    text = worded(book, key, language, **slots, author=actor.display_name, sender=sender).strip()
    return MovedLetter(language, worded(book, f"{key}-subject", language, **slots), text)


def _days(move: Move, language: str) -> dict[str, str]:
    told = {"was_from": move.before.ready, "was_to": move.before.ready_by}
    if move.after is not None:
        told |= {"from": move.after.ready, "to": move.after.ready_by}
    return {slot: day_in_words(day, language, move.customer.country) for slot, day in told.items()}

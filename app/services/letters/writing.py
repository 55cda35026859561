"""What every letter to a customer shares: whose house writes, in which language, and how it writes a day."""

from __future__ import annotations

from datetime import date

from babel.dates import format_date
from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.services.quotations.papering import ON_LETTER
from app.store import dealers
from app.wording import LANGUAGES, say
from rules.model import Book
from rules.wordings import wording_of


def sender_of(db: Database, actor: Actor) -> str:
    """A dealer writes for his own house, the office for the firm."""
    dealer = None if actor.dealer is None else dealers.get(db, actor.dealer)
    return str(dealers.firm(db).get("name", "")) if dealer is None else dealer.name


def worded(book: Book, key: str, language: str, /, **slots: object) -> str:
    """A letter's text as the book words it, else as shipped, its slots filled."""
    own = book.wording(wording_of(key), language)
    return say(key, language, **slots) if own is None else own.format_map(slots)


def language_of(customers: str) -> str:
    """The customer's own, where letters are written in it."""
    return customers if customers in LANGUAGES else LANGUAGES[0]


def day_in_words(day: date, language: str, country: str) -> str:
    """As the customer's country writes it; `country` ISO 3166-1 alpha-2."""
    english = "en_US" if country in ON_LETTER else "en_GB"
    return format_date(day, "long", locale=english if language == "en" else language)

"""What an identity number says, in whole sentences."""

from __future__ import annotations

from typing import Any

from app.wording import say
from rules.donor.identity import Beyond, Identified, Mendable, NumberReading, Unreadable
from rules.model import Book, Role


def reading_view(reading: NumberReading, book: Book, language: str) -> dict[str, Any]:
    """`series` and `number` only where they are certain; `offer` only for somebody to confirm."""
    view: dict[str, Any] = {"text": reading.text, "series": None, "number": None, "canonical": None, "offer": None}
    match reading:
        case Identified(series=series, number=number, canonical=canonical):
            view |= {"reading": "identified", "series": series, "number": number, "canonical": canonical}
        case Beyond(canonical=canonical):
            view |= {"reading": "beyond", "canonical": canonical}
        case Mendable(offer=offer):
            view |= {"reading": "mendable", "offer": offer}
        case Unreadable():
            view |= {"reading": "unreadable"}
    return view | {"message": sentence(reading, book, language)}


def sentence(reading: NumberReading, book: Book, language: str) -> str:
    """What to say to the customer about it."""
    match reading:
        case Identified():
            known = next(one for one in book.series if one.choice == reading.series)
            label = _label(book, reading.series, language)
            return say("reading.identified", language, number=reading.canonical, series=label, years=known.years)
        case Beyond():
            side = "past-last" if reading.side == "after" else "before-first"
            key = f"reading.{side}{'-one' if reading.by == 1 else ''}"
            label = _label(book, reading.series, language)
            return say(key, language, number=reading.canonical, series=label, limit=reading.limit, by=reading.by)
        case Mendable():
            return say("reading.mendable", language, text=reading.text.strip(), offer=reading.offer)
        case Unreadable():
            return say(f"reading.{reading.why}", language, text=reading.text, prefixes=reading.prefixes)


def _label(book: Book, series: str, language: str) -> str:
    if Role.SERIES not in book.roles:
        return series
    words = book.option(book.roles[Role.SERIES]).choice(series).label
    return words.get(language) or next(iter(words.values()), series)

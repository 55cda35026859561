"""How well promises hold as plain data, with its sentences. Shaping only."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from babel.numbers import format_decimal

from app.domain.planning.outlook import Counted, Outlook, Supposed
from app.services.books.publishing import current_book
from app.services.planning import outlook
from app.store.db import Store
from app.web import here
from app.wording import say
from rules.model import Book
from rules.schedule.outlook import Tried

#: Widths that are shown, from 0 on.
WIDTHS = 31
NINE_IN_TEN = 0.9

_NOTHING: Mapping[str, Any] = {
    "done": 0, "of": 0, "width": None, "says": "", "basis": [], "held": [], "at": None, "by_name": None,
}  # fmt: skip


def outlook_view(store: Store, now: datetime, language: str) -> dict[str, Any]:
    """What is underway goes before what was found."""
    book, told, found = current_book(store, now), outlook.progress(store), outlook.outlook(store)
    basic = {**_NOTHING, "line": int(book.calendar.load_percent)}
    if told is not None:
        state = "failed" if told.failed else "underway"
        return {**basic, "state": state, "done": told.done, "of": told.of, "supposed": told.supposed}
    if found is None:
        return {**basic, "state": "none", "supposed": Supposed()}
    return {**basic, "state": "done", **_found(book, found, language)}


def _found(book: Book, found: Outlook, language: str) -> dict[str, Any]:
    return {
        "supposed": found.supposed,
        "width": found.width,
        "says": _says(book, found, language),
        "basis": list(_basis(book, found.counted, language)),
        "held": [_held(load, tried, found.width) for load, tried in found.held],
        "at": found.at,
        "by_name": here.called(found.by),
    }


def _held(load: int, tried: Tried, width: int) -> dict[str, Any]:
    years = sorted(tried.years)
    return {
        "planned": load,
        "shells": tried.shells,
        "kept": _percent(tried.kept(width)),
        "nine_in_ten": tried.width_for(NINE_IN_TEN),
        "poor_year": _percent(years[(len(years) - 1) // 10]),
        "curve": [_percent(tried.kept(one)) for one in range(WIDTHS)],
    }


def _says(book: Book, found: Outlook, language: str) -> str:
    """At the load that the book plans to."""
    line = int(book.calendar.load_percent)
    tried = dict(found.held).get(line, found.held[0][1])
    slots = {
        "kept": format_decimal(_percent(tried.kept(found.width)), locale=language),
        "width": found.width,
        "nine": tried.width_for(NINE_IN_TEN),
        "load": line,
        "years": format_decimal(found.supposed.years, locale=language),
        "shells": format_decimal(tried.shells, locale=language),
    }
    return say("outlook.says", language, **slots)


def _basis(book: Book, counted: Counted, language: str) -> Iterator[str]:
    labels = {stage.id: stage.label.get(language, stage.id) for stage in book.stages}
    if counted.shells:
        yield say("outlook.mix", language, shells=counted.shells, parts=counted.parts)
    else:
        yield say("outlook.mix-none", language)
    if counted.slack:
        yield say("outlook.slack", language, stage=labels[counted.slack], days=counted.slack_days)
    if counted.rework_at:
        yield say("outlook.rework", language, stage=labels[counted.rework_at])
    if counted.booth:
        yield say("outlook.booth", language, stage=labels[counted.booth])
    yield say("outlook.tools", language, tools=counted.tools)
    yield say("outlook.left-out", language)


def _percent(share: float) -> float:
    """One decimal, cut off: no more is claimed than was kept."""
    return int(share * 1000 + 1e-9) / 10

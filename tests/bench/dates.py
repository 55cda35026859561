"""The rows of dates: a promise with what binds it and what would be sooner, at a desk with few orders and with many."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from app import calendar
from app.domain.asking.people import Person, Role
from app.services.answering.specifying import Asked
from app.services.planning.dating import date_specification
from app.store.db import Store
from demo.loading import set_up
from rules.schedule.capacity import Visit, shop
from rules.schedule.days import route_days
from rules.schedule.promise import Wanted, dated, visits_of
from rules.specification import Specification, Taken
from tests.bench.rows import Row, timed
from tests.rules.demo_book import NO_DONOR, whole

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
CLERK = Person("imogen", "Imogen Faulk", Role.CLERK)
#: Shells that are still to be built: most of a year's work.
OPEN = 100
ASKED = {"series": "s3", "market": "home", "body": "coupe", "finish": "painted", "roof": "folding"}
_ADD = "INSERT INTO visits (order_id, seat, stage, first_day, end_day, kind, is_slot) VALUES (?, ?, ?, ?, ?, ?, ?)"


def growth(few: int = 100, many: int = 10_000, repeats: int = 25) -> Iterator[Row]:
    """The same hundred shells ahead; what was built before lies behind them. Ratio: with few ÷ with many."""
    ahead = list(_ahead())
    with TemporaryDirectory() as folder:
        quick, slow = (_asked(Path(folder) / str(count), ahead, count, repeats) for count in (few, many))
    note = f"{many} orders ({OPEN} of them ahead), reference: {few}; ratio: few ÷ many, aim ≥ 0.33"
    yield Row("promise_growth", round(slow, 2), "ms", round(quick, 2), round(quick / slow, 2), note)


def _asked(folder: Path, ahead: list[tuple[Visit, ...]], count: int, repeats: int) -> float:
    """Median milliseconds of one promise."""
    folder.mkdir()
    store = Store(folder / "desk.sqlite3")
    set_up(store, NOW - timedelta(days=30))
    _fill(store.path, ahead, count)
    asked = Asked(Specification({option: Taken(choice) for option, choice in ASKED.items()}))
    spans = [timed(date_specification, store, CLERK, asked, calendar.around, NOW)[0] for _ in range(repeats + 2)]
    store.close()
    return median(spans[2:])


def _ahead() -> Iterator[tuple[Visit, ...]]:
    """Every shell as it would be promised after those before it."""
    book, today, taken = whole(), NOW.date(), list[Visit]()
    working = calendar.around(book.calendar, today)
    for place in range(OPEN):
        made = {"body": "coupe" if place % 4 == 3 else "roadster", "finish": "painted" if place % 3 else "primed"}
        wanted = Wanted(route_days(book, made, NO_DONOR), (), {"framing": made["body"]})
        visits = visits_of(dated(book, wanted, shop(book, working, taken), today), wanted.kinds)
        taken += visits
        yield visits


def _fill(path: Path | str, ahead: list[tuple[Visit, ...]], count: int) -> None:
    """`count` shells: those ahead, and the same again before today, a week after the other."""
    rows = []
    for place in range(count):
        back, visits = place // len(ahead), ahead[place % len(ahead)]
        shift = timedelta(weeks=60 * back)
        rows += [
            (place + 1, 1, v.stage, (v.start - shift).isoformat(), (v.end - shift).isoformat(), v.kind, 0)
            for v in visits
        ]
    with sqlite3.connect(path) as plain:  # a bare connection holds no row to its order: none of these has one
        plain.executemany(_ADD, rows)
    plain.close()

"""The rows of the outlook: what a width of promise keeps, by planned load, over seeded years; and its time."""

from __future__ import annotations

from collections.abc import Iterator

from app.domain.planning.outlook import Supposed
from app.services.planning.outlook import Progress, firm_by, look, work_of
from rules.schedule.days import route_days
from rules.schedule.outlook import Work
from tests.bench.rows import Row, timed
from tests.rules.demo_book import NO_DONOR, whole

SEED = 1


def outlook(years: int = 1_000) -> Iterator[Row]:
    """A quarter are coupés, two thirds painted, each sixth waits for a part. Shares have no yardstick."""
    book = whole()
    firm = firm_by(book, list(_works()), tuple(tool.id for tool in book.tools))
    span, held = timed(lambda: list(look(book, firm, Progress(Supposed(SEED, years)))))
    width = book.calendar.spread
    for load, tried in held:
        note = f"kept by + {width}; nine in ten by + {tried.width_for(0.9)}; {years} years, {tried.shells} shells"
        yield Row(f"outlook_{load}", round(tried.kept(width) * 100, 2), "%", None, None, f"{note}, seed {SEED}")
    yield Row("outlook", round(span), "ms", None, None, f"{len(held)} loads of {years} years")


def _works() -> Iterator[Work]:
    book = whole()
    for place in range(12):
        made = {"body": "coupe" if place % 4 == 3 else "roadster", "finish": "painted" if place % 3 else "primed"}
        yield work_of(book, route_days(book, made, NO_DONOR), made, NO_DONOR, None if place % 6 else "framing")

"""Stock as plain data: what there is, whose it is, and what is offered of it. Shaping only."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from app.domain.stock import InStock, Source
from app.services.answering.pricing import day_of
from app.services.planning.shop_calendar import told
from app.services.stock.matching import Match, Matches
from app.services.stock.offering import Offer
from app.services.stock.stocking import Stock
from app.web import here
from app.web.views.dated import promise_view
from app.web.views.things import slots, stage_label
from rules.making import Operation
from rules.model import Book, Work
from rules.schedule.days import route_days
from rules.specification import Donor
from rules.workshop.conversion import Conversion, Difference


def stock_view(stock: Stock) -> dict[str, Any]:
    """All that is in stock."""
    now = here.now()
    return {**slots(stock, "cap", "hours"), "shells": [_shell(*pair, now) for pair in stock.shells]}


def matches_view(matches: Matches) -> dict[str, Any]:
    """What of it could be what is wanted."""
    dated, now = matches.dated, here.now()
    ready = None if dated is None or dated.promise is None else dated.promise.ready
    return {"ready": ready, "found": [_match(one, now) for one in matches.found]}


def offers_view(offers: Iterable[Offer]) -> dict[str, Any]:
    """What could be an order's planned shell."""
    return {"offers": [_offer(one) for one in offers]}


def held_view(held: Iterable[tuple[InStock, int | None]]) -> dict[str, Any]:
    """What is held for one quotation."""
    return {"held": [{"id": one.stock.id, "name": one.name, **_hold(one), "line": line} for one, line in held]}


def _shell(one: InStock, book: Book, now: datetime) -> dict[str, Any]:
    entry, had, held = one.stock, one.allocated, one.holder(now)
    return {
        **slots(entry, "id", "number", "at", "because", "settled", "came_from", "why"),
        "serial": one.shell.serial,
        "floor": entry.shell,
        "what": [book.option(of).choice(choice).label for of, choice in told(book, entry.settled).items()],
        "plan": promise_view(book, entry.plan),
        "begun": entry.begun(day_of(book, now)) or bool(one.shell.deeds),
        "act": entry.act.value,
        "state": one.state(now).value,
        "source": entry.source.value,
        "stands": one.shell.state.value,
        "stage": stage_label(book, one.shell.progress.stage),
        "painted": _painted(book, one),
        "days": one.age(day_of(book, now)) if one.shell.deeds else None,
        "reserved": None if held is None or had is not None else {"quotation": held.quotation, **_hold(one)},
        "returnable": one.returnable,
        "allocated": None if had is None else {"order": had.order, "shell": had.seat, "at": had.at},
    }


def _hold(one: InStock) -> dict[str, Any]:
    held = one.reserved
    assert held is not None
    return {**slots(held, "until", "extended"), "by_name": here.called(held.by)}


def _offer(one: Offer) -> dict[str, Any]:
    told = slots(one, "ready", "ready_by", "promised", "days", "asks")
    return {**_taken(one.shell, one.book, one.conversion), **told}


def _taken(one: InStock, book: Book, made: Conversion) -> dict[str, Any]:
    """The shell, and what would be changed on it."""
    second = one.stock.source is Source.SECOND
    return {
        "id": one.stock.id,
        "name": one.name,
        "second": second,
        "why": one.stock.why if second else "",
        "finished": one.finished,
        "stage": stage_label(book, one.shell.progress.stage),
        "differences": [_difference(each) for each in made.differences],
        "work": [_work(book, each) for each in made.work],
        "undone": [_work(book, each) for each in made.undone],
        "work_days": made.days,
    }


def _match(match: Match, now: datetime) -> dict[str, Any]:
    held = match.shell.holder(now)
    return {
        **_taken(match.shell, match.book, match.conversion),
        "fits": match.fits,
        **slots(match, "ready", "ready_by", "days", "price", "currency"),
        "held": None if held is None else held.until,
    }


def _difference(one: Difference) -> dict[str, Any]:
    return {**slots(one, "option", "has", "wanted"), "taken": one.taken.value}


def _work(book: Book, operation: Operation) -> dict[str, Any]:
    return {"stage": stage_label(book, operation.stage), "text": operation.text}


def _painted(book: Book, one: InStock) -> bool:
    """Whether days are spent on its paint."""
    booths = {stage.id for stage in book.stages if stage.work is Work.PAINT}
    return any(stage.days for stage in route_days(book, one.stock.settled, Donor()).stages if stage.stage in booths)

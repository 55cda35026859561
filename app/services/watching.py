"""What the manager watches: refused and why, lost tools, declined and why, discounts given.

A refusal is written down after the answer has gone out, so that no answer waits for it: from a draft that was kept with
a line that can't be built. Once for each enquiry and set of causes: whoever tries ten colours of one impossible shell
asked for it once. What is only tried on a sheet without a name is nobody's enquiry, and is not counted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, NotFound, Refusal
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import DraftLine, Revision
from app.domain.quotations.refused import Counted, Refused, Remaking, by_cause, counted, sorted_causes
from app.domain.stock import StockShell
from app.domain.watched import Aged, Amiss, Declined, Discounted
from app.services.answering import advising
from app.services.answering.checking import refuse
from app.services.answering.pricing import day_of, midnight_of
from app.services.answering.specifying import Asked
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.books.tools import tool_states
from app.services.quotations import working_out
from app.services.quotations.owned import opened
from app.store import refusals as kept
from app.store import stock as kept_stock
from app.store import watched
from app.store.db import Store
from rules.answer import Verdict
from rules.model import Book, Tool, ToolCondition

#: Days that are looked at where nobody says others: a quarter.
USUAL_PERIOD = 91
LONGEST_PERIOD = 800


@dataclass(frozen=True, slots=True)
class Cause:
    """A `tool`, or else a rule; `reason` in words of the last book that named it, empty where it named none."""

    id: str
    reason: dict[str, str]
    tool: bool
    counted: Counted


@dataclass(frozen=True, slots=True)
class LostTool:
    """`refused`: what named it, or the rule that it speaks through. `instead`: shells quoted on a customer's part."""

    tool: Tool
    refused: Counted
    instead: int
    remaking: Remaking | None


@dataclass(frozen=True, slots=True)
class Watched:
    """Of the days `since` to `until`, both included; `stock` as it is now, the oldest first."""

    since: date
    until: date
    total: Counted
    causes: tuple[Cause, ...]
    tools: tuple[LostTool, ...]
    refused: tuple[Refused, ...]
    declined: tuple[Declined, ...]
    discounted: tuple[Discounted, ...]
    amiss: tuple[Amiss, ...]
    stock: tuple[Aged, ...]


def note_refusals(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> int:
    """How many were new. Of a draft alone; what can't be told (no book, no such quotation) is left alone."""
    try:
        _, enquiry, revision = opened(store, actor, number, letter, now)
        found = () if revision.issued else tuple(_new(store, actor, number, enquiry, revision, now))
    except Refusal:
        return 0
    if found:
        with store.writing() as db:
            for one in found:
                kept.add(db, one)
    return len(found)


def watched_between(store: Store, since: date | None, until: date | None, now: datetime) -> Watched:
    """Raises BadInput, NoBook."""
    book = current_book(store, now)
    last = until or day_of(book, now)
    first = since or last - timedelta(days=USUAL_PERIOD - 1)
    refuse(_period_faults(first, last))
    span = midnight_of(book, first), midnight_of(book, last + timedelta(days=1))
    with store.reading() as db:
        refused, declined = kept.between(db, *span), watched.declined(db, *span)
        discounted, parts = watched.discounted(db, *span), watched.waiting_for_parts(db, *span)
        remakings, amiss = kept.remakings(db), watched.amiss(db, *span)
        stock = tuple(sorted((_aged(store, one, now) for one in kept_stock.every(db)), key=lambda one: -one.days))
    causes = tuple(_cause(store, id_, row, refused) for id_, row in by_cause(refused).items())
    tools = tuple(_lost(store, book, refused, parts, remakings))
    return Watched(first, last, counted(refused), causes, tools, refused, declined, discounted, amiss, stock)


def say_remaking(store: Store, actor: Actor, tool: str, cost: int, margin: int, currency: str, now: datetime) -> None:
    """What remaking it is taken to cost, and to be left over of each shell: minor units. Raises NotFound, BadInput."""
    book = current_book(store, now)
    if all(one.id != tool for one in book.tools):
        raise NotFound(what="tool", name=tool)
    if all(one.currency != currency for one in book.lists):
        refuse([Fault("currency", "unknown-currency", {"name": currency})])
    with store.writing() as db:
        kept.say_remaking(db, Remaking(tool, cost, margin, currency, now, actor.name))


def _aged(store: Store, one: StockShell, now: datetime) -> Aged:
    book = book_of(store, one.book)
    since = day_of(book, one.made_at)
    return Aged(one.number, one.book, one.settled, since, (day_of(book, now) - since).days, one.plan.ready)


def _new(
    store: Store, actor: Actor, number: str, enquiry: Enquiry, revision: Revision, now: datetime
) -> Iterator[Refused]:
    worked = working_out.work_out(store, enquiry, revision, now)
    for line, said in zip(worked.draft.lines, worked.answers, strict=True):
        if said is None or said.answer.verdict is not Verdict.CANT or not said.answer.causes:
            continue
        causes = sorted_causes(said.answer.causes)
        with store.reading() as db:
            if kept.known(db, enquiry.id, causes):
                continue
        net = _nearest(store, actor, enquiry, revision, line, now)
        yield Refused(enquiry.id, number, causes, said.book.number, line.quantity, said.currency, net, now)


def _nearest(
    store: Store, actor: Actor, enquiry: Enquiry, revision: Revision, line: DraftLine, now: datetime
) -> int | None:
    """Before tax, on the terms of the draft; None where nothing near is found or priced, or the book is too large."""
    place = revision.delivery_place
    asked = Asked(
        line.specification,
        enquiry.donor.facts(),
        price_list=revision.price_list,
        trade_of=enquiry.dealer,
        delivery_country=place.country or None,
        delivery_region=place.region or None,
        customer_country=enquiry.customer.country or None,
        quantity=line.quantity,
    )
    try:
        offers = advising.alternatives(store, actor, asked, None, now).offers
    except Refusal:
        return None
    return next((offer.price.net for offer in offers if offer.price.net is not None), None)


def _cause(store: Store, id_: str, row: Counted, refused: tuple[Refused, ...]) -> Cause:
    book = book_of(store, next(one.book for one in refused if id_ in one.ids))
    tool = next((one for one in book.tools if one.id == id_), None)
    rule = next((one for one in book.rules if one.id == id_), None)
    spoken = tool or rule
    return Cause(id_, {} if spoken is None else dict(spoken.reason), tool is not None, row)


def _lost(
    store: Store,
    book: Book,
    refused: tuple[Refused, ...],
    parts: dict[str, int],
    remakings: dict[str, Remaking],
) -> Iterator[LostTool]:
    """What is lost now: what has come back need not be made again."""
    conditions = tool_states(store).conditions()
    for tool in book.tools:
        if conditions.get(tool.id) is ToolCondition.LOST:
            named = {tool.id, tool.speaks_as or tool.id}
            row = counted(one for one in refused if one.ids & named)
            instead = parts.get(tool.stands_in, 0) if tool.stands_in else 0
            yield LostTool(tool, row, instead, remakings.get(tool.id))


def _period_faults(first: date, last: date) -> Iterator[Fault]:
    if last < first:
        yield Fault("until", "before-the-first")
    elif (last - first).days > LONGEST_PERIOD:
        yield Fault("since", "too-long-a-period", {"most": LONGEST_PERIOD})

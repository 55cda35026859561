"""A shell of stock held for a quotation for a while, and who may have one at all. Never two.

All of it is decided in the one writing transaction; unique indexes stand behind it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import NotFound, StockMisfit, StockTaken, StockUnready
from app.domain.quotations.quotation import Draft, DraftLine, Foreseen, FromStock, QuotationLine, Revision
from app.domain.stock import InStock, Reservation, Source, StockAct, Unready, reserved_until
from app.services.answering.pricing import day_of
from app.services.answering.specifying import Answered, Asked, deal_of
from app.services.books.publishing import current_book
from app.services.once import Once, perform
from app.services.planning.dating import Working, date_specification
from app.services.quotations.owned import draft_of, note, opened, own_quotation, own_revision
from app.services.quotations.working_out import WorkedOut
from app.services.stock.matching import Match, Wanting, come_into, in_stock, nearest_free, ready_on
from app.store import quotations, stock
from app.store import stock_claims as kept
from app.store.db import Store
from rules.model import Allowed
from rules.schedule.days import HolidaysUnknown
from rules.workshop.conversion import Conversion, conversion


def take(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    line: int,
    key: int,
    working: Working,
    now: datetime,
    *,
    expected: int,
    may_approve: bool = False,
    once: Once | None = None,
) -> Revision:
    """The draft's line (from 1) becomes that shell of stock, and is held for the quotation; of several shells one is.

    `may_approve`: this person may say that a change is made that the book leaves to an approval. Raises NotFound,
    Frozen, ChangedByAnother, StockTaken, StockMisfit, StockUnready, KeyReused, Underway.
    """
    match = _match(store, actor, number, letter, line, key, working, now)

    def write(db: Database) -> str:
        quotation = own_quotation(db, actor, number, now)
        revision = draft_of(quotation, letter, expected)
        one = had_or_nearest(store, db, key, number, now)
        refuse_misfit(one, None if match is None else match.conversion, may_approve=may_approve)
        assert match is not None
        quotations.change(db, number, revision, _with_line(revision.draft(), line, match), now)
        hold(db, one, number, match.conversion.becomes, actor, now)
        note(db, number, letter, "stock-reserved", actor, now, shell=one.name)
        return letter

    perform(store, once, now, write)
    with store.reading() as db:
        return own_revision(db, actor, number, letter, now)


def extend(store: Store, actor: Actor, key: int, now: datetime, *, once: Once | None = None) -> str:
    """As long again from now, once. The quotation's number. Raises NotFound, StockUnready, KeyReused, Underway."""

    def write(db: Database) -> str:
        one = _own_hold(db, actor, key, now)
        held = one.holder(now)
        assert held is not None
        if held.extended:
            raise StockUnready(number=one.name, why=Unready.EXTENDED.value)
        kept.extend(db, held.id, reserved_until(now, kept.hours(db)))
        return held.quotation

    return str(perform(store, once, now, write))


def let_go(store: Store, actor: Actor, key: int, now: datetime) -> str:
    """It is held no longer; what the quotation says of it stays written. Its number. Raises NotFound, StockUnready."""
    with store.writing() as db:
        held = _own_hold(db, actor, key, now).reserved
        assert held is not None
        kept.end_reservation(db, key, now)
        return held.quotation


def held_for(store: Store, actor: Actor, number: str, now: datetime) -> tuple[tuple[InStock, int | None], ...]:
    """What is held for the quotation, each with the line (from 1) of its last revision that is it. Raises NotFound."""
    with store.reading() as db:
        revision = own_quotation(db, actor, number, now).revisions[-1]
        held = [in_stock(db, key) for key, one in kept.reserved_for(db, number) if now < one.until]
    lines = [_choices(line) for line in revision.lines]
    return tuple((one, _line_of(lines, one)) for one in held)


def _choices(line: QuotationLine) -> Mapping[str, str]:
    return line.specification.choices() if line.frozen is None else line.frozen.settled


def _line_of(lines: Sequence[Mapping[str, str]], one: InStock) -> int | None:
    """A draft answers no more than it must: what it says is what was taken."""
    settled = {} if one.reserved is None else one.reserved.settled
    said = (at for at, line in enumerate(lines, 1) if line and all(settled.get(o) == c for o, c in line.items()))
    return next(said, None)


def with_stock(store: Store, worked: WorkedOut, number: str, working: Working | None, now: datetime) -> WorkedOut:
    """A quotation that is issued now, each line with the shell that is held for it, and by when that is ready."""
    lines = [(None, 0) if one is None else (one.answer.settled, line.quantity) for line, one in _lines(worked)]
    with store.reading() as db:
        held = [(in_stock(db, key), one) for key, one in kept.reserved_for(db, number) if now < one.until]
    if not held:
        return worked
    found = tuple(_held_for(held, settled, quantity) for settled, quantity in lines)
    stock = tuple(None if pair is None else _from_stock(*pair) for pair in found)
    if working is None or not worked.foreseen:
        return replace(worked, stock=stock)
    ranges = zip(worked.foreseen, found, strict=True)
    foreseen = (had if pair is None else _foreseen(store, worked, *pair, working, now) for had, pair in ranges)
    return replace(worked, stock=stock, foreseen=tuple(foreseen))


def _match(
    store: Store, actor: Actor, number: str, letter: str, line: int, key: int, working: Working, now: datetime
) -> Match | None:
    """What that line makes of the shell. Raises NotFound."""
    _, enquiry, revision = opened(store, actor, number, letter, now)
    if not 0 < line <= len(revision.lines):
        raise NotFound(what="line", name=str(line))
    wanted = revision.lines[line - 1].specification
    asked = Asked(wanted, enquiry.donor.facts(), revision.price_list, enquiry.dealer)
    dated = date_specification(store, actor, asked, working, now, sooner=False)
    if not dated.can or not dated.complete:
        raise StockMisfit(number="", options=(), why="stock-misfit-open")
    deal, tools = deal_of(store, actor, asked, now)
    with store.reading() as db:
        one = known(db, key)
    days = working(deal.book.calendar, dated.today)
    return Wanting(store, deal, tools, wanted, dated.settled, days).match(one, dated)


def _with_line(draft: Draft, line: int, match: Match) -> Draft:
    """One of the line's shells: the others stay as they were wanted."""
    had = draft.lines[line - 1]
    rest = () if had.quantity == 1 else (replace(had, quantity=had.quantity - 1),)
    lines = (*draft.lines[: line - 1], DraftLine(match.specification, 1), *rest, *draft.lines[line:])
    return replace(draft, lines=lines)


def known(db: Database, key: int) -> InStock:
    """Raises NotFound, for what was withdrawn as for what never was."""
    found = stock.get(db, key)
    if found is None or found.act is StockAct.WITHDRAWN:
        raise NotFound(what="stock", name=str(key))
    return in_stock(db, key)


def to_be_had(db: Database, key: int, quotation: str, now: datetime) -> InStock:
    """A shell that this quotation may have. Inside a transaction. Raises NotFound, StockUnready, StockTaken."""
    one = known(db, key)
    held = one.holder(now)
    if one.allocated is not None:
        raise StockTaken(number=one.name, at=one.allocated.at, nearest=None)
    if held is not None and held.quotation != quotation:
        raise StockTaken(number=one.name, at=held.at, nearest=None)
    why = one.unready()
    if why is not None:
        raise StockUnready(number=one.name, why=why.value)
    return one


def had_or_nearest(store: Store, db: Database, key: int, quotation: str, now: datetime) -> InStock:
    """The same; StockTaken names the free shell that differs least from it, and the time of the firm's own day."""
    try:
        return to_be_had(db, key, quotation, now)
    except StockTaken as taken:
        nearest, zone = nearest_free(db, in_stock(db, key), now), current_book(store, now).calendar.zone
        at = taken.facts["at"].astimezone(ZoneInfo(zone))
        taken.facts |= {"clock": f"{at:%H:%M}", "day": at.date(), "why": "none-free"}
        if nearest is not None:
            taken.facts |= {"nearest": nearest.name, "why": ""}
        raise


def refuse_misfit(one: InStock, made: Conversion | None, *, may_approve: bool) -> None:
    """Raises StockMisfit: another car's shell, or a change that takes an approval which this person can't give."""
    if made is None:
        raise StockMisfit(number=one.name, options=(), why="stock-misfit-other")
    if made.hardest is Allowed.APPROVAL and not may_approve:
        asks = tuple(each.option for each in made.changed if each.taken is Allowed.APPROVAL)
        raise StockMisfit(number=one.name, options=asks, why="stock-misfit-approval")


def hold(db: Database, one: InStock, quotation: str, becomes: Mapping[str, str], actor: Actor, now: datetime) -> None:
    """What ran out is ended first; who holds it already holds it no longer than he did."""
    held = one.holder(now)
    until = reserved_until(now, kept.hours(db)) if held is None else held.until
    kept.end_reservation(db, one.stock.id, now)
    kept.reserve(
        db, one.stock.id, quotation, becomes, actor.name, now, until, extended=held is not None and held.extended
    )


def _own_hold(db: Database, actor: Actor, key: int, now: datetime) -> InStock:
    """A shell that is held for a quotation which the actor may see."""
    one = known(db, key)
    held = one.holder(now)
    if held is None or one.allocated is not None:
        raise StockUnready(number=one.name, why=Unready.NOT_RESERVED.value)
    own_quotation(db, actor, held.quotation, now)
    return one


def _lines(worked: WorkedOut) -> list[tuple[DraftLine, Answered | None]]:
    return list(zip(worked.draft.lines, worked.answers, strict=True))


def _held_for(
    held: list[tuple[InStock, Reservation]], settled: Mapping[str, str] | None, quantity: int
) -> tuple[InStock, Reservation] | None:
    """The line is that shell as long as it says what was taken; each shell is one line's."""
    found = next((pair for pair in held if quantity == 1 and pair[1].settled == settled), None)
    if found is not None:
        held.remove(found)
    return found


def _from_stock(one: InStock, held: Reservation) -> FromStock:
    changed = tuple(option for option, choice in held.settled.items() if one.stock.settled.get(option) != choice)
    second = one.stock.source is Source.SECOND
    return FromStock(one.stock.id, one.name, held.until, one.finished, changed, second, one.stock.why if second else "")


def _foreseen(
    store: Store, worked: WorkedOut, one: InStock, held: Reservation, working: Working, now: datetime
) -> Foreseen | None:
    book, today = worked.deal.book, day_of(worked.deal.book, now)
    made = conversion(book, one.stock.settled, held.settled, worked.deal.donor, come_into(one))
    days = working(book.calendar, today)
    try:
        ready = ready_on(store, one, 0 if made is None else made.days, days, today)
        return Foreseen(today, ready, days.add(ready, book.calendar.spread))
    except HolidaysUnknown:
        return None

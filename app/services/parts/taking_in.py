"""Customers' parts: taken in by their tag, inspected against the book's limits, kept or returned where they fail.

The verdict opens the part's gate or holds its shell; nothing here takes a slot away. What is built instead is chosen
in `failing`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal
from itertools import pairwise

from sqlite_utils import Database

from app.domain import part as rules_of_parts
from app.domain.asking.actor import Actor
from app.domain.errors import BadInput, Fault, NotFound
from app.domain.errors import PartBarred as Barred
from app.domain.floor.shell import ENDED, ShellState
from app.domain.orders.order import Order, Shell
from app.domain.part import ActDone, Arrival, Finding, PartAct, PartBarred, PartPhotograph, PartStands, Verdict
from app.domain.planning.slots import Seat, places_kept
from app.domain.quotations.quotation import FrozenLine, Revision
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.floor.signing import Signature, lead_or_inspector, signed_by
from app.services.once import Once, perform
from app.services.orders.ordering import note as note_in
from app.services.orders.ordering import own_order
from app.services.planning.dating import Working
from app.services.planning.promising import dates_of
from app.services.quotations.photographing import remade_or_refused
from app.services.quotations.tagging import Tag
from app.store import orders, quotations, shells
from app.store import parts as kept
from app.store.db import Store
from rules.model import Book, Remarked

#: So many photographs of one part: a record of what was found, no album.
MOST = 30

#: What was found of a limit: met or not, where it is not measured; millimetres, where it is.
Answer = tuple[bool | None, Decimal | None]


@dataclass(frozen=True, slots=True)
class OrderedPart:
    """A customer's part of one shell of an order. `line` counts from 1, `seat` is the shell's place in the order.

    `arrivals`: everything that came under this tag, the last one counts. `needed`: the shell still depends on it; after
    a later yes it may not, and once it is cancelled it does not. `book`: by which the order was quoted. `doubt`: places
    of other shells whose tags bore this number in an earlier revision. `shell` None: it came for one that the order has
    no longer.
    """

    order: Order
    book: Book
    tag: Tag
    seat: Seat
    shell: Shell | None
    needed: bool
    arrivals: tuple[Arrival, ...] = ()
    due: date | None = None
    doubt: tuple[int, ...] = ()

    @property
    def stands(self) -> PartStands:
        return rules_of_parts.stands(self.arrivals)

    @property
    def last(self) -> Arrival | None:
        return self.arrivals[-1] if self.arrivals else None

    @property
    def limits(self) -> tuple[Remarked, ...]:
        cut = self.book.cut(self.tag.rule)
        return () if cut is None else cut.limits


def part(store: Store, actor: Actor, tag: Tag, now: datetime) -> OrderedPart:
    """By its tag. Raises NotFound, where no order follows the quotation, too."""
    with store.reading() as db:
        return own_part(store, db, actor, tag, now)


def dated_part(store: Store, actor: Actor, tag: Tag, working: Working, now: datetime) -> OrderedPart:
    """With the last day on which it may pass, where its shell has a slot. Raises NotFound."""
    with store.reading() as db:
        return _dated(store, db, (own_part(store, db, actor, tag, now),), working, now)[0]


def parts_of(store: Store, actor: Actor, number: str, working: Working, now: datetime) -> tuple[OrderedPart, ...]:
    """Every part of the order's shells, with the last day on which each may pass where its shell has a slot.

    Raises NotFound.
    """
    with store.reading() as db:
        order = own_order(db, actor, number, now)
        found = tuple(_each(order, book_of(store, order.revision.book or 0)))
        return _dated(store, db, found, working, now) if found else ()


def awaited(store: Store, actor: Actor, working: Working, now: datetime) -> tuple[OrderedPart, ...]:
    """What has not passed, of confirmed orders that still have to be built, and all that lies here and is not built in.

    What is needed first comes first.
    """
    with store.reading() as db:
        numbers = dict.fromkeys((*shells.of_confirmed(db, shells.Left.TO_BUILD), *kept.lying_here(db)))
        found = [one for number in numbers for one in parts_of(store, actor, number, working, now)]
    return tuple(sorted(filter(_open, found), key=lambda one: (one.due is None, one.due or date.max, one.tag.number)))


def parts_of_shell(order: Order, book: Book, place: int) -> tuple[OrderedPart, ...]:
    """Those of the shell at that place of the order, from 1. For use inside a transaction."""
    return tuple(one for one in _each(order, book) if one.seat.place == place)


def arrive(
    store: Store, actor: Actor, tag: Tag, day: date, note: str, now: datetime, *, once: Once | None = None
) -> None:
    """It came on that day. Raises NotFound, BadInput, PartBarred, KeyReused, Underway."""
    refuse(long_faults("note", note, LONGEST_TEXT))

    def write(db: Database) -> int:
        found = own_part(store, db, actor, tag, now)
        refuse(_day_faults(found, day, now))
        _refuse_barred(tag, None if found.needed else PartBarred.NOT_NEEDED)
        _refuse_barred(tag, rules_of_parts.arrival_barred(found.arrivals))
        made = kept.arrive(db, found.order.id, found.seat.place, tag.rule, day, note, actor.name, now)
        tell(db, found, "part-arrived", actor, now, day=day.isoformat())
        return made

    perform(store, once, now, write)


def add_photograph(
    store: Store, actor: Actor, tag: Tag, data: bytes, note: str, now: datetime, *, once: Once | None = None
) -> None:
    """Of the part that came last. Raises NotFound, BadInput (field `file`), PartBarred, KeyReused, Underway."""
    refuse(long_faults("note", note, LONGEST_LINE))
    picture = remade_or_refused(data)

    def write(db: Database) -> int:
        found = own_part(store, db, actor, tag, now)
        if found.last is None:
            raise Barred(number=tag.number, why=PartBarred.NOT_HERE.value)
        if len(found.last.photographs) >= MOST:
            raise BadInput((Fault("file", "part-pictures-many", {"most": MOST}),))
        one = PartPhotograph(0, note, picture.width, picture.height, len(picture.jpeg), now, actor.name)
        return kept.photograph(db, found.last.id, one, picture.jpeg, picture.small)

    perform(store, once, now, write)


def photograph(store: Store, actor: Actor, tag: Tag, number: int, now: datetime, *, small: bool) -> bytes:
    """A JPEG. Raises NotFound."""
    with store.reading() as db:
        found = own_part(store, db, actor, tag, now)
        if all(one.id != number for arrival in found.arrivals for one in arrival.photographs):
            raise NotFound(what="photograph", name=str(number))
        return kept.content(db, number, kept.SMALL if small else kept.WHOLE)


def judge(
    store: Store,
    actor: Actor,
    tag: Tag,
    passed: bool,
    answers: Sequence[Answer],
    why: str,
    signature: Signature,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """`answers` one by one to the book's limits; signed by whoever inspected it, with his own code.

    Raises NotFound, BadInput (blanks can't pass, nor what is beyond a limit), PartBarred, CodeRefused, SlowDown,
    MayNotSign, KeyReused, Underway.
    """
    before = part(store, actor, tag, now)
    findings = _findings(before.limits, answers)
    refuse((*rules_of_parts.verdict_faults(findings, why, passed=passed), *long_faults("why", why, LONGEST_TEXT)))
    _refuse_barred(tag, rules_of_parts.verdict_barred(before.arrivals, passed=passed))
    signer = signed_by(store, signature, None, now)
    lead_or_inspector(signer, "receipt")

    def write(db: Database) -> int:
        found = own_part(store, db, actor, tag, now)
        _refuse_barred(tag, rules_of_parts.verdict_barred(found.arrivals, passed=passed))
        assert found.last is not None
        day, number = day_of(found.book, now), found.order.revision.book or 0
        kept.judge(db, found.last.id, Verdict(passed, findings, why, day, now, actor.name, signer.name, number))
        what = "part-passed" if passed else "part-failed"
        tell(db, found, what, actor, now, signed=signer.display_name)
        return found.last.id

    perform(store, once, now, write)


def act(
    store: Store,
    actor: Actor,
    tag: Tag,
    what: PartAct,
    day: date,
    note: str,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """What is done with a part that is not built in: the last that came, or the one before, if that is still here.

    Raises NotFound, BadInput, PartBarred, KeyReused, Underway.
    """
    refuse(long_faults("note", note, LONGEST_TEXT))

    def write(db: Database) -> int:
        found = own_part(store, db, actor, tag, now)
        refuse(_day_faults(found, day, now))
        about = not_built_in(found.arrivals)
        _refuse_barred(tag, rules_of_parts.act_barred(about, needed=found.needed))
        assert about is not None
        kept.act(db, about.id, ActDone(what, day, note, now, actor.name))
        tell(db, found, f"part-{what.value}", actor, now, day=day.isoformat())
        return about.id

    perform(store, once, now, write)


def not_built_in(arrivals: Sequence[Arrival]) -> Arrival | None:
    """The first that failed and is still here; else the last."""
    here = (one for one in arrivals if one.stands is PartStands.FAILED and not one.gone)
    return next(here, arrivals[-1] if arrivals else None)


def own_part(store: Store, db: Database, actor: Actor, tag: Tag, now: datetime) -> OrderedPart:
    """For use inside a transaction; the rule is found in whatever case it is typed. Raises NotFound.

    A number that only an earlier revision's tags had is found by the shell that it named there.
    """
    order = orders.of_quotation(db, tag.quotation, actor.dealer)
    if order is None:
        raise NotFound(what="part", name=tag.number)
    whole = own_order(db, actor, order[1], now)
    parts = {
        (one.seat.place, one.tag.rule.casefold()): one for one in _each(whole, book_of(store, whole.revision.book or 0))
    }
    places = [*_places(db, whole, tag, now), *([rules_of_parts.NO_SHELL + tag.piece] if tag.line == 0 else [])]
    named = [parts.get((place, tag.rule.casefold())) for place in places]
    found = [one for one in named if one is not None]
    if not found:
        raise NotFound(what="part", name=tag.number)
    return replace(found[0], doubt=tuple(dict.fromkeys(one.seat.place for one in found[1:] if one != found[0])))


def tell(db: Database, found: OrderedPart, what: str, actor: Actor, now: datetime, **facts: str) -> None:
    """An entry of the order's history."""
    told = {"rule": found.tag.rule, "shell": str(found.seat.place), **facts}
    note_in(db, found.order.number, what, actor, now, **told)


def _places(db: Database, order: Order, tag: Tag, now: datetime) -> Iterator[int]:
    """Now, of the shell that line and piece name in what the order follows, then in what it followed before."""
    quotation = quotations.get(db, order.quotation, None, now)
    found = () if quotation is None else (quotation.revision(basis.letter) for basis in order.bases)
    followed = [revision for revision in found if revision is not None]
    built = [[line.frozen for line in one.lines for _ in range(line.quantity)] for one in followed]
    for at in range(len(followed) - 1, -1, -1):
        place = _place(followed[at], tag)
        for before, after in pairwise(built[at:]):
            place = {was: now_ for now_, was in places_kept(_told(before), _told(after)).items()}.get(place or 0)
        if place is not None:
            yield place


def _place(revision: Revision, tag: Tag) -> int | None:
    counts = [line.quantity for line in revision.lines]
    if not (0 < tag.line <= len(counts) and 0 < tag.piece <= counts[tag.line - 1]):
        return None
    return sum(counts[: tag.line - 1]) + tag.piece


def _told(built: Sequence[FrozenLine | None]) -> list[object]:
    """What each shell is built as, as it is compared where an order follows another yes."""
    return [None if one is None else dict(one.settled) for one in built]


def _each(order: Order, book: Book) -> Iterator[OrderedPart]:
    """What each shell depends on, and what came for it and is needed no longer."""
    place = 0
    for number, line in enumerate(order.lines, start=1):
        for shell in line.shells:
            place += 1
            needed = line.frozen_of(shell).depends.parts
            came = [one for one in order.parts if one.place == place]
            for rule in dict.fromkeys((*needed, *(one.rule for one in came))):
                tag, seat = Tag(order.quotation, number, shell.place, rule), Seat(order.id, order.number, place)
                own = tuple(one for one in came if one.rule == rule)
                yield OrderedPart(order, book, tag, seat, shell, rule in needed and _goes_on(shell, own), own)
    yield from left_over(order, book)


def _goes_on(shell: Shell, arrivals: tuple[Arrival, ...]) -> bool:
    """A cancelled shell asks for nothing any more; once it was released it goes on as stock with what has passed."""
    if shell.state is not ShellState.CANCELLED:
        return True
    return shell.serial is not None and rules_of_parts.stands(arrivals) is PartStands.PASSED


def left_over(order: Order, book: Book) -> Iterator[OrderedPart]:
    """What came for shells that a later yes dropped: it lies here, and is nobody's but the customer's."""
    known = {rule.id for rule in book.rules}
    came = [one for one in order.parts if one.place > rules_of_parts.NO_SHELL and one.rule in known]
    for place, rule in dict.fromkeys((one.place, one.rule) for one in came):
        tag = Tag(order.quotation, 0, place - rules_of_parts.NO_SHELL, rule)
        own = tuple(one for one in came if (one.place, one.rule) == (place, rule))
        yield OrderedPart(order, book, tag, Seat(order.id, order.number, place), None, needed=False, arrivals=own)


def _open(one: OrderedPart) -> bool:
    """It is waited for, or it lies here and is not built in."""
    lies_here = one.last is not None and not one.last.gone and not (one.needed and one.stands is PartStands.PASSED)
    if one.shell is None or one.shell.state in ENDED:
        return lies_here
    return lies_here or one.stands is PartStands.FAILED or (one.needed and one.stands is PartStands.EXPECTED)


def _dated(
    store: Store, db: Database, found: tuple[OrderedPart, ...], working: Working, now: datetime
) -> tuple[OrderedPart, ...]:
    dates = dates_of(store, db, found[0].order, working, now)
    due = {
        (shell.seat.place, one.gate.of): one.by
        for shell in dates.shells
        if shell.kept is not None
        for one in shell.due
        if one.gate.name == rules_of_parts.GATE and not one.gate.opened
    }
    return tuple(replace(one, due=due.get((one.seat.place, one.tag.rule))) for one in found)


def _findings(limits: Sequence[Remarked], answers: Sequence[Answer]) -> tuple[Finding, ...]:
    if len(answers) != len(limits):
        raise BadInput((Fault("findings", "part-limits-differ", {"count": len(limits)}),))
    return tuple(
        rules_of_parts.finding_of(limit, met, measured) for limit, (met, measured) in zip(limits, answers, strict=True)
    )


def _day_faults(found: OrderedPart, day: date, now: datetime) -> Iterator[Fault]:
    if day > day_of(found.book, now):
        yield Fault("day", "part-day-to-come")


def _refuse_barred(tag: Tag, why: PartBarred | None) -> None:
    if why is not None:
        raise Barred(number=tag.number, why=why.value)

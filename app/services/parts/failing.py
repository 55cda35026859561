"""A customer's part has failed: what can be done now, each with money and dates, and what he chooses.

Another part, another choice of what asked for it, or no shell. Nothing here takes the shell's slot away: a move is
proposed and agreed to by itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import BadInput, Fault
from app.domain.errors import PartBarred as Barred
from app.domain.floor.gates import Key, gates_of
from app.domain.orders.order import case_of
from app.domain.part import GATE, Choice, Chosen, PartBarred, choice_barred
from app.domain.planning.slots import Kept
from app.domain.quotations.quotation import Draft
from app.services.answering.checking import LONGEST_TEXT, long_faults, refuse
from app.services.once import Once, perform
from app.services.orders.seating import SPECIFICATION, GatedShell, WholeOrder, gated_shell, whole_order
from app.services.parts.taking_in import OrderedPart, own_part, tell
from app.services.planning.dating import Working, back_of, promised, shop_of, wanted_of
from app.services.quotations import quoting
from app.services.quotations.tagging import Tag
from app.services.quotations.working_out import WorkedOut, deal_as_issued, work_out_by
from app.store import parts as kept
from app.store import slots
from app.store.db import Store
from rules.answer import Depends, Verdict
from rules.condition import options_of
from rules.money.totals import CaseTotal
from rules.schedule.days import route_days
from rules.schedule.promise import Promise, earliest_slot
from rules.specification import Specification, Taken


@dataclass(frozen=True, slots=True)
class Dates:
    """`earliest`: the first day on which it may come to the stage with the slots; `promise`: with a slot that is free.

    `keeps`: the slot that it has will do. `promise` None where no day can be named.
    """

    earliest: date
    promise: Promise | None
    keeps: bool


@dataclass(frozen=True, slots=True)
class Second:
    """Another part, passing on `passing`. `dates` None where no day can be named."""

    passing: date
    dates: Dates | None


@dataclass(frozen=True, slots=True)
class Instead:
    """`choice` of `option` instead, by the prices of the order: what the whole order costs more (+) or less (−).

    In minor units of `currency`; None where it is not priced. `approvals`: what it would wait for.
    """

    option: str
    choice: str
    currency: str
    net: int | None
    tax: int | None
    payable: int | None
    approvals: tuple[str, ...]
    dates: Dates | None


@dataclass(frozen=True, slots=True)
class WaysOn:
    """`held`: the promise that the shell has; its slot is its own until somebody agrees to move it or give it back."""

    part: OrderedPart
    held: Kept | None
    second: Second
    instead: tuple[Instead, ...]


@dataclass(frozen=True, slots=True)
class Wish:
    """`day`: when another passes; `instead` of `option`: what is built without one."""

    choice: Choice
    note: str = ""
    day: date | None = None
    option: str = ""
    instead: str = ""


def ways_on(store: Store, actor: Actor, tag: Tag, passing: date | None, working: Working, now: datetime) -> WaysOn:
    """As if another part passed on `passing` (None: today). Raises NotFound, PartBarred."""
    with store.reading() as db:
        found = own_part(store, db, actor, tag, now)
        _refuse_barred(found)
        return _Ahead(store, db, found, working, now).ways(passing)


def choose(
    store: Store, actor: Actor, tag: Tag, wish: Wish, working: Working, now: datetime, *, once: Once | None = None
) -> None:
    """Writes the customer's choice down. Another part is expected; another choice is the quotation's next draft.

    Cancelling is the manager's own deed: that it is wanted is written. Raises NotFound, PartBarred, BadInput,
    DraftStands, KeyReused, Underway.
    """
    refuse(long_faults("note", wish.note, LONGEST_TEXT))

    def write(db: Database) -> int:
        found = own_part(store, db, actor, tag, now)
        _refuse_barred(found)
        ahead = _Ahead(store, db, found, working, now)
        chosen = Chosen(wish.choice, wish.note, now, actor.name)
        match wish.choice:
            case Choice.SECOND:
                chosen = replace(chosen, day=_expected(db, actor, ahead, wish, now))
            case Choice.INSTEAD:
                letter = _drafted(store, actor, ahead, wish, now)
                chosen = replace(chosen, option=wish.option, instead=wish.instead, letter=letter)
        assert found.last is not None
        kept.choose(db, found.last.id, chosen)
        tell(db, found, f"part-choice-{wish.choice.value}", actor, now)
        return found.last.id

    perform(store, once, now, write)


def _expected(db: Database, actor: Actor, ahead: _Ahead, wish: Wish, now: datetime) -> date:
    if wish.day is None or wish.day <= ahead.whole.today:
        raise BadInput((Fault("day", "part-day-past"),))
    seat = ahead.found.seat
    slots.say_gate(db, seat.order, seat.place, (GATE, ahead.found.tag.rule), wish.day, actor.name, now)
    return wish.day


def _drafted(store: Store, actor: Actor, ahead: _Ahead, wish: Wish, now: datetime) -> str:
    offered = {(one.option, one.choice) for one in ahead.instead()}
    if (wish.option, wish.instead) not in offered:
        raise BadInput((Fault("instead", "part-not-offered"),))
    number = ahead.found.order.quotation
    revision = quoting.next_revision(store, actor, number, now)
    draft = ahead.changed(revision.draft(), wish.option, wish.instead)
    quoting.save_draft(store, actor, number, revision.letter, draft, now, expected=revision.version)
    return revision.letter


def _refuse_barred(found: OrderedPart) -> None:
    why = choice_barred(found.arrivals) if found.needed else PartBarred.NOT_NEEDED
    if why is not None:
        raise Barred(number=found.tag.number, why=why.value)


class _Ahead:
    """One shell of an order, inside a transaction, and what would become of it."""

    def __init__(self, store: Store, db: Database, found: OrderedPart, working: Working, now: datetime) -> None:
        self.store, self.found, self.now = store, found, now
        self.whole: WholeOrder = whole_order(store, db, found.order, now)
        self.gated: GatedShell = gated_shell(self.whole, found.seat.place)
        self.held = slots.promised(db, found.seat)
        self.shop = shop_of(db, found.book, working, self.whole.today, found.seat)

    def ways(self, passing: date | None) -> WaysOn:
        day = passing or self.whole.today
        return WaysOn(self.found, self.held, Second(day, self._second(day)), tuple(self.instead()))

    def instead(self) -> Iterator[Instead]:
        """Every other choice of what the part's rule speaks of with which the shell needs none, as it stands else."""
        book, rule = self.found.book, self.found.tag.rule
        for option in (one for one in book.options if one.id in options_of(book.rule(rule).when)):
            for choice in option.choices:
                if choice.id != self.gated.frozen.settled.get(option.id):
                    yield from self._offer(option.id, choice.id)

    def changed(self, draft: Draft, option: str, choice: str) -> Draft:
        """This one shell with that choice: of a line of several it becomes a line of its own, in its very place."""
        at, piece = self.found.tag.line - 1, self.found.tag.piece
        line = draft.lines[at]
        answers = {**self._answers(line.specification), option: Taken(choice)}
        own = replace(line, specification=Specification(answers), quantity=1)
        before, after = replace(line, quantity=piece - 1), replace(line, quantity=line.quantity - piece)
        split = (one for one in (before, own, after) if one.quantity)
        return replace(draft, lines=(*draft.lines[:at], *split, *draft.lines[at + 1 :]))

    def _answers(self, ordered: Specification) -> Mapping[str, Taken]:
        """As it is built: signed change notes have the last word."""
        if self.found.shell is None or self.found.shell.changed is None:
            return ordered.answers
        return {option: Taken(choice) for option, choice in self.gated.frozen.settled.items()}

    def _offer(self, option: str, choice: str) -> Iterator[Instead]:
        worked = self._worked(option, choice)
        said = worked.answers[self.found.tag.line - 1 + (self.found.tag.piece > 1)]
        if said is None or said.answer.verdict is Verdict.CANT or self.found.tag.rule in said.answer.depends.parts:
            return
        asked = self.gated.frozen.settled[option]
        sums = _more(self._case(self._worked(option, asked)), self._case(worked))
        approvals = said.answer.depends.approvals
        dates = self._without(said.answer.settled, said.answer.depends)
        yield Instead(option, choice, worked.deal.currency, *sums, approvals, dates)

    def _worked(self, option: str, choice: str) -> WorkedOut:
        revision, frozen = self.found.order.revision, self.found.order.frozen
        terms = (frozen.customer, frozen.donor, frozen.trade_of, frozen.enquiry_version)
        draft = self.changed(revision.draft(), option, choice)
        return work_out_by(self.store, deal_as_issued(self.store, revision), self.whole.tools, terms, draft)

    def _case(self, worked: WorkedOut) -> CaseTotal | None:
        """The same tax case as the order's."""
        totals, was = worked.totals, case_of(self.found.order)
        cases = () if totals is None or was is None else totals.cases
        return next((one for one in cases if was is not None and one.kind == was.kind), None)

    def _second(self, passing: date) -> Dates | None:
        frozen = self.gated.frozen
        return self._dates(frozen.settled, frozen.depends, {**self._days(), (GATE, self.found.tag.rule): passing})

    def _without(self, settled: Mapping[str, str], depends: Depends) -> Dates | None:
        """What is signed is another specification: as if it were signed today."""
        said = {key: day for key, day in self._days().items() if key != SPECIFICATION}
        return self._dates(settled, depends, said)

    def _days(self) -> dict[Key, date]:
        given = {("approvals", one.rule): one.day for one in self.gated.frozen.approved}
        return given | {key: one.day for key, one in self.gated.said.items()}

    def _dates(self, settled: Mapping[str, str], depends: Depends, said: Mapping[Key, date]) -> Dates | None:
        book, today = self.found.book, self.whole.today
        route = route_days(book, settled, self.found.order.frozen.donor.facts())
        gates = gates_of(book, route, depends, said, back_of(self.whole.tools), today)
        if gates.undated:
            return None
        wanted = wanted_of(book, settled, route, gates)
        earliest = earliest_slot(wanted, self.shop, today)
        slot = None if self.held is None else self.held.promise.slot
        keeps = slot is not None and today < slot and earliest <= slot
        made = promised(book, replace(wanted, slot=slot if keeps else None), self.shop, today)
        return Dates(earliest, made, keeps)


def _more(was: CaseTotal | None, now: CaseTotal | None) -> tuple[int | None, int | None, int | None]:
    """Before tax, of tax, payable."""
    if was is None or now is None:
        return None, None, None
    payable, tax = now.sum.payable - was.sum.payable, now.sum.tax - was.sum.tax
    return payable - tax, tax, payable

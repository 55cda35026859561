"""Confirming an order: once deposit, signature, approvals and donor car are as they must be, or all that lacks is told.

A confirmation is of the revision that the order follows: a yes to a later one, given before anything is released,
leaves the order unconfirmed until it is confirmed anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import CannotConfirm, ConfirmedAlready, DonorOrdered, Fault
from app.domain.floor.shell import ShellState
from app.domain.money.account import received_of
from app.domain.orders.confirming import Confirmation, Fixed, Lack, PartDue, ShellFixed, Stay, lacking
from app.domain.orders.order import Order, case_of
from app.domain.quotations.quotation import PaperKept
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.once import Once, perform
from app.services.orders.ordering import note, own_order
from app.services.orders.seating import SPECIFICATION, WholeOrder, whole_order
from app.services.planning.dating import Working
from app.services.planning.promising import Shown, order_dates
from app.services.quotations.approved import needs
from app.store import confirmations as kept
from app.store import payments
from app.store.db import Store


@dataclass(frozen=True, slots=True)
class Confirmed:
    """A confirmation with its papers that are stored."""

    confirmation: Confirmation
    papers: tuple[PaperKept, ...]


@dataclass(frozen=True, slots=True)
class HowConfirmed:
    """`confirmation` of what the order follows now; `every` one there ever was; `lacks`: while it is not confirmed."""

    confirmation: Confirmation | None
    every: tuple[Confirmed, ...]
    lacks: tuple[Lack, ...]


def confirm(
    store: Store,
    actor: Actor,
    number: str,
    working: Working,
    now: datetime,
    *,
    why: str = "",
    may_second: bool = False,
    once: Once | None = None,
) -> None:
    """`may_second`: this person may confirm a second order for one donor car; `why` he does, where it is one.

    Raises NotFound, ConfirmedAlready, CannotConfirm, DonorOrdered, BadInput, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        order = own_order(db, actor, number, now)
        _refuse(store, db, order, now)
        others = others_for_donor(db, actor, order, now)
        if others and not may_second:
            raise DonorOrdered(number=number, donor=order.frozen.donor.number_text, others=", ".join(others))
        missing = blank_faults("why", why) if others else ()
        refuse((*missing, *long_faults("why", why, LONGEST_TEXT)))
        fixed = _fixed(store, db, actor, order, working, now)
        kept.add(db, order.bases[-1].id, fixed, why, actor.name, now)
        note(db, number, "order-confirmed", actor, now, letter=order.revision.letter)
        return number

    perform(store, once, now, write)


def confirmed(db: Database, order: Order) -> Confirmation | None:
    """The confirmation of what the order follows now."""
    return _own(order, kept.of_order(db, order.id))


def lacks(store: Store, db: Database, order: Order, now: datetime) -> tuple[Lack, ...]:
    """All that keeps the order from being confirmed."""
    whole = whole_order(store, db, order, now)
    lines = [line.line.frozen for line in order.lines if line.line.frozen is not None]
    bound = [(line.settled, line.depends.approvals) for line in lines]
    found = needs(store, order.revision.id, whole.book, bound)
    return tuple(
        lacking(
            order,
            deposit_met=whole.deposit_met,
            deposit_dated=whole.deposit_through,
            signed=_signed(whole),
            needs=(need for line in found for need in line),
        )
    )


def how_confirmed(store: Store, actor: Actor, number: str, now: datetime) -> HowConfirmed:
    """Of the order as it stands: its confirmations, and what lacks where it has none. Raises NotFound."""
    with store.reading() as db:
        order = own_order(db, actor, number, now)
        found = kept.of_order(db, order.id)
        every, own = tuple(Confirmed(one, kept.papers(db, one.id)) for one in found), _own(order, found)
        return HowConfirmed(own, every, () if own is not None else lacks(store, db, order, now))


def others_for_donor(db: Database, actor: Actor, order: Order, now: datetime) -> tuple[str, ...]:
    """Other confirmed orders for the same donor car that are not cancelled altogether; a dealer is told none."""
    donor = order.frozen.donor
    if actor.dealer is not None or not donor.established or donor.series is None or donor.number is None:
        return ()
    found = kept.of_donor(db, donor.series, donor.number, order.id)
    return tuple(number for number in found if own_order(db, actor, number, now).state is not ShellState.CANCELLED)


def _refuse(store: Store, db: Database, order: Order, now: datetime) -> None:
    had = confirmed(db, order)
    if had is not None:
        raise ConfirmedAlready(number=order.number, letter=had.letter, day=had.fixed.dated)
    faults = [fault_of(lack) for lack in lacks(store, db, order, now)]
    if faults:
        raise CannotConfirm(faults, number=order.number)


def _own(order: Order, found: tuple[Confirmation, ...]) -> Confirmation | None:
    return next((one for one in found if one.letter == order.revision.letter), None)


def fault_of(lack: Lack) -> Fault:
    """What is missing and what to do about it, by the code of its sentence."""
    path = f"approvals.{lack.rule}" if lack.rule else lack.what.value
    return Fault(path, f"lacks-{lack.what.value}", {"rule": lack.rule, "line": lack.line, "number": lack.number})


def _signed(whole: WholeOrder) -> bool:
    """What was signed for an earlier revision is not this one's signature."""
    said = whole.said.get((0, SPECIFICATION))
    return said is not None and said.day <= whole.today and said.at >= whole.order.bases[-1].at


def _fixed(store: Store, db: Database, actor: Actor, order: Order, working: Working, now: datetime) -> Fixed:
    dates, case = order_dates(store, actor, order.number, working, now), case_of(order)
    received = received_of(payments.of(db, order.id), order.frozen.currency)
    return Fixed(
        dated=dates.today,
        author=actor.display_name,
        deposit=0 if case is None else case.deposit,
        received=received,
        shells=tuple(_shells(dates.shells)),
    )


def _shells(shown: tuple[Shown, ...]) -> Iterator[ShellFixed]:
    for shell in shown:
        made = None if shell.kept is None else shell.kept.promise
        parts = tuple(PartDue(due.gate.of, due.by) for due in shell.due if due.gate.name == "parts")
        if made is None:
            yield ShellFixed(shell.seat.place, shell.line, None, None, None, parts)
        else:
            stays = tuple(Stay(step.stage, step.start, step.end) for step in made.steps)
            yield ShellFixed(shell.seat.place, shell.line, made.slot, made.ready, made.ready_by, parts, stays)

"""A shell found for whoever does something to it or reads it, with its order as a whole; what its book says of it.

For use inside a transaction.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from dataclasses import replace as with_
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import (
    NotFound,
    ShellStands,
)
from app.domain.floor.kit import unchecked_of
from app.domain.floor.shell import Barred, ShellState, Stop
from app.domain.floor.welding import WeldZone, weld_zones
from app.domain.orders.order import OrderLine, Shell
from app.services.orders.ordering import note, own_order
from app.services.orders.seating import GatedShell, WholeOrder, gated_shell, whole_order
from app.services.stock import stock_floor
from app.store import orders, welds
from app.store import shells as kept
from app.store.db import Store
from app.store.shells import Left
from rules.condition import holds
from rules.donor.resolve import domains_of
from rules.making import KitLine
from rules.proof.reliance import uses
from rules.workshop.kit import kit_of
from rules.workshop.work import Work, work_of


@dataclass(frozen=True, slots=True)
class FoundShell:
    """`over`: it was replaced, and is only read; its place in the plan is the other's."""

    whole: WholeOrder
    gated: GatedShell
    line: OrderLine
    shell: Shell
    over: bool = False


def found_shell(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> FoundShell:
    """To do something to it. Raises NotFound as `known_shell` does, ShellStands for one that was replaced."""
    found = known_shell(store, db, actor, key, now)
    if found.over:
        raise ShellStands(serial=found.shell.serial or "", why=Barred.OVER.value)
    return found


def known_shell(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> FoundShell:
    """To read it, be it replaced. Raises NotFound, for one too whose line the order no longer follows."""
    in_stock = stock_floor.holding(store, db, key, now)
    if in_stock is not None:
        return next(each_of(in_stock))
    number = kept.order_of(db, key)
    if number is not None:
        whole = whole_order(store, db, own_order(db, actor, number, now), now)
        for one in (*each_of(whole), *_replaced(whole)):
            if one.shell.id == key:
                return one
    raise NotFound(what="shell", name=str(key))


def every_found(store: Store, db: Database, now: datetime) -> Iterator[FoundShell]:
    """Every shell of confirmed orders of which one is still here, inside a transaction."""
    for whole in every_confirmed(store, db, now, Left.UNDER_WAY):
        yield from each_of(whole)


def each_of(whole: WholeOrder) -> Iterator[FoundShell]:
    placed = ((line, shell) for line in whole.order.lines for shell in line.shells)
    for place, (line, shell) in zip(whole.places, placed, strict=True):
        yield FoundShell(whole, gated_shell(whole, place), line, shell)


def _replaced(whole: WholeOrder) -> Iterator[FoundShell]:
    """Those that were rejected and have another in their place, each as it was built."""
    for one in each_of(whole):
        for before in one.shell.replaced:
            frozen = one.line.frozen_of(before)
            yield FoundShell(whole, with_(one.gated, frozen=frozen), one.line, before, over=True)


def work(found: FoundShell) -> Work:
    """What is done to this shell, by the book of its order."""
    return work_of(found.whole.book, found.whole.order.frozen.donor.facts(), found.gated.frozen.settled)


def zones_of(db: Database, found: FoundShell) -> tuple[WeldZone, ...]:
    """Its weld zones with whoever signed for them."""
    return zones_with(db, found, work(found))


def zones_with(db: Database, found: FoundShell, done: Work) -> tuple[WeldZone, ...]:
    return weld_zones(done, welds.of_shell(db, found.shell.id))


def route_of(found: FoundShell) -> tuple[Stop, ...]:
    """The stages on which days are spent on this very shell."""
    days = {stage.stage: stage.days for stage in found.gated.route.stages}
    return tuple(Stop(stage.id, stage.work) for stage in found.whole.book.stages if days.get(stage.id))


def kit_lines(found: FoundShell) -> tuple[KitLine, ...]:
    """What has to lie ready for this shell, customers' parts apart."""
    return kit_of(found.whole.book, found.whole.order.frozen.donor.facts(), found.gated.frozen.settled)


def unchecked(found: FoundShell) -> tuple[str, ...]:
    """Lines of its kit of which nobody has said anything, while it waits for its release."""
    if found.shell.progress.state is not ShellState.PLANNED:
        return ()
    return unchecked_of([line.id for line in kit_lines(found)], found.shell.kit)


def tools_of(found: FoundShell) -> list[tuple[str, str | None]]:
    """Those that the shell is made with, and where each is last used."""
    book, donor = found.whole.book, found.whole.order.frozen.donor.facts()
    settled, domains = found.gated.frozen.settled, domains_of(book)
    return [(tool.id, tool.stage) for tool in book.tools if holds(uses(book, tool.id, donor), settled, domains)]


def every_confirmed(store: Store, db: Database, now: datetime, left: Left = Left.EVERY) -> Iterator[WholeOrder]:
    """Everybody's."""
    for number in kept.of_confirmed(db, left):
        order = orders.get(db, number, None, now)
        if order is not None:
            yield whole_order(store, db, order, now)
    yield from stock_floor.works_orders(store, db, now)


def note_shell(db: Database, found: FoundShell, what: str, actor: Actor, now: datetime, **facts: str) -> None:
    told = {"shell": str(found.gated.seat.place), "serial": found.shell.serial or "", **facts}
    note(db, found.whole.order.number, what, actor, now, **told)

"""Cancelling one shell of an order: by a worksheet, not a button. What is kept a person says; nothing is proposed.

The shell and its refund worksheet are written in one transaction: what the sheet says of the stage is where the shell
was when it was cancelled, and nobody types it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import ShellStands
from app.domain.floor.shell import Barred, Deed
from app.domain.money.crediting import left_in_advance
from app.domain.money.invoice import CancelledShell
from app.services.floor import building
from app.services.floor.finding import FoundShell
from app.services.money import refunding
from app.services.money.accounts import Opened, opened
from app.services.money.refunding import Decided
from app.services.once import Once, perform
from app.services.orders.changing import shell_at
from app.store.db import Store
from rules.money.settlement import gross, less


@dataclass(frozen=True, slots=True)
class Cancelling:
    """What stands before it is decided. `received`: billed in advance of the whole order, with tax, 0: nothing was.

    `refundable`: a worksheet can be written: something was, and the balance is not billed yet.
    """

    at: FoundShell
    shell: CancelledShell
    received: int
    refundable: bool


def look(store: Store, actor: Actor, key: int, now: datetime) -> Cancelling:
    """Raises NotFound."""
    at = shell_at(store, actor, key, now)
    if at.whole.stock is not None:
        return Cancelling(at, _told(at), 0, refundable=False)
    with store.reading() as db:
        found = opened(store, db, actor, at.whole.order.number, now)
    return Cancelling(at, _told(at), _received(found), _refundable(found))


def cancel(
    store: Store, actor: Actor, key: int, decided: Decided | None, why: str, now: datetime, *, once: Once | None = None
) -> int:
    """The shell is cancelled for that reason; `decided`: what is kept of what was billed in advance, as a worksheet.

    One that is in stock by now is no order's: it leaves the stock, and nothing is refunded with it.

    Raises NotFound, BadInput, ShellStands, NothingToBill, FirmUntold, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        at = shell_at(store, actor, key, now)
        told = _told(at)
        if decided is not None and at.whole.stock is not None:
            raise ShellStands(serial=at.shell.serial or "", why=Barred.OVER.value)
        building.say(store, actor, key, Deed.CANCELLED, why, now)
        if decided is not None:
            sheet = replace(decided, why=why, of=told)
            refunding.write_worksheet(store, actor, at.whole.order.number, sheet, now)
        return key

    return int(perform(store, once, now, write))


def _told(at: FoundShell) -> CancelledShell:
    stands, labels = at.shell.progress, {stage.id: stage.label for stage in at.whole.book.stages}
    last = stands.stage or (stands.through[-1] if stands.through else None)
    return CancelledShell(
        place=at.gated.seat.place,
        serial=at.shell.serial or "",
        stage={} if last is None else labels.get(last, {}),
        from_stock=bool(at.shell.stock),
    )


def _received(found: Opened) -> int:
    advance = left_in_advance(found.documents)
    return gross(less([row for one in advance for row in one.rows], ()))


def _refundable(found: Opened) -> bool:
    return _received(found) > 0

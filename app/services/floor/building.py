"""Shells in the workshop: released by the lead, done stage by stage under a personal code, held, rejected, replaced.

Only a shell of a confirmed order is released; what stops it is told, all at once.
"""

from __future__ import annotations

from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import (
    ShellStands,
    ShellStopped,
    SignedWithVerdict,
)
from app.domain.floor.shell import Deed, Done
from app.domain.floor.stopping import Stopped
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.floor.finding import FoundShell, found_shell, known_shell, note_shell, route_of, unchecked
from app.services.floor.signing import Signature, lead_or_inspector, signed_by
from app.services.floor.stopping import (
    fault_of,
    refuse_barred,
    refuse_stopped,
    refuse_unconfirmed,
    refuse_uninspected,
    refuse_unsigned,
    stops_of,
)
from app.services.once import Once, perform
from app.services.planning.dating import Working
from app.services.planning.freeing import free_what_is_done
from app.services.planning.giving_back import give_back
from app.services.planning.planning_again import plan_again
from app.services.quotations.enquiring import running_name
from app.services.stock import stock_floor
from app.store import sheet_revisions, slots
from app.store import shells as kept
from app.store.db import Store
from rules.model import Work as At


def release(store: Store, actor: Actor, key: int, now: datetime, *, once: Once | None = None) -> None:
    """Gives the serial, freezes the route, and begins the build sheet with its first revision.

    Raises NotFound, NotConfirmed, ShellStands, ShellStopped, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        if found.whole.stock is None:
            refuse_unconfirmed(db, found.whole.order)
        refuse_barred(found, Deed.RELEASED, None)
        open_lines = len(unchecked(found))
        stops = (*stops_of(found), *([Stopped("kit-unchecked", str(open_lines))] if open_lines else []))
        if stops:
            raise ShellStopped([fault_of(one) for one in stops], number=found.whole.order.number)
        serial, route = running_name(db, "S", found.whole.book, now), route_of(found)
        kept.release(db, key, serial, route, Done(Deed.RELEASED, now, actor.name))
        sheet_revisions.add(db, key, found.whole.today, actor.name, now)
        note_shell(db, found, "shell-released", actor, now, serial=serial)
        return key

    perform(store, once, now, write)


def sign_stage(
    store: Store,
    actor: Actor,
    key: int,
    deed: Deed,
    stage: str,
    signature: Signature,
    now: datetime,
    *,
    once: Once | None = None,
) -> None:
    """A stage begun or done, signed by whoever did it with his own code. It is done once its welds have their welders.

    Paint is done once its coat has passed: film, colour and painted gaps are looked at as part of it.

    The inspection is signed with its verdict (`passing`), and not here.

    Raises NotFound, SignedWithVerdict, ShellStands, ShellStopped, WeldsUnsigned, CoatUninspected,
    CodeRefused, SlowDown, MayNotSign, KeyReused, Underway.
    """
    with store.reading() as db:
        before = known_shell(store, db, actor, key, now).shell
    work = next((stop.work for stop in before.route if stop.stage == stage), None)
    if work is At.INSPECTION:
        raise SignedWithVerdict(serial=before.serial or "")
    signer = signed_by(store, signature, work, now)
    if deed is Deed.BEGUN:
        # Paint can't be taken back.
        lead_or_inspector(signer, "paint")

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        refuse_barred(found, deed, stage)
        refuse_stopped(found)
        if deed is Deed.DONE:
            refuse_unsigned(db, found, stage)
            refuse_uninspected(db, found)
        sign(db, found, Done(deed, now, actor.name, stage, signed=signer.name))
        note_shell(db, found, f"shell-stage-{deed.value}", actor, now, stage=stage, signed=signer.display_name)
        return key

    perform(store, once, now, write)


def sign(db: Database, found: FoundShell, done: Done) -> None:
    """Written down inside a transaction, and what is behind the shell by it is free."""
    kept.add(db, found.shell.id, done)
    free_what_is_done(db, found.whole, found.gated.seat, (*found.shell.deeds, done), found.shell.route)


def say(store: Store, actor: Actor, key: int, deed: Deed, why: str, now: datetime, *, once: Once | None = None) -> None:
    """HELD, WENT_ON, REJECTED or CANCELLED, with the reason. A shell that is cancelled gives its slot back.

    Raises NotFound, BadInput, ShellStands, KeyReused, Underway.
    """
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))

    def write(db: Database) -> int:
        do(db, actor, found_shell(store, db, actor, key, now), deed, why, now)
        return key

    perform(store, once, now, write)


def do(db: Database, actor: Actor, found: FoundShell, deed: Deed, why: str, now: datetime) -> None:
    """As `say`, inside a transaction, with what follows for stock and plan. Raises ShellStands."""
    refuse_barred(found, deed, None)
    kept.add(db, found.shell.id, Done(deed, now, actor.name, why=why))
    note_shell(db, found, f"shell-{deed.value}", actor, now, why=why)
    stock_floor.let_go(db, actor, found.whole, found.gated, found.shell, deed, why, now)
    had = slots.promised(db, found.gated.seat) if deed is Deed.CANCELLED else None
    if had is not None:
        give_back(db, actor, had, now)


def replace(store: Store, actor: Actor, key: int, working: Working, now: datetime, *, once: Once | None = None) -> int:
    """A new shell in the place of a rejected one, under the same line; its serial comes with its own release.

    It is planned from the start. Raises NotFound, ShellStands, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        return begin_another(store, db, actor, found_shell(store, db, actor, key, now), working, now)

    return int(perform(store, once, now, write))


def begin_another(store: Store, db: Database, actor: Actor, found: FoundShell, working: Working, now: datetime) -> int:
    """As `replace`, inside a transaction. Raises ShellStands."""
    if all(done.deed is not Deed.REJECTED for done in found.shell.deeds):
        raise ShellStands(serial=found.shell.serial or "", why="not-rejected")
    new = stock_floor.planned_again(db, actor, found.shell.id, now) or kept.replace(db, found.shell.id)
    note_shell(db, found, "shell-replaced", actor, now)
    if found.whole.stock is None:
        plan_again(store, db, actor, found.whole.order.number, found.gated.seat.place, working, now)
    return new

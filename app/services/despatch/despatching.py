"""A shell is packed and leaves: what keeps it is told all at once, and the deed is signed with a personal code."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.asking.people import Person
from app.domain.despatch.despatch import INCOTERMS, Despatched, Packing, Trade
from app.domain.errors import CannotDespatch, Fault, ShellStands
from app.domain.floor.shell import Barred, Deed, Done, barred
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.despatch.consigning import consignment, frozen_consignment
from app.services.despatch.leaving import Leaving, leaving
from app.services.despatch.proposing import send_back
from app.services.despatch.recording_as_built import keep_record
from app.services.floor.signing import Signature, signed_by
from app.services.inspection.inspecting import inspected
from app.services.once import Once, perform
from app.services.orders.ordering import note
from app.services.planning.freeing import free_what_is_done
from app.services.quotations.enquiring import running_name
from app.store import despatches
from app.store import shells as kept_shells
from app.store.db import Store

#: Six digits of the Harmonized System, with or without the point, and what a country adds to them.
_HS_CODE = re.compile(r"[0-9]{4}\.?[0-9]{2}([. ]?[0-9]{2}){0,2}")

#: What can be wrong with what is typed here and nowhere else.
HEAVIER, NO_HS_CODE = "heavier-than-packed", "not-an-hs-code"

#: Why nothing at all is done to the shell any more; all else is told among what keeps it.
_FOR_GOOD = (Barred.OVER, Barred.DESPATCHED)


def pack(store: Store, actor: Actor, key: int, packing: Packing, now: datetime, *, once: Once | None = None) -> None:
    """How it is packed and who carries it; the last word before it leaves counts.

    Raises NotFound, BadInput, ShellStands, KeyReused, Underway.
    """
    refuse(_packing_faults(packing))

    def write(db: Database) -> int:
        found = leaving(store, db, actor, key, now)
        _refuse_gone(found)
        despatches.pack(db, key, packing, actor.name, now)
        _note(db, found, "shell-packed", actor, now)
        return key

    perform(store, once, now, write)


def despatch(
    store: Store, actor: Actor, key: int, signature: Signature, now: datetime, *, once: Once | None = None
) -> None:
    """It leaves the house, signed by whoever saw it go.

    Raises NotFound, ShellStands, CannotDespatch, CodeRefused, SlowDown, MayNotSign, KeyReused, Underway.
    """
    sign_out(store, actor, key, signed_by(store, signature, None, now), now, once=once)


def sign_out(store: Store, actor: Actor, key: int, signer: Person, now: datetime, *, once: Once | None = None) -> None:
    """Where it is certain whose signature it is. Raises NotFound, ShellStands, CannotDespatch, KeyReused, Underway."""

    def write(db: Database) -> int:
        found = leaving(store, db, actor, key, now)
        _refuse_gone(found)
        if found.keeps:
            raise CannotDespatch(found.keeps, serial=found.placed.shell.serial or "–")
        _leave(store, db, found, actor, signer, now)
        _note(db, found, "shell-despatched", actor, now, signed=signer.display_name)
        return key

    perform(store, once, now, write)


def trade(store: Store) -> Trade:
    """What is said of shells on export papers."""
    with store.reading() as db:
        return despatches.trade(db)


def set_trade(store: Store, actor: Actor, told: Trade, now: datetime) -> None:
    """Raises BadInput."""
    if not _HS_CODE.fullmatch(told.hs_code):
        refuse([Fault("hs_code", NO_HS_CODE)])
    with store.writing() as db:
        despatches.set_trade(db, told, actor.name, now)


def _leave(store: Store, db: Database, found: Leaving, actor: Actor, signer: Person, now: datetime) -> None:
    """The deed, what its papers say, and its as-built record, all at once."""
    shell, number = found.placed.shell, running_name(db, "D", found.book, now)
    kept_shells.add(db, shell.id, Done(Deed.DESPATCHED, now, actor.name, signed=signer.name))
    made = Despatched(number, shell.id, found.placed.place, now, actor.name, signer.name)
    told = consignment(store, db, actor, found, now)
    looked = inspected(store, db, actor, shell.id, now)
    gone = looked.found
    free_what_is_done(db, gone.whole, gone.gated.seat, gone.shell.deeds, gone.shell.route)
    code, hashed = keep_record(db, looked, found.order, found.placed, now)
    told = replace(told, number=number, signed=signer.display_name, record=code, record_hash=hashed)
    despatches.add(db, made, found.order.id, frozen_consignment(told))
    send_back(db, actor, found, number, now)


def _refuse_gone(found: Leaving) -> None:
    shell = found.placed.shell
    why = barred(Deed.DESPATCHED, None, shell.deeds, shell.route)
    if why in _FOR_GOOD:
        raise ShellStands(serial=shell.serial or "", why=why.value)


def _note(db: Database, found: Leaving, what: str, actor: Actor, now: datetime, **facts: str) -> None:
    told = {"shell": str(found.placed.place), "serial": found.placed.shell.serial or "", **facts}
    note(db, found.order.number, what, actor, now, **told)


def _packing_faults(packing: Packing) -> Iterator[Fault]:
    if not packing.packages:
        yield Fault("packages", "required")
    for at, package in enumerate(packing.packages):
        yield from blank_faults(f"packages.{at}.kind", package.kind)
    if packing.packages and packing.net_mass > packing.gross_mass:
        yield Fault("net_mass", HEAVIER, {"gross": packing.gross_mass})
    for name in ("loose", "returned", "consignee"):
        for at, line in enumerate(getattr(packing, name)):
            yield from long_faults(f"{name}.{at}", line, LONGEST_LINE)
    for name in ("carrier", "timber_mark", "evidence"):
        yield from long_faults(name, getattr(packing, name), LONGEST_TEXT)
    yield from _term_faults(packing)


def _term_faults(packing: Packing) -> Iterator[Fault]:
    """A rule is nothing without its named place, nor the place without a rule."""
    term = packing.term
    if term.rule and term.rule not in INCOTERMS:
        yield Fault("term.rule", "not-one-of", {"choices": list(INCOTERMS)})
    if term.rule and not term.place.strip():
        yield Fault("term.place", "required")
    if term.place.strip() and not term.rule:
        yield Fault("term.rule", "required")

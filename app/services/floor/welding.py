"""Who welded what: zones signed by their welder with his own code, several in one signing.

A stage is done only once its zones are signed: whoever signs the stage says that the work is there, and an inspector
who finds a zone without a welder could neither ask him nor know that it isn't his own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, ShellStands
from app.domain.floor.shell import Deed, idle, points
from app.domain.floor.welding import Weld, WeldZone
from app.services.answering.checking import refuse
from app.services.answering.pricing import day_of
from app.services.floor.finding import FoundShell, found_shell, note_shell, zones_of
from app.services.floor.signing import Signature, signed_by
from app.services.once import Once, perform
from app.store import welds as kept
from app.store.db import Store


def sign_zones(
    store: Store,
    actor: Actor,
    key: int,
    zones: Sequence[str],
    signature: Signature,
    now: datetime,
    *,
    day: date | None = None,
    once: Once | None = None,
) -> None:
    """`day`: on which they were welded; None: today. All of them or none.

    Raises NotFound, ShellStands, BadInput, UnknownNames, CodeRefused, SlowDown, MayNotSign, KeyReused, Underway.
    """
    signer = signed_by(store, signature, None, now)

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        on = day or found.whole.today
        _refuse_idle(found)
        refuse((*_zone_faults(found, zones_of(db, found), zones, signer.name, on), *_day_faults(found, on)))
        kept.add(db, key, [Weld(zone, signer.name, on, now, actor.name) for zone in zones])
        note_shell(db, found, "shell-welded", actor, now, zones=", ".join(zones), signed=signer.display_name)
        return key

    perform(store, once, now, write)


def _refuse_idle(found: FoundShell) -> None:
    why = idle(found.shell.deeds, found.shell.route)
    if why is not None:
        raise ShellStands(serial=found.shell.serial or "", why=why.value)


def _zone_faults(
    found: FoundShell, has: Sequence[WeldZone], zones: Sequence[str], signer: str, day: date
) -> Iterator[Fault]:
    """What the shell hasn't, what it has not come to, what he signed for that day before, and what is named twice."""
    known, come = {one.zone.id: one for one in has}, points(found.shell.deeds, found.shell.route)[0]
    if not zones:
        yield Fault("zones", "required")
    for at, zone in enumerate(zones):
        path, one = f"zones.{at}", known.get(zone)
        if one is None:
            yield Fault(path, "unknown-zone", {"name": zone})
        elif zone in zones[:at]:
            yield Fault(path, "duplicate")
        elif one.stage not in come:
            yield Fault(path, "zone-ahead", {"of": one.zone.label})
        elif any((weld.welder, weld.day) == (signer, day) for weld in one.welds):
            yield Fault(path, "zone-signed", {"of": one.zone.label})


def _day_faults(found: FoundShell, day: date) -> Iterator[Fault]:
    released = next(done.at for done in found.shell.deeds if done.deed is Deed.RELEASED)
    if day > found.whole.today:
        yield Fault("day", "in-the-future")
    elif day < day_of(found.whole.book, released):
        yield Fault("day", "before-release")

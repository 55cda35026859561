"""The kit of a shell, checked line by line before it is released; its customer's parts come from their own records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.asking.people import Person, Role
from app.domain.errors import ShellStands
from app.domain.floor.kit import KitCheck, KitStands, check_faults, last_of, unchecked_of
from app.domain.floor.shell import ShellState
from app.services.answering.checking import LONGEST_LINE, long_faults, refuse
from app.services.floor.finding import FoundShell, found_shell, kit_lines, known_shell
from app.services.floor.finding import note_shell as note
from app.services.floor.overseeing import OnFloor, on_floor
from app.services.once import Once, perform
from app.services.parts.taking_in import OrderedPart, parts_of_shell
from app.store import kits, people
from app.store.db import Store
from rules.making import KitLine

#: Whose word lets a substitute be built in.
APPROVES = (Role.LEAD, Role.INSPECTOR, Role.MANAGER)


@dataclass(frozen=True, slots=True)
class Kit:
    """`said`: line → what was last said of it; `parts`: the shell's customer's parts. `open`: it is not released yet.

    `approvers`: who may let a substitute be built in.
    """

    shell: OnFloor
    lines: tuple[KitLine, ...]
    said: Mapping[str, KitCheck]
    parts: tuple[OrderedPart, ...]
    open: bool
    approvers: tuple[Person, ...]


def kit(store: Store, actor: Actor, key: int, now: datetime) -> Kit:
    """Raises NotFound."""
    with store.reading() as db:
        found = known_shell(store, db, actor, key, now)
        parts = parts_of_shell(found.whole.order, found.whole.book, found.gated.seat.place)
        said, approvers = last_of(kits.of(db, key)), _approvers(db)
        shell = on_floor(db, found)
    return Kit(shell, kit_lines(found), said, parts, _open(found), approvers)


def check(
    store: Store,
    actor: Actor,
    key: int,
    line: str,
    stands: KitStands,
    now: datetime,
    *,
    what: str = "",
    approved_by: str | None = None,
    once: Once | None = None,
) -> None:
    """One line; the last word counts. Raises NotFound, BadInput, ShellStands (it is released), KeyReused, Underway."""
    refuse(long_faults("what", what, LONGEST_LINE))
    approved = approved_by if stands is KitStands.SUBSTITUTE else None
    said = KitCheck(line, stands, what.strip(), now, actor.name, approved)

    def write(db: Database) -> int:
        found = _planned(store, db, actor, key, now)
        approvers = {person.name for person in _approvers(db)}
        refuse(check_faults(said, {one.id for one in kit_lines(found)}, approvers))
        kits.add(db, key, said)
        if stands is not KitStands.PRESENT:
            note(db, found, f"kit-{stands.value}", actor, now, line=line, said=said.what)
        return key

    perform(store, once, now, write)


def all_present(store: Store, actor: Actor, key: int, now: datetime, *, once: Once | None = None) -> None:
    """Every line of which nobody has said anything. Raises NotFound, ShellStands once it is released."""

    def write(db: Database) -> int:
        found = _planned(store, db, actor, key, now)
        for line in unchecked_of([one.id for one in kit_lines(found)], kits.of(db, key)):
            kits.add(db, key, KitCheck(line, KitStands.PRESENT, "", now, actor.name))
        return key

    perform(store, once, now, write)


def _planned(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> FoundShell:
    found = found_shell(store, db, actor, key, now)
    if not _open(found):
        raise ShellStands(serial=found.shell.serial or "", why="released")
    return found


def _open(found: FoundShell) -> bool:
    return found.shell.progress.state is ShellState.PLANNED


def _approvers(db: Database) -> tuple[Person, ...]:
    members = (member for member in people.members(db) if member.active)
    return tuple(member.person for member in members if member.person.role in APPROVES)

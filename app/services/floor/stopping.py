"""What keeps a shell where it is: gates, tools that are out, safety faults, its kit, its welds and its coat.

What was frozen governs what is built, and does not make it unstoppable: a tool that is down stops every shell that is
not past it. For use inside a transaction.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import (
    CoatUninspected,
    Fault,
    NotConfirmed,
    ShellStands,
    ShellStopped,
    WeldsUnsigned,
)
from app.domain.floor.kit import short_of
from app.domain.floor.rework import Rework, last_mended
from app.domain.floor.shell import Barred, Deed, ShellState, barred, in_booth
from app.domain.floor.stopping import Stopped, stopped_by
from app.domain.floor.welding import unsigned
from app.domain.inspection.inspection import passed
from app.domain.orders.order import Order
from app.domain.part import GATE as PARTS
from app.services.floor.finding import FoundShell, found_shell, kit_lines, route_of, tools_of, zones_of
from app.services.money.accounts import deposit_met
from app.services.orders.at_fault import faults_in
from app.services.orders.confirming import confirmed
from app.store import inspections, rework
from app.store.db import Store
from rules.inspection.subject import Phase
from rules.model import Tool, ToolCondition
from rules.schedule.capacity import slot_stage_of


def stopped(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> tuple[Fault, ...]:
    """What stops the shell where it is, be it ready; for use inside a transaction. Raises NotFound."""
    return tuple(fault_of(one) for one in stops_of(found_shell(store, db, actor, key, now)))


def stops_of(found: FoundShell) -> tuple[Stopped, ...]:
    """What keeps the shell where it is: of its own stage, or before release of the first."""
    book, shell = found.whole.book, found.shell
    conditions = found.whole.tools.conditions()
    out = {tool.id for tool in book.tools if _out(tool, conditions)}
    tools = [(tool, stage) for tool, stage in tools_of(found) if tool in out]
    gates = [(gate.name, gate.of, gate.before) for gate in found.gated.gates.gates if not gate.opened]
    stopped = stopped_by(
        shell.deeds,
        shell.route or route_of(found),
        tools,
        gates,
        faults_in(found.whole, found.gated, shell),
        shell.failed,
    )
    return (*stopped, *(one for one in _kit_stops(found) if one not in stopped))


def _kit_stops(found: FoundShell) -> Iterator[Stopped]:
    """Before release: what is short, and customers' parts that have to be built in by the stage with the slots."""
    book, shell = found.whole.book, found.shell
    if shell.progress.state is not ShellState.PLANNED:
        return
    stages = [stage.id for stage in book.stages]
    slot = stages.index(slot_stage_of(book)) if slot_stage_of(book) else len(stages)
    for gate in found.gated.gates.gates:
        if gate.name == PARTS and not gate.opened and gate.of not in shell.failed and gate.before in stages[: slot + 1]:
            yield Stopped(PARTS, gate.of)
    for line in short_of([line.id for line in kit_lines(found)], shell.kit):
        yield Stopped("kit-short", line)


def _out(tool: Tool, conditions: Mapping[str, ToolCondition]) -> bool:
    """A part takes a lost tool's place, and is waited for by its own gate."""
    condition = conditions.get(tool.id, ToolCondition.OK)
    return condition is ToolCondition.DOWN or (condition is ToolCondition.LOST and tool.stands_in is None)


def refuse_unconfirmed(db: Database, order: Order) -> None:
    if confirmed(db, order) is None:
        raise NotConfirmed(number=order.number)
    if not deposit_met(db, order):
        raise NotConfirmed(number=order.number, why="deposit-gone")


def refuse_barred(found: FoundShell, deed: Deed, stage: str | None) -> None:
    why = barred(deed, stage, found.shell.deeds, found.shell.route)
    if why is not None:
        raise ShellStands(serial=found.shell.serial or "", why=why.value)


def refuse_planned(found: FoundShell) -> None:
    """Raises ShellStands for one that has no serial yet."""
    if found.shell.serial is None:
        raise ShellStands(serial="", why=Barred.PLANNED.value)


def refuse_stopped(found: FoundShell) -> None:
    """Raises ShellStopped."""
    stops = stops_of(found)
    if stops:
        raise ShellStopped([fault_of(one) for one in stops], number=found.shell.serial)


def refuse_unsigned(db: Database, found: FoundShell, stage: str) -> None:
    """No stage is done before its welds and those of the stages before it have their welders."""
    missing = unsigned(zones_of(db, found), (*found.shell.progress.through, stage))
    if missing:
        faults = [Fault(f"zones.{one.zone.id}", "zone-unsigned", {"of": one.zone.label}) for one in missing]
        raise WeldsUnsigned(faults, serial=found.shell.serial or "")


def refuse_uninspected(db: Database, found: FoundShell) -> None:
    if coat_due(db, found, rework.of_shell(db, found.shell.id)):
        raise CoatUninspected(serial=found.shell.serial or "")


def coat_due(db: Database, found: FoundShell, reworks: Sequence[Rework]) -> bool:
    """Whether it is in paint and nobody has passed its coat since it was last mended."""
    shell = found.shell
    return in_booth(shell.deeds, shell.route) and not passed(
        inspections.verdicts(db, shell.id), Phase.COATED, last_mended(reworks)
    )


def fault_of(one: Stopped) -> Fault:
    return Fault(f"{one.what}.{one.of}" if one.of else one.what, f"stopped-{one.what}", {"of": one.why or one.of})

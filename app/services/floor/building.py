"""Shells in the workshop: released by the lead, done stage by stage under a personal code, held, rejected, replaced.

Only a shell of a confirmed order is released; what stops it is told, all at once. What was frozen governs what is
built, and does not make it unstoppable: a tool that is down stops every shell that is not past it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from dataclasses import replace as with_
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.actor import Actor
from app.domain.concession import Concession
from app.domain.errors import (
    CoatUninspected,
    Fault,
    NotConfirmed,
    NotFound,
    ShellStands,
    ShellStopped,
    SignedWithVerdict,
    WeldsUnsigned,
)
from app.domain.inspection import passed
from app.domain.kit import short_of, unchecked_of
from app.domain.order import Order, OrderLine, Shell
from app.domain.part import GATE as PARTS
from app.domain.rework import Rework, last_mended
from app.domain.safety import AtFault, Reached, concerns, reached
from app.domain.shell import ENDED, Barred, Deed, Done, ShellState, Stop, barred, in_booth
from app.domain.slots import Seat
from app.domain.stopping import Stopped, past, stopped_by
from app.domain.subject import Subject, subjects
from app.domain.welding import WeldZone, unsigned, weld_zones
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.floor.signing import Signature, lead_or_inspector, signed_by
from app.services.money.accounts import deposit_met
from app.services.once import Once, perform
from app.services.orders.at_fault import built, faults_in
from app.services.orders.confirming import confirmed
from app.services.orders.ordering import note, own_order
from app.services.orders.seating import GatedShell, WholeOrder, gated_shell, whole_order
from app.services.planning.freeing import free_what_is_done, plan_again
from app.services.planning.giving_back import give_back
from app.services.quotations.enquiring import running_name
from app.services.stock import stock_floor
from app.store import concessions, inspections, orders, rework, sheet_revisions, slots, welds
from app.store import shells as kept
from app.store.db import Store
from app.store.shells import Left
from rules.condition import holds
from rules.donor.resolve import domains_of
from rules.inspection.subject import Phase
from rules.making import KitLine
from rules.model import Book, Tool, ToolCondition
from rules.model import Work as At
from rules.proof.reliance import uses
from rules.schedule.capacity import slot_stage_of
from rules.workshop.kit import kit_of
from rules.workshop.work import Work, work_of


@dataclass(frozen=True, slots=True)
class OnFloor:
    """A shell of a confirmed order as the workshop sees it. `line` counts from 1; `seat`: its place in the order.

    `stops`: what keeps it from going on, or from being released; `days`: stage → in from, until, as planned.
    `route`: what would be frozen at release. `zones`: its welds with who made them, in build order. `unchecked`: lines
    of the kit of which nobody has said anything, before release. `coat_due`: it is in paint, and nobody has passed its
    coat. `subjects`: all of it that a concession or rework can be about. `over`: another was begun in its place.
    """

    order: Order
    book: Book
    line: int
    seat: Seat
    shell: Shell
    stops: tuple[Stopped, ...]
    days: Mapping[str, tuple[date, date]]
    route: tuple[Stop, ...]
    zones: tuple[WeldZone, ...] = ()
    unchecked: int = 0
    concessions: tuple[Concession, ...] = ()
    reworks: tuple[Rework, ...] = ()
    coat_due: bool = False
    subjects: tuple[Subject, ...] = ()
    over: bool = False


def shell(store: Store, actor: Actor, key: int, now: datetime) -> OnFloor:
    """Of an order that is not confirmed, too, and one that was replaced. Raises NotFound."""
    with store.reading() as db:
        return on_floor(db, known_shell(store, db, actor, key, now))


def floor(store: Store, now: datetime) -> tuple[OnFloor, ...]:
    """Every shell of confirmed orders that have not all left, by their slots; those without one at the end."""
    with store.reading() as db:
        found = [on_floor(db, one) for one in every_found(store, db, now)]
    return tuple(sorted(found, key=_by_slot))


def made_with(store: Store, tool: str, now: datetime) -> tuple[tuple[OnFloor, ...], tuple[OnFloor, ...]]:
    """Released shells that use the tool: those not past the stage where it is used, and those past it.

    Whether it is down is not asked here; a shell that is ready, rejected or cancelled is in neither.
    """
    with store.reading() as db:
        confirmed = _confirmed(store, db, now, Left.TO_BUILD)
        found = [one for whole in confirmed for one in _each(whole) if _in_build(one)]
        used = [(stage, one) for one in found for used, stage in _tools(one) if used == tool]
        told = [(past(stage, one.shell.deeds, one.shell.route), on_floor(db, one)) for stage, one in used]
    return tuple(one for through, one in told if not through), tuple(one for through, one in told if through)


def concerned(store: Store, fault: AtFault, now: datetime) -> tuple[tuple[OnFloor, Reached], ...]:
    """Shells of confirmed orders in which that may be at fault, and what the fault would do with each.

    Those that were begun first come first; one that is rejected or cancelled is none of them.
    """
    with store.reading() as db:
        every = (one for whole in _confirmed(store, db, now) for one in _each(whole))
        found = [one for one in every if concerns(fault, built(one.whole, one.gated, one.shell))]
        told = [(one, reached(one.shell.state)) for one in found]
        return tuple((on_floor(db, one), how) for one, how in told if how is not None)


def release(store: Store, actor: Actor, key: int, now: datetime, *, once: Once | None = None) -> None:
    """Gives the serial, freezes the route, and begins the build sheet with its first revision.

    Raises NotFound, NotConfirmed, ShellStands, ShellStopped, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        if found.whole.stock is None:
            _refuse_unconfirmed(db, found.whole.order)
        refuse_barred(found, Deed.RELEASED, None)
        open_lines = len(unchecked(found))
        stops = (*_stops(found), *([Stopped("kit-unchecked", str(open_lines))] if open_lines else []))
        if stops:
            raise ShellStopped([_fault(one) for one in stops], number=found.whole.order.number)
        serial, route = running_name(db, "S", found.whole.book, now), _route(found)
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
            _refuse_uninspected(db, found)
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


def replace(store: Store, actor: Actor, key: int, now: datetime, *, once: Once | None = None) -> int:
    """A new shell in the place of a rejected one, under the same line; its serial comes with its own release.

    Raises NotFound, ShellStands, KeyReused, Underway.
    """

    def write(db: Database) -> int:
        return begin_another(db, actor, found_shell(store, db, actor, key, now), now)

    return int(perform(store, once, now, write))


def begin_another(db: Database, actor: Actor, found: FoundShell, now: datetime) -> int:
    """As `replace`, inside a transaction. Raises ShellStands."""
    if all(done.deed is not Deed.REJECTED for done in found.shell.deeds):
        raise ShellStands(serial=found.shell.serial or "", why="not-rejected")
    again = stock_floor.planned_again(db, actor, found.shell.id, now)
    if again is None and found.whole.stock is None:
        plan_again(db, found.whole, found.gated.seat.place)
    new = again or kept.replace(db, found.shell.id)
    note_shell(db, found, "shell-replaced", actor, now)
    return new


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
        return next(_each(in_stock))
    number = kept.order_of(db, key)
    if number is not None:
        whole = whole_order(store, db, own_order(db, actor, number, now), now)
        for one in (*_each(whole), *_replaced(whole)):
            if one.shell.id == key:
                return one
    raise NotFound(what="shell", name=str(key))


def every_found(store: Store, db: Database, now: datetime) -> Iterator[FoundShell]:
    """Every shell of confirmed orders of which one is still here, inside a transaction."""
    for whole in _confirmed(store, db, now, Left.UNDER_WAY):
        yield from _each(whole)


def _each(whole: WholeOrder) -> Iterator[FoundShell]:
    placed = ((line, shell) for line in whole.order.lines for shell in line.shells)
    for place, (line, shell) in zip(whole.places, placed, strict=True):
        yield FoundShell(whole, gated_shell(whole, place), line, shell)


def _replaced(whole: WholeOrder) -> Iterator[FoundShell]:
    """Those that were rejected and have another in their place, each as it was built."""
    for one in _each(whole):
        for before in one.shell.replaced:
            frozen = one.line.frozen_of(before)
            yield FoundShell(whole, with_(one.gated, frozen=frozen), one.line, before, over=True)


def on_floor(db: Database, found: FoundShell) -> OnFloor:
    """For use inside a transaction."""
    visits = slots.visits(db, found.gated.seat)
    made = slots.promised(db, found.gated.seat)
    steps = () if found.over or made is None or not visits else made.promise.steps
    done, reworks = work(found), rework.of_shell(db, found.shell.id)
    return OnFloor(
        order=found.whole.order,
        book=found.whole.book,
        line=found.gated.line,
        seat=found.gated.seat,
        shell=found.shell,
        stops=_stops(found),
        unchecked=len(unchecked(found)),
        days={step.stage: (step.start, step.end) for step in stock_floor.steps(db, found.whole) or steps},
        route=_route(found),
        zones=_zones(db, found, done),
        concessions=concessions.of_shell(db, found.shell.id),
        reworks=reworks,
        coat_due=_coat_due(db, found, reworks),
        subjects=tuple(subjects(done)),
        over=found.over,
    )


def work(found: FoundShell) -> Work:
    """What is done to this shell, by the book of its order."""
    return work_of(found.whole.book, found.whole.order.frozen.donor.facts(), found.gated.frozen.settled)


def zones_of(db: Database, found: FoundShell) -> tuple[WeldZone, ...]:
    """Its weld zones with whoever signed for them."""
    return _zones(db, found, work(found))


def _zones(db: Database, found: FoundShell, done: Work) -> tuple[WeldZone, ...]:
    return weld_zones(done, welds.of_shell(db, found.shell.id))


def stopped(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> tuple[Fault, ...]:
    """What stops the shell where it is, be it ready; for use inside a transaction. Raises NotFound."""
    return tuple(_fault(one) for one in _stops(found_shell(store, db, actor, key, now)))


def _by_slot(one: OnFloor) -> tuple[bool, date, str, int]:
    first = min((days[0] for days in one.days.values()), default=None)
    return first is None, first or date.max, one.order.number, one.seat.place


def _route(found: FoundShell) -> tuple[Stop, ...]:
    """The stages on which days are spent on this very shell."""
    days = {stage.stage: stage.days for stage in found.gated.route.stages}
    return tuple(Stop(stage.id, stage.work) for stage in found.whole.book.stages if days.get(stage.id))


def _stops(found: FoundShell) -> tuple[Stopped, ...]:
    """What keeps the shell where it is: of its own stage, or before release of the first."""
    book, shell = found.whole.book, found.shell
    conditions = found.whole.tools.conditions()
    out = {tool.id for tool in book.tools if _out(tool, conditions)}
    tools = [(tool, stage) for tool, stage in _tools(found) if tool in out]
    gates = [(gate.name, gate.of, gate.before) for gate in found.gated.gates.gates if not gate.opened]
    stopped = stopped_by(
        shell.deeds,
        shell.route or _route(found),
        tools,
        gates,
        faults_in(found.whole, found.gated, shell),
        shell.failed,
    )
    return (*stopped, *(one for one in _kit_stops(found) if one not in stopped))


def kit_lines(found: FoundShell) -> tuple[KitLine, ...]:
    """What has to lie ready for this shell, customers' parts apart."""
    return kit_of(found.whole.book, found.whole.order.frozen.donor.facts(), found.gated.frozen.settled)


def unchecked(found: FoundShell) -> tuple[str, ...]:
    """Lines of its kit of which nobody has said anything, while it waits for its release."""
    if found.shell.progress.state is not ShellState.PLANNED:
        return ()
    return unchecked_of([line.id for line in kit_lines(found)], found.shell.kit)


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


def _tools(found: FoundShell) -> list[tuple[str, str | None]]:
    """Those that the shell is made with, and where each is last used."""
    book, donor = found.whole.book, found.whole.order.frozen.donor.facts()
    settled, domains = found.gated.frozen.settled, domains_of(book)
    return [(tool.id, tool.stage) for tool in book.tools if holds(uses(book, tool.id, donor), settled, domains)]


def _in_build(found: FoundShell) -> bool:
    return found.shell.progress.state not in (ShellState.PLANNED, ShellState.READY, *ENDED)


def _confirmed(store: Store, db: Database, now: datetime, left: Left = Left.EVERY) -> Iterator[WholeOrder]:
    """Everybody's."""
    for number in kept.of_confirmed(db, left):
        order = orders.get(db, number, None, now)
        if order is not None:
            yield whole_order(store, db, order, now)
    yield from stock_floor.works_orders(store, db, now)


def _out(tool: Tool, conditions: Mapping[str, ToolCondition]) -> bool:
    """A part takes a lost tool's place, and is waited for by its own gate."""
    condition = conditions.get(tool.id, ToolCondition.OK)
    return condition is ToolCondition.DOWN or (condition is ToolCondition.LOST and tool.stands_in is None)


def _refuse_unconfirmed(db: Database, order: Order) -> None:
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
    stops = _stops(found)
    if stops:
        raise ShellStopped([_fault(one) for one in stops], number=found.shell.serial)


def refuse_unsigned(db: Database, found: FoundShell, stage: str) -> None:
    """No stage is done before its welds and those of the stages before it have their welders."""
    missing = unsigned(zones_of(db, found), (*found.shell.progress.through, stage))
    if missing:
        faults = [Fault(f"zones.{one.zone.id}", "zone-unsigned", {"of": one.zone.label}) for one in missing]
        raise WeldsUnsigned(faults, serial=found.shell.serial or "")


def _refuse_uninspected(db: Database, found: FoundShell) -> None:
    if _coat_due(db, found, rework.of_shell(db, found.shell.id)):
        raise CoatUninspected(serial=found.shell.serial or "")


def _coat_due(db: Database, found: FoundShell, reworks: Sequence[Rework]) -> bool:
    """Whether it is in paint and nobody has passed its coat since it was last mended."""
    shell = found.shell
    return in_booth(shell.deeds, shell.route) and not passed(
        inspections.verdicts(db, shell.id), Phase.COATED, last_mended(reworks)
    )


def _fault(one: Stopped) -> Fault:
    return Fault(f"{one.what}.{one.of}" if one.of else one.what, f"stopped-{one.what}", {"of": one.why or one.of})


def note_shell(db: Database, found: FoundShell, what: str, actor: Actor, now: datetime, **facts: str) -> None:
    told = {"shell": str(found.gated.seat.place), "serial": found.shell.serial or "", **facts}
    note(db, found.whole.order.number, what, actor, now, **told)

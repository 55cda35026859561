"""Change notes of shells: drawn up, approved where the book or a rule leaves it to the manager, signed, or given up.

The customer's signature is recorded before a hand moves. In the very transaction that records it the shell becomes what
the note says, its build sheet gets the next revision, the order its new sum, and the plan its new days.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import (
    CannotBeBuilt,
    ChangeBarred,
    DeliveryContradicts,
    Fault,
    NoteEnded,
    NoteMoved,
    NotFound,
    NotPriced,
    PlanMoved,
    ShellStands,
)
from app.domain.floor.shell import ShellState
from app.domain.orders.change_note import ChangeNote, Content, Effect, NoteAct, Said, Standing, Wish
from app.domain.orders.order import Order
from app.domain.planning.slots import Act
from app.domain.quotations.quotation import Approved, FrozenLine
from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.floor.finding import FoundShell, found_shell
from app.services.once import Once, perform
from app.services.orders.changing import Weighed, weighed
from app.services.orders.confirming import confirmed
from app.services.orders.ordering import note, own_order
from app.services.planning.dating import Working
from app.services.planning.making_room import make_room
from app.services.planning.promising import keep
from app.services.quotations.enquiring import running_name
from app.store import change_notes as kept
from app.store import sheet_revisions, shells, slots
from app.store.db import Store
from rules.model import Allowed


@dataclass(frozen=True, slots=True)
class Signature:
    """`who` signed for the customer on which `day`; `agreed`: the token of the dates that move, "" where none do."""

    who: str
    day: date
    agreed: str = ""


@dataclass(frozen=True, slots=True)
class LookedAt:
    """A note with its papers that are stored (language, size); `anew`: the same weighed today, of one that is open."""

    note: ChangeNote
    anew: Weighed | None
    stored: set[tuple[str, str]]


def looked_at(store: Store, actor: Actor, at: FoundShell, now: datetime, working: Working) -> tuple[LookedAt, ...]:
    """The notes of one shell, the last first."""
    with store.reading() as db:
        notes = kept.of_shell(db, at.shell.id)
        return tuple(_look(store, db, actor, one, now, working, over=at.over) for one in notes)


def waiting(store: Store, actor: Actor, now: datetime) -> tuple[tuple[ChangeNote, FoundShell], ...]:
    """Notes of which nobody has said the last word, each with its shell; one whose shell is no more is left out."""
    with store.reading() as db:
        found = ((one, _shell_of(store, db, actor, one, now)) for one in kept.waiting(db))
        return tuple((one, shell) for one, shell in found if shell is not None)


def _shell_of(store: Store, db: Database, actor: Actor, one: ChangeNote, now: datetime) -> FoundShell | None:
    try:
        return found_shell(store, db, actor, one.shell, now)
    except (NotFound, ShellStands):
        return None


def _look(
    store: Store, db: Database, actor: Actor, one: ChangeNote, now: datetime, working: Working, *, over: bool
) -> LookedAt:
    stored = {(paper.language, paper.size) for paper in kept.papers(db, one.id)}
    if over or not one.open:
        return LookedAt(one, None, stored)
    anew = weighed(store, db, actor, one.shell, one.content.wish, one.content.why, working, now)
    return LookedAt(one, anew if _same(one.content, anew) else None, stored)


def own_note(store: Store, actor: Actor, number: str, now: datetime) -> ChangeNote:
    """Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        return _own(db, actor, number, now)[0]


def draw(
    store: Store, actor: Actor, key: int, wish: Wish, why: str, working: Working, now: datetime,
    *, once: Once | None = None,
) -> str:  # fmt: skip
    """The number of the new note, which changes nothing yet.

    Raises NotFound, BadInput, ChangeBarred, CannotBeBuilt, NotPriced, DeliveryContradicts, KeyReused, Underway.
    """
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))

    def write(db: Database) -> str:
        found = weighed(store, db, actor, key, wish, why, working, now)
        content, _ = _signable(db, found)
        number = running_name(db, "CN", found.book, now)
        kept.add(db, number, key, content, actor.name, now)
        _note(db, found, "change-drawn", actor, now, number)
        return number

    return str(perform(store, once, now, write))


def answer(
    store: Store, actor: Actor, number: str, said: Said, why: str, now: datetime, *, once: Once | None = None
) -> str:
    """APPROVED, TURNED_DOWN or WITHDRAWN, with the reason.

    Raises NotFound, BadInput, NoteEnded, KeyReused, Underway.
    """
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))

    def write(db: Database) -> str:
        found, order = _own(db, actor, number, now)
        waits = found.standing is Standing.WAITS_FOR_APPROVAL
        if not found.open or (said in (Said.APPROVED, Said.TURNED_DOWN) and not waits):
            raise NoteEnded(number=number, why=found.standing.value)
        kept.act(db, found.id, NoteAct(said, "", _today(store, order, now), why, now, actor.name))
        note(db, order.number, f"change-{said.value}", actor, now, change=number, why=why)
        return number

    return str(perform(store, once, now, write))


def sign(
    store: Store, actor: Actor, number: str, signature: Signature, working: Working, now: datetime,
    *, once: Once | None = None,
) -> str:  # fmt: skip
    """Record the customer's signature, and do what the note says.

    Raises NotFound, BadInput, NoteEnded, NoteMoved, PlanMoved, KeyReused, Underway.
    """

    def write(db: Database) -> str:
        found, order = _own(db, actor, number, now)
        if found.standing is not Standing.WAITS_FOR_SIGNATURE:
            raise NoteEnded(number=number, why=found.standing.value)
        refuse(_signature_faults(signature, found, _today(store, order, now)))
        content = found.content
        fresh = weighed(store, db, actor, found.shell, content.wish, content.why, working, now)
        if fresh.effect is None or not _same(content, fresh):
            raise NoteMoved(number=number)
        if (fresh.move.token if fresh.move else "") != signature.agreed:
            raise PlanMoved()
        effect = replace(fresh.effect, frozen=_approved(fresh.effect.frozen, found, actor, store, db))
        done = NoteAct(Said.SIGNED, signature.who.strip(), signature.day, "", now, actor.name)
        kept.act(db, found.id, done, effect)
        _carry_out(store, db, actor, fresh, found, working, now)
        return number

    return str(perform(store, once, now, write))


def _carry_out(
    store: Store, db: Database, actor: Actor, fresh: Weighed, found: ChangeNote, working: Working, now: datetime
) -> None:
    _note(db, fresh, "change-signed", actor, now, found.number)
    if fresh.shell.deeds:
        changed = tuple(one.option for one in found.content.changes)
        revision = sheet_revisions.add(
            db, found.shell, fresh.today, actor.name, now, note=found.id, changed=changed, why=found.content.why
        )
        serial = fresh.shell.serial or ""
        note(db, fresh.order.number, "sheet-changed", actor, now, serial=serial, revision=str(revision))
    if fresh.move is not None and fresh.wanted is not None:
        (move,) = fresh.move.moves
        slots.give_up(db, move.seat)
        keep(db, actor, move.seat, fresh.wanted, Act.MOVED, move.after, now,
             behind=(fresh.shell.progress.through, fresh.today))  # fmt: skip
        make_room(store, db, actor, working, now, fresh.order.number)


def _signable(db: Database, found: Weighed) -> tuple[Content, Effect]:
    """Raises what keeps it from being signed as it is."""
    if confirmed(db, found.order) is None:
        raise ChangeBarred(number=found.order.number, why="unconfirmed")
    if found.shell.state in (ShellState.DESPATCHED, ShellState.REJECTED, ShellState.CANCELLED):
        raise ChangeBarred(number=found.order.number, why="over")
    if any(one.open for one in kept.of_shell(db, found.shell.id)):
        raise ChangeBarred(number=found.order.number, why="waits")
    if not found.changes and found.goes is None:
        raise ChangeBarred(number=found.order.number, why="nothing")
    if found.causes:
        raise CannotBeBuilt(line=found.line.position + 1, causes=found.causes)
    if found.taken is Allowed.NO:
        raise ChangeBarred(list(_barred(found)), number=found.order.number, why="no")
    if found.unpriced:
        raise NotPriced(line=found.line.position + 1, unpriced=found.unpriced, list=found.order.frozen.tariff.list)
    if found.untold is not None:
        place = found.order.place if found.goes is None else found.goes.after
        told: dict[str, Any] = {"country": place.country, "region": place.region, **found.untold.fields}
        line, fitting = found.line.position + 1, found.untold.fitting
        raise DeliveryContradicts(line=line, why=found.untold.why, fitting=fitting, **told)
    if found.content is None or found.effect is None:
        raise ChangeBarred(number=found.order.number, why="nothing")
    return found.content, found.effect


def _barred(found: Weighed) -> Iterator[Fault]:
    for one in found.changes:
        if one.taken is Allowed.NO:
            yield Fault(f"choices.{one.option}", "too-late-for", {"of": one.option})


def _signature_faults(signature: Signature, found: ChangeNote, today: date) -> Iterator[Fault]:
    yield from blank_faults("who", signature.who)
    yield from long_faults("who", signature.who, LONGEST_LINE)
    if signature.day > today:
        yield Fault("day", "in-the-future")
    elif signature.day < found.content.dated:
        yield Fault("day", "before-the-note")


def _same(content: Content, fresh: Weighed) -> bool:
    """Whether what the customer signs is still so; days are asked about by themselves."""
    return fresh.content is not None and _agreed_on(fresh.content) == _agreed_on(content)


def _agreed_on(content: Content) -> object:
    return content.changes, content.place, content.charge, content.prices, content.differences, content.gained


def _approved(frozen: FrozenLine, found: ChangeNote, actor: Actor, store: Store, db: Database) -> FrozenLine:
    """The manager's word on the note is his approval of what speaks newly."""
    given = next((one for one in found.acts if one.said is Said.APPROVED), None)
    if given is None:
        return frozen
    new = tuple(Approved(rule, given.by, given.day, given.why) for rule in found.content.gained.approvals)
    return replace(frozen, approved=(*frozen.approved, *new))


def _own(db: Database, actor: Actor, number: str, now: datetime) -> tuple[ChangeNote, Order]:
    """With the order of its shell."""
    found = kept.get(db, number)
    if found is None:
        raise NotFound(what="change-note", name=number)
    return found, own_order(db, actor, shells.order_of(db, found.shell) or "", now)


def _today(store: Store, order: Order, now: datetime) -> date:
    return day_of(book_of(store, order.revision.book or 0), now)


def _note(db: Database, found: Weighed, what: str, actor: Actor, now: datetime, number: str) -> None:
    told = {"shell": str(found.place), "serial": found.shell.serial or "", "change": number}
    note(db, found.order.number, what, actor, now, **told)

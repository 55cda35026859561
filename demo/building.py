"""The demo's workshop: orders whose slots come about now are confirmed, shells released, some stages through."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta

from app import calendar
from app.domain.asking.people import Person
from app.domain.errors import CannotConfirm, ConfirmedAlready
from app.domain.floor.kit import KitCheck, KitStands
from app.domain.floor.shell import Deed, Done, ShellState, Stop, points
from app.domain.floor.welding import Weld
from app.domain.inspection.subject import About
from app.services.floor import building, conceding, kitting, overseeing, reworking
from app.services.floor.conceding import Asked
from app.services.floor.overseeing import OnFloor
from app.services.orders import confirming, ordering
from app.services.orders.seating import DEPOSIT
from app.store import confirmations, kits, shells, slots, welds
from app.store.db import Store
from demo.people import PERSON
from demo.stock import make_stock, step_back
from rules.inspection.listing import within
from rules.model import Work

IMOGEN, PIERS, TOMASZ, OONA, IDRIS = (PERSON[name] for name in ("imogen", "piers", "tomasz", "oona", "idris"))

#: Orders whose shells are in the shop from so many days ago until so many from now are looked at.
SINCE, UNTIL = 14, 10

#: Line, how it stands, what is said of it, who approved it.
NEXT_KITS = (
    ("sills", KitStands.SHORT, "Left inner sill: on Thursday.", None),
    ("scuttle", KitStands.SUBSTITUTE, "Made by hand from 1.0 mm sheet, to the drawing.", "piers"),
)


def build(store: Store, now: datetime) -> None:
    """Stages whose planned days have passed are through, each on its last day; one shell is on hold."""
    make_stock(store, now)
    for number in dict.fromkeys(_numbers(store, now.date())):
        confirm(store, number)
    released = [one for one in overseeing.floor(store, now) if _comes_in(store, one, now) <= now and not one.stops]
    for one in released:
        comes = _comes_in(store, one, now)
        kitting.all_present(store, TOMASZ, one.shell.id, comes - timedelta(hours=1))
        building.release(store, TOMASZ, one.shell.id, comes)
    for one in overseeing.floor(store, now):
        if one.shell.serial is not None:
            _done(store, one, now)
    if released:
        _check_next(store, now)
        why = "The left sill pressing is short: two come on Monday."
        at = max(now - timedelta(minutes=40), min(_comes_in(store, released[-1], now) + timedelta(minutes=10), now))
        building.say(store, TOMASZ, released[-1].shell.id, Deed.HELD, why, at)
    _record(store, now)
    step_back(store, now)


def _check_next(store: Store, now: datetime) -> None:
    """Of the next one the kit is checked but for a line that is short; of the one after it, with a substitute."""
    waiting = [one for one in overseeing.floor(store, now) if one.shell.serial is None and not one.stops][:2]
    for one, (line, stands, what, approver) in zip(waiting, NEXT_KITS, strict=False):
        at = now - timedelta(hours=1)
        with store.writing() as db:
            kits.add(db, one.shell.id, KitCheck(line, stands, what, at, TOMASZ.name, approver))
        kitting.all_present(store, TOMASZ, one.shell.id, at)


def _numbers(store: Store, today: date) -> Iterator[str]:
    with store.reading() as db:
        found = slots.visiting(db, today - timedelta(days=SINCE), today + timedelta(days=UNTIL))
    yield from (seat.number for seat in found)


def confirm(store: Store, number: str) -> None:
    """An hour after its deposit. Whatever lacked something then is left as it is: that, too, is to be seen."""
    with store.reading() as db:
        key = ordering.own_order(db, IMOGEN, number, datetime.max.replace(tzinfo=UTC)).id
        paid = slots.gates_said(db, key).get((0, DEPOSIT))
    if paid is None:
        return
    try:
        confirming.confirm(store, IMOGEN, number, calendar.around, paid.at + timedelta(hours=1))
    except (CannotConfirm, ConfirmedAlready):
        return


def _at(day: date, hour: int, now: datetime) -> datetime:
    return datetime.combine(day, time(hour, 30), now.tzinfo)


def _comes_in(store: Store, one: OnFloor, now: datetime) -> datetime:
    """In the morning of the first day that it is planned for; or, confirmed on that day, two hours later."""
    morning = _at(min((start for start, _ in one.days.values()), default=date.max), 8, now)
    with store.reading() as db:
        confirmed = confirmations.of_order(db, one.order.id)
    return max([morning, *(each.at + timedelta(hours=2) for each in confirmed[:1])])


def _done(store: Store, one: OnFloor, now: datetime) -> None:
    working = calendar.around(one.book.calendar, now.date())
    for stop in one.shell.route:
        if stop.work is Work.NONE or one.days[stop.stage][1] > now.date():
            return
        signer = OONA if stop.work is Work.INSPECTION else IDRIS
        ended = _at(working.back(one.days[stop.stage][1], 1), 15, now)
        _weld(store, one, stop.stage, ended)
        go_through(store, one, stop, signer, ended, begun=_at(one.days[stop.stage][0], 7, now))


def go_through(store: Store, one: OnFloor, stop: Stop, signer: Person, at: datetime, *, begun: datetime) -> None:
    """Nobody can sign yet: the people are added last, and their codes with them. `begun`: where it is paint.

    What is read of its coat comes in with the inspections.
    """
    with store.writing() as db:
        if stop.work is Work.PAINT:
            shells.add(db, one.shell.id, Done(Deed.BEGUN, begun, TOMASZ.name, stop.stage, signed=TOMASZ.name))
        shells.add(db, one.shell.id, Done(Deed.DONE, at, TOMASZ.name, stop.stage, signed=signer.name))


def _record(store: Store, now: datetime) -> None:
    """Of the shells furthest on a concession waits for its answer, another is granted, and one is sent back."""
    shop = [
        one for one in overseeing.floor(store, now) if one.shell.state is ShellState.IN_BUILD and not _looked_at(one)
    ]
    for say, one in zip((_asked, _conceded, _sent_back), shop, strict=False):
        say(store, one, now - timedelta(hours=2))


def _looked_at(one: OnFloor) -> bool:
    """Whether it is at its inspection, which is told of elsewhere."""
    at = one.shell.progress.stage
    return any(stop.work is Work.INSPECTION and stop.stage == at for stop in one.shell.route)


def _sent_back(store: Store, one: OnFloor, at: datetime) -> None:
    what = "A sharp bead behind the left wing flange: dress it, and look at the flange again."
    come, _ = points(one.shell.deeds, one.shell.route)
    reworking.send_back(store, OONA, one.shell.id, "surface", what, come[-2:][0], at)


def _conceded(store: Store, one: OnFloor, at: datetime) -> None:
    asked = Asked("surface", "A tool mark inside the boot floor, under the mat.", "0.3 mm deep")
    said = conceding.ask(store, TOMASZ, one.shell.id, asked, at)
    conceding.answer(store, PIERS, one.shell.id, said, True, "Nobody sees it, and it is primed over.", at)


def _asked(store: Store, one: OnFloor, at: datetime) -> None:
    point = [about for about in one.subjects if about.about is About.GAP][-1]
    why = "The wing would have to come off again; the customer fits his own trim there."
    gaps = (gap for gap in one.book.making.gaps if point.of in (gap.id, *(each.id for each in gap.points)))
    limit = within(next(gaps).metal)
    asked = Asked(str(point), why, "5.6 mm", f"{limit.least} to {limit.most} mm")
    conceding.ask(store, OONA, one.shell.id, asked, at)


def _weld(store: Store, one: OnFloor, stage: str, at: datetime) -> None:
    zones = [zone.zone.id for zone in one.zones if zone.stage == stage]
    with store.writing() as db:
        welds.add(db, one.shell.id, [Weld(zone, IDRIS.name, at.date(), at, TOMASZ.name) for zone in zones])

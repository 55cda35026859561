"""The demo's way out: one shell that has left, paid and packed, and one that is ready with its balance open."""

from __future__ import annotations

from datetime import datetime, timedelta

from app.domain.despatch.despatch import Package, Packing, Standing, Term
from app.domain.floor.shell import Deed, ShellState
from app.domain.money.payment import Direction, Entry, Means
from app.domain.planning.slots import still_taken
from app.services.despatch import despatching, leaving
from app.services.despatch.leaving import Leaving
from app.services.floor import overseeing
from app.services.floor.overseeing import OnFloor
from app.services.money import balancing, dealer_credit, receiving
from app.store import slots
from app.store.db import Store
from demo.building import go_through
from demo.people import PERSON
from rules.model import Work

IMOGEN, PIERS, TOMASZ, OONA = (PERSON[name] for name in ("imogen", "piers", "tomasz", "oona"))

#: What the demo's workshop measured and weighed, by how the shell is packed; and the shell alone.
_PACKAGES = {
    "dolly": Package("Dolly", 4000, 1650, 1280, 352),
    "wrapped": Package("Wrapped in film", 3980, 1640, 1210, 301),
    "frame": Package("Open frame, timber", 4100, 1750, 1400, 428, timber=True),
    "crate": Package("Closed crate, timber", 4150, 1800, 1450, 512, timber=True),
}
_NET = 296


def finish(store: Store, now: datetime) -> None:
    """The two that are farthest on are finished early."""
    ordered = (one for one in overseeing.floor(store, now) if one.order.quotation)
    far = sorted(filter(_in_build, ordered), key=lambda one: -len(one.shell.deeds))
    for at, one in enumerate(far[:2]):
        _finish(store, one, now - timedelta(days=3 - at), now)


def send_off(store: Store, now: datetime) -> None:
    """Of those that are ready two are billed and packed; the first of them is paid and leaves."""
    left = (one for one in overseeing.floor(store, now) if one.order.quotation)
    ready = [one for one in left if one.shell.state is ShellState.READY][:2]
    for one in ready:
        _bill(store, one, now - timedelta(minutes=100))
    for one in ready[:1]:
        _leave(store, one, now - timedelta(minutes=30))
    why = "Ten years of paying within the month."
    dealer_credit.give(store, PIERS, "hollin-lane", 5_000_00, "GBP", (now - timedelta(days=60)).date(), why, now)


def _in_build(one: OnFloor) -> bool:
    return one.shell.serial is not None and not one.stops and all(d.deed is not Deed.HELD for d in one.shell.deeds)


def _finish(store: Store, one: OnFloor, at: datetime, now: datetime) -> None:
    through, last = one.shell.progress.through, one.shell.deeds[-1].at
    at = max(at, last + timedelta(hours=1))
    left = [stop for stop in one.shell.route if stop.work is not Work.NONE and stop.stage not in through]
    for hours, stop in enumerate(left):
        signer, done = OONA if stop.work is Work.INSPECTION else TOMASZ, at + timedelta(hours=hours)
        go_through(store, one, stop, signer, done, begun=done - timedelta(minutes=50))
    with store.writing() as db:
        planned = slots.visits(db, one.seat)
        slots.leave_only(db, one.seat, still_taken(planned, [visit.stage for visit in planned], now.date()))


def _bill(store: Store, one: OnFloor, at: datetime) -> None:
    balancing.bill_balance(store, IMOGEN, one.order.number, at, shell=one.shell.id)
    found = leaving.of_shell(store, IMOGEN, one.shell.id, at)
    despatching.pack(store, TOMASZ, one.shell.id, _packing(found), at)


def _packing(found: Leaving) -> Packing:
    customer = found.order.frozen.customer
    consignee = (customer.name, *(line for line in customer.address.splitlines() if line.strip()))
    package = _PACKAGES[found.placed.frozen.settled["packing"]]
    plain = Packing((package,), _NET, ("Bonnet hinge bolts, one bag", "Touch-up primer, 250 ml"), consignee=consignee)
    return plain if not found.standing.abroad else _abroad(plain, found.standing)


def _abroad(plain: Packing, stands: Standing) -> Packing:
    told = "Goods departed message of the customs entry, and the carrier’s certificate of shipment."
    return Packing(
        plain.packages, plain.net_mass, plain.loose, carrier="Fellside Freight", consignee=plain.consignee,
        term=Term("FCA", "Ravensmoor"), timber_mark="GB-FC 0000 HT", evidence=told if stands.untaxed else "",
    )  # fmt: skip


def _leave(store: Store, one: OnFloor, at: datetime) -> None:
    """What is still open comes by bank transfer, and the lead sees it go."""
    open_ = leaving.of_shell(store, IMOGEN, one.shell.id, at).standing.open
    if open_:
        entry = Entry(Direction.RECEIVED, open_, one.order.frozen.currency, at.date(), Means.BANK_TRANSFER)
        receiving.record(store, IMOGEN, one.order.number, entry, at)
    despatching.sign_out(store, IMOGEN, one.shell.id, TOMASZ, at)

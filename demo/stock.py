"""The demo's stock: what was built for it in free slots, and a shell whose customer stepped back in mid-build."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

from sqlite_utils import Database

from app import calendar
from app.domain.floor.shell import Deed, ShellState
from app.domain.stock import StockAct
from app.services.books.publishing import current_book
from app.services.floor import building, overseeing
from app.services.orders import ordering
from app.services.planning.making_room import wanted
from app.services.stock import stocking
from app.store import shells, slots, stock
from app.store.db import Store
from demo.people import PERSON
from rules.model import Book
from rules.schedule.capacity import shop
from rules.schedule.promise import dated, visits_of

IMOGEN, PIERS = PERSON["imogen"], PERSON["piers"]

#: The manager's word.
CAP = 6

#: As the first line ordered for this donor car, in the first slot that nobody had from so many days ago on.
BUILT = (("T3-08811", 60), ("T3-30110", 14))

#: Made two days ago, and planned for the first slot that is free now.
PLANNED = "T3-08811"


def make_stock(store: Store, now: datetime) -> None:
    """Before the workshop's own work: by their slots one is finished, one in the shop, one planned."""
    stocking.set_cap(store, PIERS, CAP, now - timedelta(days=90))
    for donor, days in BUILT:
        _build(store, donor, now - timedelta(days=days), now)
    order = ordering.orders(store, IMOGEN, text=PLANNED).rows[-1]
    made = now - timedelta(days=2)
    stocking.make(store, IMOGEN, order.quotation, order.letter, 1, calendar.around, made)


def step_back(store: Store, now: datetime) -> None:
    """Of an order of several one shell is cancelled while it is built: it is stock in build."""
    states, at = (ShellState.RELEASED, ShellState.IN_BUILD), now - timedelta(days=1)
    several = (one for one in overseeing.floor(store, now) if len(one.order.shells) > 1)
    seen = [one for one in several if one.shell.state in states and one.shell.deeds[-1].at < at]
    if seen:
        why = "The dealer takes one less this quarter."
        building.say(store, PIERS, seen[-1].shell.id, Deed.CANCELLED, why, at)


def _build(store: Store, donor: str, since: datetime, now: datetime) -> None:
    """As it was planned then, when the weeks were not full yet."""
    number = ordering.orders(store, IMOGEN, text=donor).rows[-1].number
    frozen = ordering.order(store, IMOGEN, number, now).lines[0].line.frozen
    assert frozen is not None
    book, made = current_book(store, now), since - timedelta(days=20)
    wants = wanted(book, frozen.settled, made)
    with store.writing() as db:
        slot = _free_slot(db, book, since.date())
        empty = shop(book, calendar.around(book.calendar, slot), [])
        plan = dated(book, replace(wants, slot=slot), empty, made.date())
        key = stock.add(db, book.number, frozen.settled, IMOGEN.name, made, shell=shells.begin_for_stock(db))
        stock.place(db, key, visits_of(plan, wants.kinds), plan.slot)
        stock.act(db, key, StockAct.TAKEN, plan, "", IMOGEN.name, made)


def _free_slot(db: Database, book: Book, day: date) -> date:
    working = calendar.around(book.calendar, day)
    while not working.is_working(day) or slots.holder(db, day) is not None:
        day += timedelta(days=1)
    return day

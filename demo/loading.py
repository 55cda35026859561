"""Loads the demo firm into an empty desk: its book, the state of its tools, its dealers, and its work in hand.

All of it is invented. Dates are counted from the day of loading. People are added by whoever calls this.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path

from app.services.books import publishing, tools
from app.services.quotations import retailing
from app.store import dealers
from app.store.db import Store
from demo.building import build
from demo.changing import change
from demo.dealing import deal
from demo.doing import do
from demo.firm import DEALERS, FIRM, LOST, RETAIL
from demo.inspecting import inspect
from demo.leaving import finish, send_off
from demo.parts import SENT, receive
from demo.people import PEOPLE, PERSON
from demo.safety import find_fault
from demo.steps import Job
from demo.work import WORK
from demo.year import year
from rules.model import ToolCondition

BOOK = Path(__file__).parent / "skerry.book"

#: Days before loading since which the book has been in force: longer than any work goes back.
SINCE = 400

PIERS = PERSON["piers"]


def load(store: Store, now: datetime, url: str = "http://127.0.0.1:8765", *, jobs: Sequence[Job] | None = None) -> None:
    """All of it or nothing; the desk must be empty. `url`: where the codes on the issued papers lead.

    `jobs`: these, and not the year of orders with the work in hand.
    """
    with store.writing():
        set_up(store, now - timedelta(days=SINCE))
        set_up_dealers(store, now - timedelta(days=SINCE))
        for number, job in enumerate((*WORK, *year(), *SENT) if jobs is None else jobs):
            do(store, job, number % len(WORK), now, url)
        if jobs is None:
            deal(store, now, url)
            receive(store, now)
            build(store, now)
            change(store, now)
            find_fault(store, now)
            finish(store, now)
            inspect(store, now)
            send_off(store, now)


def set_up_dealers(store: Store, at: datetime) -> None:
    """What each dealer has said for his own offers."""
    for person, _ in PEOPLE:
        if person.dealer is not None:
            retailing.say_terms(store, person, *RETAIL[person.dealer], at)


def set_up(store: Store, at: datetime) -> None:
    """The firm, its dealers, its book and the state of its tools, with no work in hand."""
    with store.writing() as db:
        dealers.put_firm(db, FIRM)
        for dealer in DEALERS:
            dealers.put(db, dealer)
        text = BOOK.read_text(encoding="utf-8")
        publishing.publish_book(store, PIERS, text, at, file=BOOK.name, note="The first book.")
        for number, (tool, note) in enumerate(LOST.items()):
            tools.set_tool(store, PIERS, tool, ToolCondition.LOST, at, note=note, expected=number)

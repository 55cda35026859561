"""The build sheets that are built by now, as PDF in a folder that is read without the desk, and a page that lists them.

The workshop goes on when the server is down. What is out of date is taken away as soon as its successor lies there, so
that the folder never keeps two revisions of one shell.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from threading import Lock
from zoneinfo import ZoneInfo

from app.documents.saying.figures import Figures, locale_for
from app.documents.saying.voice import Voice
from app.documents.workshop.sheet_list import Listed, sheet_list_html
from app.domain.asking.actor import Actor
from app.domain.floor.sheets import SheetRevision
from app.domain.floor.shell import ENDED
from app.domain.orders.order import Order, OrderLine, Shell
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.floor import sheeting
from app.services.orders.ordering import own_order
from app.services.stock.stock_floor import works_orders
from app.store import sheet_folder, shells
from app.store.db import Store
from rules.model import Book

#: One at a time: two releases at once would each take the other's sheet for one that is out of date.
_LAYING = Lock()

#: What every printer takes; A3 for the wall is had from the desk.
SIZE = "a4"


@dataclass(frozen=True, slots=True)
class _Current:
    """A shell that is built, with the revision of its sheet."""

    order: Order
    book: Book
    line: OrderLine
    shell: Shell
    sheet: SheetRevision

    @property
    def file(self) -> str:
        return f"{self.shell.serial}-rev-{self.sheet.revision}.pdf"


def lay_out(
    store: Store, actor: Actor, data: Path, url: str, now: datetime, *, shell: int | None = None
) -> tuple[str, ...]:
    """Draws what is missing (of one shell alone, or of all), takes away what is old, lists all. The names drawn.

    `data`: the folder of the desk. Raises OSError where the folder can't be written.
    """
    folder = data / sheet_folder.FOLDER
    with _LAYING:
        found, had = tuple(_current(store, actor, now)), sheet_folder.there(folder)
        missing = [one for one in found if one.file not in had and shell in (None, one.shell.id)]
        for one in missing:
            sheet_folder.write(folder, one.file, _drawn(store, actor, one, url, now))
        laid = sheet_folder.there(folder)
        sheet_folder.write(folder, sheet_folder.INDEX, _page(current_book(store, now), found, laid, now).encode())
        sheet_folder.remove(folder, laid - {one.file for one in found})
    return tuple(one.file for one in missing)


def _current(store: Store, actor: Actor, now: datetime) -> Iterator[_Current]:
    """By their serials: all but those that are rejected or despatched; a cancelled one goes on as stock."""
    with store.reading() as db:
        orders = [own_order(db, actor, number, now) for number in shells.orders_released(db)]
        orders += [whole.order for whole in works_orders(store, db, now)]
    placed = ((order, line, shell) for order in orders for line in order.lines for shell in line.shells)
    found = (
        _Current(order, book_of(store, order.revision.book or 0), line, shell, shell.sheet)
        for order, line, shell in placed
        if shell.sheet is not None and shell.state not in ENDED
    )
    yield from sorted(found, key=lambda one: one.shell.serial or "")


def _drawn(store: Store, actor: Actor, one: _Current, url: str, now: datetime) -> bytes:
    at = (one.line.position + 1, one.shell.place)
    return sheeting.build_sheet(store, actor, one.order.number, at, ("", SIZE), now, url=url)


def _page(book: Book, found: tuple[_Current, ...], laid: frozenset[str], now: datetime) -> str:
    language = book.languages[0]
    figures = Figures(locale_for(language), "")
    rows = [_listed(one, one.file in laid, Voice(one.book, language, figures)) for one in found]
    return sheet_list_html(rows, now.astimezone(ZoneInfo(book.calendar.zone)), Voice(book, language, figures))


def _listed(one: _Current, there: bool, voice: Voice) -> Listed:
    return Listed(
        serial=one.shell.serial or "",
        revision=one.sheet.revision,
        day=one.sheet.day,
        shell=voice.told(one.line.frozen_of(one.shell).settled),
        order=f"{one.order.number} · {one.line.position + 1}.{one.shell.place}",
        file=one.file if there else "",
    )

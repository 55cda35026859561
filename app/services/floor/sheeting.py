"""Build sheets of an order's shells: which there are, and each one as a PDF. Made anew each time, never kept.

A shell without a serial is planned, and its sheet says that nobody builds from it. Release begins the sheet's own
revisions; a signed change note makes the next one, and so does the lead who has it drawn up again. The code on a sheet
tells anybody whether it still holds; to whom sheets are shown it says besides what to fetch and what changed.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.documents.saying.figures import locale_for
from app.documents.workshop.build_sheet import SIZES, BuildSheet, SheetPart, build_sheet_pdf
from app.domain.asking.actor import Actor
from app.domain.errors import NotFound
from app.domain.floor.sheets import SheetRevision, changed_since
from app.domain.orders.order import Order, Shell
from app.domain.quotations.quotation import FrozenLine
from app.services.answering import checking
from app.services.answering.pricing import Deal, day_of
from app.services.books import publishing
from app.services.books.standard_lists import firm_of
from app.services.books.tools import tool_states
from app.services.floor.finding import found_shell, note_shell
from app.services.floor.stopping import refuse_planned
from app.services.once import Once, perform
from app.services.orders import ordering
from app.services.quotations import handing_out, papering
from app.services.quotations.quoting import CODE_BYTES
from app.services.quotations.tagging import tag_number
from app.services.stock import stock_floor
from app.store import sheet_codes, sheet_revisions, shells
from app.store.db import Store
from app.wording import LANGUAGES
from rules.donor.keep import kept_of
from rules.model import Book
from rules.money.price import Tariff
from rules.specification import Donor
from rules.workshop.work import work_of

#: On which of the firm's papers a standing caution of the book is printed.
BUILD_SHEET = "build-sheet"


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A shell that has a sheet; `line` and `piece` count from 1. `frozen`: what it is built as."""

    line: int
    piece: int
    shell: Shell
    frozen: FrozenLine


@dataclass(frozen=True, slots=True)
class Sheets:
    """The shells of one order; `revision`: the letter of what was accepted. `languages`: the shop's own first."""

    order: str
    revision: str
    rows: tuple[SheetRow, ...]
    languages: tuple[str, ...]


def sheets_of(store: Store, actor: Actor, quotation: str, now: datetime) -> Sheets:
    """The build sheets of the order that this quotation became. Raises NotFound where there is none."""
    order = ordering.order(store, actor, ordering.order_of(store, actor, quotation), now)
    book = publishing.book(store, order.revision.book or 0)
    return Sheets(order.number, order.revision.letter, tuple(_rows(order)), _languages(book))


def build_sheet(
    store: Store, actor: Actor, number: str, at: tuple[int, int], how: tuple[str, str], now: datetime,
    *, url: str = "",
) -> bytes:  # fmt: skip
    """The PDF of the shell at (line, piece), in (language, size); an empty language: the shop's own.

    `url`: where people reach the desk; the sheet's code says `{url}/s/{code}`, and where it is empty there is none.

    Raises NotFound, BadInput for a language or size that there is none in, DataErased.
    """
    with store.reading() as db:
        order = stock_floor.works_order_of(store, db, number, now) or ordering.own_order(db, actor, number, now)
    row = next((one for one in _rows(order) if (one.line, one.piece) == at), None)
    if row is None:
        raise NotFound(what="shell", name=f"{number}/{at[0]}.{at[1]}")
    made_by = _made_by(store, actor, order, now)
    languages = _languages(made_by[0].book)
    language, size = how[0] or languages[0], how[1]
    checking.refuse([*checking.one_of("language", language, languages), *checking.one_of("size", size, tuple(SIZES))])
    address = _address(store, row.shell, url, now) if url else ""
    sheet = _sheet(store, made_by, order, row, (language, size), now, address)
    with papering.PRESS:
        return build_sheet_pdf(sheet)


def still_current(store: Store, code: str) -> bool:
    """Whether a sheet with this code would be printed the same now. For anybody. Raises NotFound."""
    with store.reading() as db:
        key, says = _behind(db, code)
        return sheet_codes.says_now(db, key) == says


@dataclass(frozen=True, slots=True)
class Scanned:
    """A sheet in somebody's hand, and the one that is built by. `revision`: of the sheet; None of a planned shell's.

    `sheet` None: there is none to build by. `changed`: what is otherwise on it than on the sheet in hand, option ids.
    `number`, `line`, `piece`: where it is fetched; empty where the order follows another yes and has other shells.
    """

    book: Book
    current: bool
    serial: str
    revision: int | None
    sheet: SheetRevision | None
    changed: tuple[str, ...]
    number: str
    line: int
    piece: int


def scanned(store: Store, actor: Actor, code: str, now: datetime) -> Scanned:
    """What a sheet's code says to whom build sheets are shown. Raises NotFound."""
    with store.reading() as db:
        key, says = _behind(db, code)
        order = _order_of(store, db, actor, key, now)
        current = sheet_codes.says_now(db, key) == says
    row = next((one for one in _rows(order) if one.shell.id == key), None)
    revision, book = sheet_codes.revision_in(says), publishing.book(store, order.revision.book or 0)
    if row is None:
        return Scanned(book, False, "", revision, None, (), order.number, 0, 0)
    changed = changed_since(revision or 0, row.shell.sheets)
    place = (order.number, row.line, row.piece)
    return Scanned(book, current, row.shell.serial or "", revision, row.shell.sheet, changed, *place)


def draw_again(store: Store, actor: Actor, key: int, why: str, now: datetime, *, once: Once | None = None) -> None:
    """The next revision of a released shell's sheet, for a reason that is no change of its specification.

    Raises NotFound, BadInput, ShellStands, KeyReused, Underway.
    """
    checking.refuse((*checking.blank_faults("why", why), *checking.long_faults("why", why, checking.LONGEST_TEXT)))

    def write(db: Database) -> int:
        found = found_shell(store, db, actor, key, now)
        refuse_planned(found)
        revision = sheet_revisions.add(db, key, found.whole.today, actor.name, now, why=why)
        note_shell(db, found, "sheet-again", actor, now, revision=str(revision), why=why)
        return key

    perform(store, once, now, write)


def _order_of(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> Order:
    """What the shell is built for: an order, or the firm's stock. Raises NotFound."""
    in_stock = stock_floor.holding(store, db, key, now)
    if in_stock is not None:
        return in_stock.order
    return ordering.own_order(db, actor, shells.order_of(db, key) or "", now)


def _made_by(store: Store, actor: Actor, order: Order, now: datetime) -> tuple[Deal, int]:
    """The book that the shell is made by, on nobody's terms for stock; and how often a tool had changed by then."""
    if order.quotation:
        worked = _sheetful(store, actor, order, now).worked
        return worked.deal, worked.tools.number
    book = publishing.book(store, order.revision.book or 0)
    deal = Deal(book, Donor(), Tariff("", {}), order.revision.delivery_place, "", day_of(book, now))
    return deal, tool_states(store).number


def _behind(db: Database, code: str) -> tuple[int, str]:
    found = sheet_codes.behind(db, code)
    if found is None:
        raise NotFound(what="code", name=code)
    return found


def _address(store: Store, shell: Shell, url: str, now: datetime) -> str:
    """The same each time, while the sheet says the same."""
    with store.writing() as db:
        return f"{url}/s/{sheet_codes.code_of(db, shell.id, secrets.token_urlsafe(CODE_BYTES), now)}"


def _languages(book: Book) -> tuple[str, ...]:
    """Those that sheets are written in; the workshop's own is the book's first."""
    written = papering.languages(book.languages)
    return tuple(language for language in book.languages if language in written)


def _rows(order: Order) -> Iterator[SheetRow]:
    for line in order.lines:
        for shell in line.shells:
            yield SheetRow(line.position + 1, shell.place, shell, line.frozen_of(shell))


def _sheetful(store: Store, actor: Actor, order: Order, now: datetime) -> papering.Sheetful:
    """What the revision ordered was frozen with."""
    kind = (LANGUAGES[0], papering.SIZES[0])
    return handing_out.sheetful_of(store, actor, order.quotation, order.revision.letter, kind, now)


def _sheet(
    store: Store, made_by: tuple[Deal, int], order: Order, row: SheetRow, how: tuple[str, str], now: datetime,
    address: str,
) -> BuildSheet:  # fmt: skip
    (deal, tool_state), frozen, sheet = made_by, row.frozen, row.shell.sheet
    kept = kept_of(deal.book, deal.donor, frozen.settled, frozen.depends, frozen.verdicts)
    parts = (SheetPart(one.rule, tag_number(order.quotation, row.line, row.piece, one.rule)) for one in kept.sent)
    return BuildSheet(
        book=deal.book,
        firm=firm_of(store),
        order=order.number,
        line=row.line,
        piece=row.piece,
        revision=str(sheet.revision) if sheet else order.revision.letter,
        tool_state=tool_state,
        settled=frozen.settled,
        work=work_of(deal.book, deal.donor, frozen.settled),
        printed=day_of(deal.book, now),
        serial=row.shell.serial or "",
        dated=sheet.day if sheet else None,
        changed=sheet.changed if sheet else (),
        why=sheet.why if sheet else "",
        standing=frozen.standing,
        parts=tuple(parts),
        cautions=papering.standing_cautions(deal, frozen.settled, BUILD_SHEET),
        address=address,
        language=how[0],
        locale=locale_for(how[0]),
        size=how[1],
    )

"""Build sheets of an order's shells: which there are, and each one as a PDF. Made anew each time, never kept.

Whoever releases a shell hands in serial, revision and day as `Release`. A shell without a serial is planned, and its
sheet says that nobody builds from it. The code on a sheet tells anybody whether it still holds, and nothing else.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from app.documents.build_sheet import SIZES, BuildSheet, SheetPart, build_sheet_pdf
from app.documents.figures import locale_for
from app.domain.actor import Actor
from app.domain.errors import NotFound
from app.domain.order import Order, Shell
from app.services import checking, handing_out, ordering, papering
from app.services.pricing import day_of
from app.services.quoting import CODE_BYTES
from app.services.standard_lists import firm_of
from app.services.tagging import tag_number
from app.store import orders, sheet_codes
from app.store.db import Store
from app.wording import LANGUAGES
from rules.model import Book
from rules.work import work_of

#: On which of the firm's papers a standing caution of the book is printed.
BUILD_SHEET = "build-sheet"


@dataclass(frozen=True, slots=True)
class Release:
    """What release gives a shell."""

    serial: str
    revision: str
    day: date


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A shell that has a sheet; `line` and `piece` count from 1. `settled`: option → choice, as ordered."""

    line: int
    piece: int
    shell: Shell
    settled: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Sheets:
    """The shells of one order; `revision`: the letter of what was accepted. `languages`: the shop's own first."""

    order: str
    revision: str
    rows: tuple[SheetRow, ...]
    languages: tuple[str, ...]


def sheets_of(store: Store, actor: Actor, quotation: str, now: datetime) -> Sheets:
    """The build sheets of the order that this quotation became. Raises NotFound where there is none."""
    with store.reading() as db:
        found = orders.of_quotation(db, quotation, actor.dealer)
        if found is None:
            raise NotFound(what="order", name=quotation)
        order = ordering.own_order(db, actor, found[1], now)
    book = _sheetful(store, actor, order, now).worked.deal.book
    return Sheets(order.number, order.revision.letter, tuple(_rows(order)), _languages(book))


def build_sheet(
    store: Store, actor: Actor, number: str, at: tuple[int, int], how: tuple[str, str], now: datetime,
    *, url: str = "", release: Release | None = None,
) -> bytes:  # fmt: skip
    """The PDF of the shell at (line, piece), in (language, size); an empty language: the shop's own.

    `url`: where people reach the desk; the sheet's code says `{url}/s/{code}`, and where it is empty there is none.

    Raises NotFound, BadInput for a language or size that there is none in, DataErased.
    """
    order = ordering.order(store, actor, number, now)
    row = next((one for one in _rows(order) if (one.line, one.piece) == at), None)
    if row is None:
        raise NotFound(what="shell", name=f"{number}/{at[0]}.{at[1]}")
    sheetful = _sheetful(store, actor, order, now)
    languages = _languages(sheetful.worked.deal.book)
    language, size = how[0] or languages[0], how[1]
    checking.refuse([*checking.one_of("language", language, languages), *checking.one_of("size", size, tuple(SIZES))])
    address = _address(store, row.shell, url, now) if url else ""
    sheet = _sheet(store, sheetful, order, row, (language, size), now, release, address)
    with papering.PRESS:
        return build_sheet_pdf(sheet)


def still_current(store: Store, code: str) -> bool:
    """Whether a sheet with this code would be printed the same now. For anybody. Raises NotFound."""
    with store.reading() as db:
        found = sheet_codes.behind(db, code)
        if found is None:
            raise NotFound(what="code", name=code)
        return sheet_codes.says_now(db, found[0]) == found[1]


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
        settled = line.line.frozen.settled if line.line.frozen else {}
        for shell in line.shells:
            yield SheetRow(line.position + 1, shell.place, shell, settled)


def _sheetful(store: Store, actor: Actor, order: Order, now: datetime) -> papering.Sheetful:
    """What the revision ordered was frozen with."""
    kind = (LANGUAGES[0], papering.SIZES[0])
    return handing_out.sheetful_of(store, actor, order.quotation, order.revision.letter, kind, now)


def _sheet(
    store: Store, sheetful: papering.Sheetful, order: Order, row: SheetRow, how: tuple[str, str], now: datetime,
    release: Release | None, address: str,
) -> BuildSheet:  # fmt: skip
    deal = sheetful.worked.deal
    paper = papering.paper_of(sheetful, how[0], papering.SIZES[0])
    line = paper.shells[row.line - 1]
    parts = (SheetPart(one.rule, tag_number(order.quotation, row.line, row.piece, one.rule)) for one in line.kept.sent)
    return BuildSheet(
        book=deal.book,
        firm=firm_of(store),
        order=order.number,
        line=row.line,
        piece=row.piece,
        revision=release.revision if release else order.revision.letter,
        tool_state=sheetful.worked.tools.number,
        settled=line.settled,
        work=work_of(deal.book, deal.donor, line.settled),
        printed=day_of(deal.book, now),
        serial=release.serial if release else row.shell.serial or "",
        released=release.day if release else None,
        standing=line.standing,
        parts=tuple(parts),
        cautions=papering.standing_cautions(deal, line.settled, BUILD_SHEET),
        address=address,
        language=how[0],
        locale=locale_for(how[0]),
        size=how[1],
    )

"""Drafting a rule book: a copy of a published one, changed piece by piece or as text, every step kept.

A draft may have any number of mistakes; they are told where they stand. Nothing is in force until it is
published.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from functools import lru_cache

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.books.book_draft import Act, BookDraft, Step
from app.domain.errors import BadInput, BookRefused, ChangedByAnother, DraftClosed, Fault, NotFound
from app.services.answering.checking import refuse
from app.services.books import publishing
from app.services.books.publishing import Regions, anywhere
from app.services.once import Once, perform
from app.store import book_drafts as kept
from app.store import history
from app.store.db import Store
from rules.drafting import Entry, Piece, Sheet, entry_of, lines_of, rewritten, sheet_of
from rules.drafting import amounts as prices
from rules.drafting.forms import FORMS
from rules.drafting.wording import with_words, words_of
from rules.model import Book
from rules.reading import Mistake
from rules.reading.blocks import is_field_name
from rules.wordings import WORDINGS, written

#: Drafts shown in the list, the open ones first, and steps shown of one.
SHOWN, STEPS = 50, 100


@dataclass(frozen=True, slots=True)
class Spot:
    """A mistake and the block it stands in. `piece` and `row` (a line within it) from 0; None: in no block."""

    mistake: Mistake
    piece: int | None
    row: int | None


@dataclass(frozen=True, slots=True)
class Read:
    """What a draft's text says: the book where it is one, else what is wrong with it."""

    book: Book | None
    mistakes: tuple[Mistake, ...]


@dataclass(frozen=True, slots=True)
class Edit:
    """Who changes which draft, and the version that he saw."""

    actor: Actor
    draft: int
    version: int
    now: datetime


def begin(store: Store, actor: Actor, base: int | None, now: datetime, once: Once | None = None) -> BookDraft:
    """A draft that says what book `base` says, or the one in force. Raises NotFound, NoBook, KeyReused, Underway."""
    number = publishing.current_number(store, now) if base is None else base
    text = sheet_of(publishing.book_text(store, number)).text()

    def make(db: Database) -> int:
        made = kept.add(db, number, text, actor.name, now)
        history.add(db, "book-draft", str(made), "book-draft-begun", actor.name, now, book=str(number))
        return made

    return draft(store, perform(store, once, now, make))


def drafts(store: Store) -> tuple[BookDraft, ...]:
    """Open ones first, then the last closed."""
    with store.reading() as db:
        return kept.page(db, SHOWN)


def draft(store: Store, number: int) -> BookDraft:
    """Raises NotFound."""
    with store.reading() as db:
        return _got(db, number)


def seen(store: Store, edit: Edit) -> BookDraft:
    """The draft, open and as whoever edits it saw it. Raises NotFound, DraftClosed, ChangedByAnother."""
    with store.reading() as db:
        return _open(db, edit)


def steps(store: Store, number: int) -> tuple[Step, ...]:
    """What was done to it, the last first. Raises NotFound."""
    with store.reading() as db:
        return kept.steps(db, _got(db, number).id, STEPS)


@lru_cache(maxsize=8)
def read(text: str, regions: Regions = anywhere) -> Read:
    """The book that a draft's text says, or all its mistakes; `regions`: whose public holidays are known."""
    try:
        return Read(publishing.usable_book(text, "book", regions), ())
    except BookRefused as refused:
        return Read(None, tuple(refused.mistakes))


def spots(found: BookDraft, regions: Regions = anywhere) -> tuple[Spot, ...]:
    """Its mistakes, each in its block; `regions` as in `read`."""
    sheet = sheet_of(found.text)
    places = ((mistake, sheet.at(mistake.line)) for mistake in read(found.text, regions).mistakes)
    return tuple(Spot(mistake, at and at[0], at and at[1]) for mistake, at in places)


def rewrite(
    store: Store,
    edit: Edit,
    piece: int,
    entry: Entry,
) -> BookDraft:
    """Piece `piece` now says `entry`. Raises NotFound, DraftClosed, BadInput, ChangedByAnother."""
    refuse(_entry_faults(entry))

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        old = _piece(sheet, piece)
        return sheet.with_lines(piece, rewritten(old, _tidy(entry))), _head(entry)

    return _change(store, edit, Act.CHANGED, change)


def rewrite_text(
    store: Store,
    edit: Edit,
    piece: int,
    text: str,
) -> BookDraft:
    """Piece `piece` now has these lines. Raises as `rewrite`."""
    told = sheet_of(text.strip("\r\n")).text().rstrip("\n")
    lines, pieces = told.split("\n"), sheet_of(told).pieces
    if not pieces or pieces[0].above:
        raise BadInput([Fault("text", "no-block")])

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        _piece(sheet, piece)
        return sheet.with_lines(piece, lines), " ".join(lines[0].split())

    return _change(store, edit, Act.CHANGED, change)


def add(
    store: Store,
    edit: Edit,
    after: int,
    entry: Entry,
) -> BookDraft:
    """A new block after piece `after` (-1: before all). Raises as `rewrite`."""
    refuse(_entry_faults(entry))

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        if after >= 0:
            _piece(sheet, after)
        return sheet.with_after(after, lines_of(_tidy(entry))), _head(entry)

    return _change(store, edit, Act.ADDED, change)


def take_out(
    store: Store,
    edit: Edit,
    piece: int,
) -> BookDraft:
    """The block is gone; the step can be taken back. Raises as `rewrite`."""

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        head = _head(entry_of(_piece(sheet, piece)))
        return sheet.without(piece), head

    return _change(store, edit, Act.TAKEN_OUT, change)


def move(
    store: Store,
    edit: Edit,
    piece: int,
    to: int,
) -> BookDraft:
    """The block stands where `to` stood: the order of the text is the order in which things are shown. As `rewrite`."""

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        head = _head(entry_of(_piece(sheet, piece)))
        _piece(sheet, to)
        return sheet.moved(piece, to), head

    return _change(store, edit, Act.MOVED, change)


def write(
    store: Store,
    edit: Edit,
    text: str,
) -> BookDraft:
    """The whole text brought back, with whatever mistakes. Raises as `rewrite`."""
    return _change(store, edit, Act.WRITTEN, lambda _: (sheet_of(text), ""))


def raise_prices(
    store: Store, edit: Edit, names: Sequence[str], lists: Sequence[str], percent: Decimal, step: Decimal
) -> BookDraft:
    """These amounts on these lists by `percent`, half up to a multiple of `step` (major units). Raises as `rewrite`."""

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        refuse(_price_faults(sheet, names, lists))
        return prices.raised(sheet, names, lists, percent, step), f"{percent:+} %"

    return _change(store, edit, Act.RAISED, change)


def paste_prices(
    store: Store,
    edit: Edit,
    text: str,
) -> BookDraft:
    """The amounts of a sheet of prices, all of it or nothing. Raises as `rewrite`."""

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        new, faults = prices.with_csv(sheet, text)
        refuse(Fault(f"csv.{fault.line}", "told", {"what": fault.what, "instead": fault.instead}) for fault in faults)
        return new, ""

    return _change(store, edit, Act.PASTED, change)


def word(store: Store, edit: Edit, wording: str, texts: Mapping[str, str]) -> BookDraft:
    """A text of papers or letters that was as shipped until now, in the firm's own words. Raises as `rewrite`."""
    if wording not in WORDINGS:
        raise NotFound(what="book-text", name=wording)

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        if any(piece.words == ("wording", wording) for piece in sheet.pieces):
            raise NotFound(what="book-text", name=wording)
        said = tuple((f"text {code}", written(text)) for code, text in texts.items())
        return sheet.with_after(len(sheet.pieces) - 1, lines_of(Entry("wording", wording, said))), f"wording {wording}"

    return _change(store, edit, Act.ADDED, change)


def reword(store: Store, edit: Edit, piece: int, field: str, row: int | None, texts: Mapping[str, str]) -> BookDraft:
    """One text for readers in its languages, in its own place. Raises as `rewrite`, NotFound where there is none."""

    def change(sheet: Sheet) -> tuple[Sheet, str]:
        place = (piece, field, row)
        worded = next((one for one in words_of(sheet) if (one.piece, one.field, one.row) == place), None)
        if worded is None:
            raise NotFound(what="book-text", name=field)
        line = written if worded.kind == "wording" else _line
        said = {code: line(text) for code, text in texts.items() if code in worded.texts}
        return with_words(sheet, worded, said), _head(entry_of(_piece(sheet, piece)))

    return _change(store, edit, Act.CHANGED, change)


def take_back(store: Store, edit: Edit, version: int) -> BookDraft:
    """It says again what it said as `version`. Raises as `rewrite`."""
    with store.writing() as db:
        found = _open(db, edit)
        text = kept.text(db, found.id, version)
        if text is None:
            raise NotFound(what="book-draft", name=f"{edit.draft}/{version}")
        _write(db, edit, text, Act.TAKEN_BACK, str(version))
        return _got(db, edit.draft)


def throw_away(store: Store, edit: Edit) -> BookDraft:
    """Closed; its texts are kept. Raises as `rewrite`."""
    with store.writing() as db:
        found = _open(db, edit)
        kept.close(db, found.id, edit.actor.name, edit.now)
        history.add(db, "book-draft", str(found.id), "book-draft-thrown-away", edit.actor.name, edit.now)
        return _got(db, found.id)


def close_as(store: Store, edit: Edit, publish: Callable[[], int]) -> None:
    """Closed as the book that `publish` makes, both or neither. Raises as `rewrite`."""
    with store.writing() as db:
        found = _open(db, edit)
        kept.close(db, found.id, edit.actor.name, edit.now, publish())


def _change(store: Store, edit: Edit, act: Act, change: Callable[[Sheet], tuple[Sheet, str]]) -> BookDraft:
    """One step. A step that changes nothing leaves no version."""
    with store.writing() as db:
        found = _open(db, edit)
        new, about = change(sheet_of(found.text))
        if (text := new.text()) != found.text:
            _write(db, edit, text, act, about)
        return _got(db, edit.draft)


def _write(db: Database, edit: Edit, text: str, act: Act, about: str) -> None:
    kept.write(db, edit.draft, edit.version + 1, text, act, about, edit.actor.name, edit.now)


def _got(db: Database, number: int) -> BookDraft:
    found = kept.get(db, number)
    if found is None:
        raise NotFound(what="book-draft", name=str(number))
    return found


def _open(db: Database, edit: Edit) -> BookDraft:
    """The draft, which can be changed and was not since it was seen."""
    found = _got(db, edit.draft)
    if not found.is_open:
        why = "thrown-away" if found.book is None else "published"
        raise DraftClosed(number=str(found.id), why=why, by=found.closed_by)
    if found.step.version != edit.version:
        raise ChangedByAnother(what="book-draft", name=str(found.id), expected=edit.version, actual=found.step.version)
    return found


def _piece(sheet: Sheet, number: int) -> Piece:
    if not 0 <= number < len(sheet.pieces):
        raise NotFound(what="book-piece", name=str(number))
    return sheet.pieces[number]


def _head(entry: Entry) -> str:
    return " ".join(word for word in (entry.kind, entry.name) if word)


def _tidy(entry: Entry) -> Entry:
    """One line for each value: line ends and runs of spaces are one space, as the reader takes them."""
    fields = tuple((name, _line(value)) for name, value in entry.fields)
    rows = tuple(tuple(map(_line, row)) for row in entry.rows)
    return Entry(entry.kind, _line(entry.name), fields, rows)


def _line(text: str) -> str:
    return " ".join(text.split())


def _entry_faults(entry: Entry) -> list[Fault]:
    """What would not come out of the text again as it went in."""
    faults = [] if entry.kind in FORMS else [Fault("kind", "not-one-of", {"allowed": ", ".join(FORMS)})]
    faults += [Fault(f"fields.{at}.name", "invalid") for at, (name, _) in enumerate(entry.fields)
               if not is_field_name(name)]  # fmt: skip
    widths = {len(row) for row in entry.rows}
    return faults if len(widths) <= 1 else [*faults, Fault("rows", "not-as-wide")]


def _price_faults(sheet: Sheet, names: Sequence[str], lists: Sequence[str]) -> list[Fault]:
    known = {priced.name for priced in prices.amounts_of(sheet)}
    unpriced = [Fault(f"prices.{at}", "unknown-price", {"name": name})
                for at, name in enumerate(names) if name not in known]  # fmt: skip
    strange = [Fault(f"lists.{at}", "unknown-list", {"name": each})
               for at, each in enumerate(lists) if each not in prices.lists_of(sheet)]  # fmt: skip
    return [*unpriced, *strange]

"""Publishing rule books and having them again by number. A published book never changes; going back publishes again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import datetime

from sqlite_utils import Database

from app.documents.drawings.drawing import known_elements, unknown_elements
from app.documents.drawings.sketch import known_sketches, sides_of, strange_sides, unknown_sketches
from app.domain.asking.actor import Actor
from app.domain.books.published import Published
from app.domain.errors import AlreadyPublished, BookRefused, NoBook, NotFound
from app.services.books.compiling import order_of
from app.services.books.shelf import books_of
from app.store import books, history, tools
from app.store.db import Store
from rules.model import Book, Place
from rules.reading import BookMistakes, Mistake, read_book
from rules.reading.mistakes import Sentence, listed, offer, sentence

#: Whether public holidays are known for a country and its subdivision (ISO 3166): looked up at the service's edge.
Regions = Callable[[str, str | None], bool]

__all__ = ["Published", "book", "book_text", "current_book", "current_number", "publish_book", "published_books",
           "usable_book"]  # fmt: skip


def anywhere(country: str, subdivision: str | None) -> bool:
    """For whoever has no list of holidays at hand."""
    return True


def publish_book(
    store: Store,
    actor: Actor,
    text: str,
    now: datetime,
    *,
    file: str = "book",
    note: str = "",
    valid_from: datetime | None = None,
    regions: Regions = anywhere,
) -> int:
    """The new book's number. Raises BookRefused with every mistake, AlreadyPublished."""
    read = usable_book(text, file, regions)
    order = _order(store, read)
    with store.writing() as db:
        _refuse_the_same(db, text, now)
        number = books.add(db, read.title, text, actor.name, now, valid_from or now, note, order)
        history.add(db, "book", str(number), "book-published", actor.name, now)
    return number


def current_number(store: Store, now: datetime) -> int:
    """The number of the book in force at `now`. Raises NoBook."""
    with store.reading() as db:
        number = books.number_in_force(db, now)
    if number is None:
        raise NoBook(number=None)
    return number


def current_book(store: Store, now: datetime) -> Book:
    """The book in force at `now`, its `number` set. Raises NoBook."""
    return book(store, current_number(store, now))


def book(store: Store, number: int) -> Book:
    """A published book by its number. Raises NotFound."""

    def make() -> Book:
        return replace(_read(book_text(store, number), "book", published=True), number=number)

    return books_of(store).have(number, make)


def book_text(store: Store, number: int) -> str:
    """The text as it was published. Raises NotFound."""
    with store.reading() as db:
        text = books.text(db, number)
    if text is None:
        raise NotFound(what="book", name=str(number))
    return text


def published_books(store: Store) -> tuple[Published, ...]:
    """All of them, the newest first."""
    with store.reading() as db:
        return books.entries(db)


def usable_book(text: str, file: str, regions: Regions) -> Book:
    """The book that the text says, drawn with what the line art knows, its holidays known. Raises BookRefused."""
    read = _read(text, file)
    unknown = [*_not_drawn(read, file), *_unknown_region(read, text, file, regions)]
    if unknown:
        raise BookRefused(sorted(unknown, key=lambda mistake: mistake.line))
    return read


def _not_drawn(read: Book, file: str) -> Iterator[Mistake]:
    """What the book names and the line art lacks."""
    for row in unknown_elements(read):
        yield _at(
            file,
            row.place,
            sentence("the line art has no element “{element}”", element=row.element),
            offer(row.element, known_elements()),
        )
    for cut in unknown_sketches(read):
        yield _at(
            file,
            cut.place,
            sentence("the line art has no sketch “{sketch}”", sketch=cut.sketch),
            offer(cut.sketch, known_sketches()),
        )
    for cut in read.cuts:
        for side in strange_sides(cut):
            what = sentence("the sketch “{sketch}” doesn't show the side “{side}”", sketch=cut.sketch, side=side)
            yield _at(
                file, cut.place, what, sentence("take the margin out, or name {sides}", sides=listed(sides_of(cut)))
            )


def _at(file: str, place: Place | None, what: Sentence, instead: Sentence) -> Mistake:
    return Mistake(file, 1 if place is None else place.line, what, instead)


def _unknown_region(read: Book, text: str, file: str, regions: Regions) -> Iterator[Mistake]:
    country, subdivision = read.calendar.country, read.calendar.subdivision
    if regions(country, subdivision):
        return
    region = f"{country}-{subdivision}" if subdivision else country
    line = next(at for at, row in enumerate(text.splitlines(), 1) if row.strip().startswith("holidays:"))
    what = sentence("no public holidays are known for “{region}”", region=region)
    instead = sentence("write an ISO 3166 country that has them, or one of its parts, like GB-ENG or FR")
    yield Mistake(file, line, what, instead)


def _read(text: str, file: str, *, published: bool = False) -> Book:
    try:
        return read_book(text, file, published=published)
    except BookMistakes as mistakes:
        raise BookRefused(mistakes.mistakes) from None


def _order(store: Store, read: Book) -> tuple[str, ...]:
    """Searched for with the tools as they stand; the diagram's size may hang on them, never what it says."""
    with store.reading() as db:
        conditions = tools.at(db, tools.last_number(db)).conditions()
    return order_of(read, conditions)


def _refuse_the_same(db: Database, text: str, now: datetime) -> None:
    number = books.number_in_force(db, now)
    if number is not None and books.text(db, number) == text:
        raise AlreadyPublished(number=number)

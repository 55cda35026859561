"""What the workshop may have to build: quotations that are out, in date or accepted. To read, and without any money.

Nothing of what comes from here as work to come holds an amount, so nothing that is shown of it can. Only what is about
to lapse, which is the manager's to see, is told with what it comes to.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from app.domain.errors import NotFound
from app.domain.paging import SIZE, Page
from app.domain.quotations.enquiry import DonorCar
from app.domain.quotations.quotation import EarlierYes, Standing
from app.services.books.publishing import book as book_of
from app.services.planning.readying import Ready, ready_of
from app.services.quotations.approved import still_open
from app.services.quotations.enquiring import words_of
from app.store import issued, promises
from app.store.db import Store
from app.store.issued import IssuedLine, IssuedRevision
from app.store.promises import Promise
from rules.answer import Depends, State, Verdict
from rules.model import Book


@dataclass(frozen=True, slots=True)
class LineToCome:
    """So many shells of one specification. `standing`: option → usual, chosen or forced."""

    quantity: int
    settled: Mapping[str, str]
    standing: Mapping[str, State]
    verdicts: tuple[Verdict, ...]
    depends: Depends
    ready: Ready | None


@dataclass(frozen=True, slots=True)
class WorkToCome:
    """The last revision that is out, as the workshop sees it. `valid_until`: the first moment at which it has lapsed.

    `earlier_yes`: the customer had accepted an earlier one, whose place this has taken. `awaits`: rules whose approval
    is still to be given.
    """

    number: str
    letter: str
    accepted: bool
    book: int
    customer: str
    donor: DonorCar
    wanted_by: date | None
    issued_at: datetime
    valid_until: datetime | None
    lines: tuple[LineToCome, ...]
    earlier_yes: EarlierYes | None = None
    awaits: tuple[str, ...] = ()


def work_to_come(
    store: Store, now: datetime, *, text: str = "", after: int | None = None, size: int = SIZE
) -> Page[WorkToCome]:
    """The last issued first, from `after` on; `text` is sought as among quotations."""
    words = words_of(store, text, now)
    with store.reading() as db:
        found = issued.to_come(db, now, words, size, after)
    some_given = still_open(store, [one.number for one in found.rows])
    return found.of(lambda one: _work(store, one, some_given))


def one_work_to_come(store: Store, number: str, now: datetime) -> WorkToCome:
    """That quotation's revision that may still be built. Raises NotFound."""
    with store.reading() as db:
        found = issued.one_to_come(db, number, now)
    if found is None:
        raise NotFound(what="quotation", name=number)
    return _work(store, found, still_open(store, [number]))


#: Days within which what lapses is looked at beforehand.
SOON = 7


def about_to_lapse(store: Store, now: datetime, days: int = SOON) -> list[Promise]:
    """What is out, unanswered, and lapses within so many days: the first to lapse first."""
    with store.reading() as db:
        return [*promises.lapsing(db, now, now + timedelta(days=days))]


def _work(store: Store, revision: IssuedRevision, some_given: Mapping[str, tuple[str, ...]]) -> WorkToCome:
    """`some_given`: quotation → what is still to be approved, of those on which something has been."""
    book, frozen = book_of(store, revision.book), revision.frozen
    needed = tuple(dict.fromkeys(rule for line in revision.lines for rule in line.frozen.depends.approvals))
    return WorkToCome(
        number=revision.number,
        letter=revision.letter,
        accepted=revision.standing is Standing.ACCEPTED,
        book=revision.book,
        customer=frozen.customer.name,
        donor=frozen.donor,
        wanted_by=revision.wanted_by,
        issued_at=revision.issued_at,
        valid_until=revision.valid_until,
        lines=tuple(_line(book, frozen.donor, line) for line in revision.lines),
        earlier_yes=revision.earlier_yes,
        awaits=some_given.get(revision.number, needed),
    )


def _line(book: Book, donor: DonorCar, line: IssuedLine) -> LineToCome:
    frozen = line.frozen
    ready = ready_of(book, frozen.settled, donor.facts(), frozen.depends)
    return LineToCome(line.quantity, frozen.settled, frozen.standing, frozen.verdicts, frozen.depends, ready)

"""A safety fault: something in shells may hurt somebody. Which shells it concerns, and how far each has come. Pure.

Unlike a tool that is down it also stops what is past its stage: the fault is in the shell.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import Enum

from app.domain.customers.customer import Customer
from app.domain.floor.shell import OVER, ShellState
from rules.condition import Condition, Is
from rules.donor.resolve import domains_of, holds_with
from rules.making import Operation, Zone
from rules.model import Book
from rules.specification import Donor


class Subject(Enum):
    """What is at fault. BOOKS: whatever was ordered by the rule books of a range of numbers."""

    CHOICE = "choice"
    TOOL = "tool"
    OPERATION = "operation"
    ZONE = "zone"
    BOOKS = "books"


@dataclass(frozen=True, slots=True)
class AtFault:
    """`of`: `option.choice`, the id of a tool, operation or zone, or `first-last`, numbers of books.

    `since`: the day from which on what was done may be at fault; None: from the first shell.
    """

    subject: Subject
    of: str
    since: date | None = None

    @property
    def books(self) -> range:
        """Of BOOKS: the numbers."""
        first, last = self.of.split("-")
        return range(int(first), int(last) + 1)

    @property
    def choice(self) -> tuple[str, str]:
        """Of CHOICE: option and choice."""
        option, _, choice = self.of.partition(".")
        return option, choice


@dataclass(frozen=True, slots=True)
class Lifted:
    at: datetime
    by: str
    why: str


@dataclass(frozen=True, slots=True)
class Written:
    """Somebody has sent the owner of a despatched shell the letter."""

    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class SafetyFault:
    """`why` in each language in which it was said, at least one: what is wrong, as owners read it."""

    id: int
    at_fault: AtFault
    why: Mapping[str, str]
    at: datetime
    by: str
    lifted: Lifted | None = None


@dataclass(frozen=True, slots=True)
class Owner:
    """A despatched shell with whom to write to about it, the letter in his language, and whether that was sent.

    `place`: of the shell in its order; `untold`: what is wrong was not said in his language: the letter has another.
    """

    id: int
    serial: str
    order: str
    place: int
    customer: Customer
    dealer: str | None
    despatched: date
    language: str
    untold: bool
    subject: str
    text: str
    written: Written | None


@dataclass(frozen=True, slots=True)
class Built:
    """A shell as far as a fault asks. `done`: stage → the day, where the firm is, on which it was done."""

    book: Book
    donor: Donor
    settled: Mapping[str, str]
    state: ShellState = ShellState.PLANNED
    done: Mapping[str, date] = field(default_factory=dict)


class Reached(Enum):
    """What a fault does with a shell it concerns, by how far that has come."""

    NOT_RELEASED = "not-released"
    STOPPED = "stopped"
    DESPATCHED = "despatched"


_NOTHING_LEFT = (ShellState.READY, ShellState.DESPATCHED)


def reached(state: ShellState) -> Reached | None:
    """None of a shell that is over."""
    if state in OVER:
        return None
    if state is ShellState.DESPATCHED:
        return Reached.DESPATCHED
    return Reached.NOT_RELEASED if state is ShellState.PLANNED else Reached.STOPPED


def concerns(fault: AtFault, built: Built) -> bool:
    """Whether the fault may be in the shell: it is made so, and was not past that stage before the day.

    Where nobody can say at which stage the fault comes in, any stage done since may have brought it.
    """
    return made_so(fault, built.book, built.donor, built.settled) and not _past_before(fault, built)


def made_so(fault: AtFault, book: Book, donor: Donor, settled: Mapping[str, str]) -> bool:
    """Whether what is at fault is in what is made by that book for that donor car, with these choices."""
    if fault.subject is Subject.BOOKS:
        return book.number in fault.books
    domains = domains_of(book)
    conditions = tuple(_conditions(fault, book))
    return bool(conditions) and all(holds_with(when, book, donor, settled, domains) for when in conditions)


def known(fault: AtFault, book: Book) -> bool:
    """Whether the book has such a thing."""
    return fault.subject is Subject.BOOKS or any(True for _ in _conditions(fault, book))


def stage_of(fault: AtFault, book: Book) -> str | None:
    """The stage at which the fault comes in; None where the book doesn't say, or nobody can."""
    if fault.subject is Subject.TOOL:
        return next((tool.stage for tool in book.tools if tool.id == fault.of), None)
    operation = _operation(fault, book)
    return None if operation is None else operation.stage


def _conditions(fault: AtFault, book: Book) -> Iterable[Condition]:
    """When the shell is made so, all of them together; none where the book has no such thing."""
    match fault.subject:
        case Subject.CHOICE:
            option, choice = fault.choice
            if choice in domains_of(book).get(option, ()):
                yield Is(option, frozenset((choice,)))
        case Subject.TOOL:
            yield from (tool.needed_for for tool in book.tools if tool.id == fault.of)
        case Subject.OPERATION | Subject.ZONE:
            operation, zone = _operation(fault, book), _zone(fault, book)
            yield from () if operation is None else (operation.when,)
            yield from () if zone is None else (zone.when,)


def _zone(fault: AtFault, book: Book) -> Zone | None:
    zones = book.making.zones if fault.subject is Subject.ZONE else ()
    return next((zone for zone in zones if zone.id == fault.of), None)


def _operation(fault: AtFault, book: Book) -> Operation | None:
    zone = _zone(fault, book)
    id_ = fault.of if fault.subject is Subject.OPERATION else zone and zone.operation
    return next((each for each in book.making.operations if each.id == id_), None)


def _past_before(fault: AtFault, built: Built) -> bool:
    """A shell with nothing left to do is past every stage."""
    stage = stage_of(fault, built.book)
    ended = max(built.done.values(), default=None) if built.state in _NOTHING_LEFT else None
    day = ended if stage is None else built.done.get(stage)
    return fault.since is not None and day is not None and day < fault.since

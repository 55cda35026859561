"""Safety faults: said by the manager once he has seen what follows, lifted with a reason, and who is to be written to.

What is at fault stops shells by the same means as a tool that is down; no list of what it stops is kept, since a shell
that is changed, released or despatched meanwhile would be missing from it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, FaultLifted, NotFound, ShellStands
from app.domain.floor.safety import AtFault, Owner, Reached, SafetyFault, Subject, Written, known, made_so
from app.domain.quotations.quotation import Standing
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books import publishing
from app.services.books.consequences import Touched, touched
from app.services.books.publishing import book as book_of
from app.services.floor import overseeing
from app.services.floor.overseeing import OnFloor
from app.services.letters.writing import day_in_words, language_of, sender_of, worded
from app.services.once import Once, perform
from app.store import history, promises
from app.store import safety as kept
from app.store.db import Store
from app.store.promises import Promise, PromisedLine
from app.wording import LANGUAGES
from rules.model import Book


@dataclass(frozen=True, slots=True)
class Concerned:
    """Shells by how far each has come, and what is promised or being written that is made so."""

    not_released: tuple[OnFloor, ...]
    stopped: tuple[OnFloor, ...]
    despatched: tuple[OnFloor, ...]
    accepted: tuple[Touched, ...] = ()
    issued: tuple[Touched, ...] = ()
    drafts: tuple[Touched, ...] = ()


def consequences(store: Store, at_fault: AtFault, now: datetime) -> Concerned:
    """Were that said to be at fault. Changes nothing. Raises BadInput, NoBook."""
    book = publishing.current_book(store, now)
    refuse(_subject_faults(at_fault, book))
    with store.reading() as db:
        out, drafts = promises.out(db, now), promises.drafts(db)
    so = tuple(touched(out, lambda promise, line: _made_so(store, at_fault, promise, line)))
    return Concerned(
        *_by_reach(store, at_fault, now),
        accepted=tuple(one for one in so if one.promise.standing is Standing.ACCEPTED),
        issued=tuple(one for one in so if one.promise.standing is Standing.ISSUED),
        drafts=tuple(touched(drafts, lambda promise, line: made_so(at_fault, book, promise.donor, line.made))),
    )


def say_fault(
    store: Store, actor: Actor, at_fault: AtFault, why: Mapping[str, str], now: datetime, *, once: Once | None = None
) -> int:
    """From this moment on no shell that it concerns goes on. Raises BadInput, NoBook, KeyReused, Underway.

    What follows may have grown since it was shown: a stop waits for no second look.
    """
    book = publishing.current_book(store, now)
    told = {language: text.strip() for language, text in why.items() if text.strip()}
    refuse((*_subject_faults(at_fault, book), *_why_faults(told), *_since_faults(at_fault, day_of(book, now))))

    def write(db: Database) -> int:
        key = kept.add(db, at_fault, told, actor.name, now)
        history.add(db, "safety-fault", str(key), "safety-said", actor.name, now, why=next(iter(told.values())))
        return key

    return int(perform(store, once, now, write))


def lift(store: Store, actor: Actor, fault: int, why: str, now: datetime, *, once: Once | None = None) -> None:
    """What it stopped may go on. Raises NotFound, BadInput, FaultLifted, KeyReused, Underway."""
    refuse((*blank_faults("why", why), *long_faults("why", why, LONGEST_TEXT)))
    book = publishing.current_book(store, now)

    def write(db: Database) -> int:
        found = _found(db, fault)
        if found.lifted is not None:
            raise FaultLifted(by=found.lifted.by, day=day_of(book, found.lifted.at))
        kept.lift(db, fault, why.strip(), actor.name, now)
        history.add(db, "safety-fault", str(fault), "safety-lifted", actor.name, now, why=why.strip())
        return fault

    perform(store, once, now, write)


def faults(store: Store) -> tuple[SafetyFault, ...]:
    """Those that stand and those that were lifted, the last said first."""
    with store.reading() as db:
        return kept.every(db)


def fault(store: Store, key: int, now: datetime) -> tuple[SafetyFault, Concerned]:
    """With the shells that it concerns as they stand now. Raises NotFound."""
    with store.reading() as db:
        found = _found(db, key)
    return found, Concerned(*_by_reach(store, found.at_fault, now))


def owners(store: Store, actor: Actor, key: int, now: datetime) -> tuple[Owner, ...]:
    """One for each despatched shell that the fault concerns, with a letter. Raises NotFound."""
    found, concerned = fault(store, key, now)
    with store.reading() as db:
        written, sender = kept.written(db, key), sender_of(db, actor)
    from_us = {"author": actor.display_name, "sender": sender}
    book = publishing.current_book(store, now)
    return tuple(owner_of(book, one, found, written.get(one.shell.id), from_us) for one in concerned.despatched)


def record_written(
    store: Store, actor: Actor, key: int, shell: int, now: datetime, *, once: Once | None = None
) -> None:
    """A person has sent the letter about this shell. Raises NotFound, ShellStands, KeyReused, Underway."""
    owner = next((one for one in owners(store, actor, key, now) if one.id == shell), None)
    if owner is None:
        raise ShellStands(serial="", why="not-despatched")

    def write(db: Database) -> int:
        kept.write(db, key, shell, owner.text, actor.name, now)
        history.add(db, "safety-fault", str(key), "safety-written", actor.name, now, serial=owner.serial)
        return shell

    perform(store, once, now, write)


def _found(db: Database, key: int) -> SafetyFault:
    found = kept.get(db, key)
    if found is None:
        raise NotFound(what="safety-fault", name=str(key))
    return found


def _by_reach(
    store: Store, at_fault: AtFault, now: datetime
) -> tuple[tuple[OnFloor, ...], tuple[OnFloor, ...], tuple[OnFloor, ...]]:
    found = overseeing.concerned(store, at_fault, now)
    planned, stopped, gone = (tuple(one for one, how in found if how is each) for each in Reached)
    return planned, stopped, gone


def _made_so(store: Store, at_fault: AtFault, promise: Promise, line: PromisedLine) -> bool:
    """Of what is out, by its own book: every option is settled there."""
    return made_so(at_fault, book_of(store, promise.book or 0), promise.donor, line.made)


def owner_of(
    book: Book, one: OnFloor, fault: SafetyFault, written: Written | None, from_us: Mapping[str, str]
) -> Owner:
    """The letter speaks as the `book` in force words it; `from_us`: author and sender. Leaving is its last deed."""
    customer, shell = one.order.frozen.customer, one.shell
    language = language_of(customer.language)
    despatched = day_of(one.book, shell.deeds[-1].at)
    slots = {
        "name": customer.name,
        "serial": shell.serial or "",
        "order": one.order.number,
        "day": day_in_words(despatched, language, customer.country),
        "why": fault.why.get(language) or next(iter(fault.why.values())),
    }
    return Owner(
        id=shell.id,
        serial=shell.serial or "",
        order=one.order.number,
        place=one.seat.place,
        customer=customer,
        dealer=one.order.dealer,
        despatched=despatched,
        language=language,
        untold=language not in fault.why,
        subject=worded(book, "letter.safety-subject", language, **slots),
        text=worded(book, "letter.safety", language, **slots, **from_us).strip(),
        written=written,
    )


def _subject_faults(at_fault: AtFault, book: Book) -> Iterator[Fault]:
    if at_fault.subject is Subject.BOOKS:
        first, _, last = at_fault.of.partition("-")
        numbers = [int(text) for text in (first, last) if text.isascii() and text.isdigit() and len(text) < 10]
        if len(numbers) != 2 or not 1 <= numbers[0] <= numbers[1] <= book.number:
            yield Fault("of", "no-such-books", {"last": book.number})
    elif not known(at_fault, book):
        yield Fault("of", "not-in-book")


def _why_faults(told: Mapping[str, str]) -> Iterator[Fault]:
    """In one language it must be said; a letter in the other says it in that, too, rather than wait."""
    if not told:
        yield Fault("why", "required")
    for language, text in told.items():
        if language not in LANGUAGES:
            yield Fault(f"why.{language}", "invalid")
        yield from long_faults(f"why.{language}", text, LONGEST_TEXT)


def _since_faults(at_fault: AtFault, today: date) -> Iterator[Fault]:
    if at_fault.since is not None and at_fault.since > today:
        yield Fault("since", "in-the-future")

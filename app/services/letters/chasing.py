"""What is out and unanswered, the texts to send about it, and the record that one was sent. This desk sends nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Fault, NotIssued
from app.domain.paging import SIZE, Page, Position
from app.domain.quotations.approval import fingerprint, structure_of
from app.domain.quotations.chasing import Kind, Pressing, Sending, Sent, fitting, pressing
from app.domain.quotations.quotation import Frozen, Quotation, Revision, Standing
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.letters.writing import day_in_words, language_of, sender_of, worded
from app.services.once import Once, perform
from app.services.quotations.owned import note, own_quotation, own_revision, revision_of
from app.store import approvals
from app.store import chasing as kept
from app.store.chasing import Unanswered
from app.store.db import Store
from app.wording import say
from rules.model import Book


@dataclass(frozen=True, slots=True)
class Chased:
    """A quotation to be chased. `parts`, `approvals`: ids of rules that must still be met; `last`: written to him."""

    out: Unanswered
    standing: Standing
    pressing: Pressing
    last: Sent | None
    parts: tuple[str, ...]
    approvals: tuple[str, ...]
    fits: tuple[Kind, ...]


@dataclass(frozen=True, slots=True)
class Letter:
    """A whole text to be copied into whatever sends it. `fits`: whether it suits the revision as it stands."""

    kind: Kind
    language: str
    subject: str
    text: str


def to_chase(
    store: Store,
    actor: Actor,
    now: datetime,
    *,
    lapsed: bool = False,
    after: Position | None = None,
    size: int = SIZE,
) -> Page[Chased]:
    """What lapses first comes first; of what has lapsed unanswered, the last lapsed. `after`: where a page ended."""
    with store.reading() as db:
        found = kept.unanswered(db, actor.dealer, now, lapsed=lapsed, size=size, after=after)
        last = {row.number: kept.last_sent(db, row.number) for row in found.rows}
        given = approvals.granted(db, [row.number for row in found.rows])
    return found.of(lambda row: _chased(store, row, last[row.number], given.get(row.number, frozenset()), now))


def letters(
    store: Store, actor: Actor, number: str, letter: str, now: datetime, language: str | None = None
) -> tuple[Letter, ...]:
    """The texts that suit the revision as it stands, in that language or the customer's. Raises NotFound, BadInput."""
    with store.reading() as db:
        quotation = own_quotation(db, actor, number, now)
        revision = revision_of(quotation, letter)
        sender = sender_of(db, actor)
    frozen = revision.frozen
    if frozen is None:
        return ()
    wanted = language or language_of(frozen.customer.language)
    from_us = {"author": actor.display_name, "sender": sender}
    book = current_book(store, now)
    return tuple(_letters(store, book, quotation, revision, frozen, wanted, from_us))


def sent(store: Store, actor: Actor, number: str, now: datetime) -> tuple[Sent, ...]:
    """Everything that was recorded as sent about the quotation, the oldest first. Raises NotFound."""
    with store.reading() as db:
        own_quotation(db, actor, number, now)
        return kept.sent(db, number)


def record_sent(
    store: Store, actor: Actor, number: str, letter: str, sending: Sending, now: datetime, *, once: Once | None = None
) -> None:
    """A person has sent it. Raises NotFound, NotIssued, BadInput, KeyReused, Underway."""

    def record(db: Database) -> str:
        revision = own_revision(db, actor, number, letter, now)
        if revision.book is None:
            raise NotIssued(number=number, letter=letter)
        book = book_of(store, revision.book)
        day = sending.sent_on or day_of(book, now)
        refuse(_faults(book, revision, sending, day, now))
        kept.add(db, revision.id, replace(sending, sent_on=day), actor.name, now)
        what = f"sent-{sending.kind.value}"
        note(db, number, letter, what, actor, now, to=sending.addressee, day=day.isoformat())
        return letter

    perform(store, once, now, record)


def _faults(book: Book, revision: Revision, sending: Sending, day: date, now: datetime) -> Iterator[Fault]:
    yield from blank_faults("to", sending.addressee)
    yield from long_faults("to", sending.addressee)
    yield from long_faults("text", sending.text, LONGEST_TEXT)
    if day > day_of(book, now):
        yield Fault("sent_on", "in-the-future")
    elif revision.issued_at is not None and day < day_of(book, revision.issued_at):
        yield Fault("sent_on", "before-issue")


def _chased(
    store: Store, row: Unanswered, last: Sent | None, given: frozenset[tuple[str, str]], now: datetime
) -> Chased:
    book = book_of(store, row.book)
    standing = Standing.LAPSED if now >= row.valid_until else Standing.ISSUED
    parts = tuple(dict.fromkeys(rule for _, depends in row.lines for rule in depends.parts))
    last_day = day_of(book, row.valid_until - timedelta(microseconds=1))
    contact = None if last is None else last.sending.sent_on
    return Chased(
        out=row,
        standing=standing,
        pressing=pressing(last_day, day_of(book, row.issued_at), contact, day_of(book, now)),
        last=last,
        parts=parts,
        approvals=tuple(dict.fromkeys(_open(book, row, given))),
        fits=fitting(standing, bool(parts)),
    )


def _open(book: Book, row: Unanswered, given: frozenset[tuple[str, str]]) -> Iterator[str]:
    for settled, depends in row.lines:
        mark = fingerprint(structure_of(book, settled)) if depends.approvals else ""
        yield from (rule for rule in depends.approvals if (rule, mark) not in given)


def _letters(
    store: Store,
    book: Book,
    quotation: Quotation,
    revision: Revision,
    frozen: Frozen,
    language: str,
    sender: Mapping[str, str],
) -> Iterator[Letter]:
    """As the `book` in force words them."""
    parts = tuple(dict.fromkeys(rule for line in revision.lines if line.frozen for rule in line.frozen.depends.parts))
    slots = _slots(store, quotation, revision, frozen, language, parts)
    for kind in fitting(revision.standing, bool(parts)):
        key = f"letter.{kind.value}" + ("-parts" if parts and kind is Kind.OFFER else "")
        subject = worded(book, f"letter.{kind.value}-subject", language, **slots)
        yield Letter(kind, language, subject, worded(book, key, language, **slots, **sender).strip())


def _slots(
    store: Store, quotation: Quotation, revision: Revision, frozen: Frozen, language: str, parts: Sequence[str]
) -> dict[str, str]:
    book = book_of(store, revision.book or 0)
    return {
        "name": frozen.customer.name,
        "number": quotation.number,
        "letter": revision.letter,
        "issued": _day(book, revision.issued_at, language, frozen.customer.country),
        "valid": _day(book, _last_moment(revision), language, frozen.customer.country),
        "parts": "\n".join(_part(book, rule, language) for rule in parts),
    }


def _last_moment(revision: Revision) -> datetime | None:
    return None if revision.valid_until is None else revision.valid_until - timedelta(microseconds=1)


def _day(book: Book, at: datetime | None, language: str, country: str) -> str:
    return "–" if at is None else day_in_words(day_of(book, at), language, country)


def _part(book: Book, rule_id: str, language: str) -> str:
    rule = next(one for one in book.rules if one.id == rule_id)
    words = {name: getattr(rule, name).get(language) or next(iter(getattr(rule, name).values()), rule_id) for name in
             ("part", "reason")}  # fmt: skip
    return say("letter.part", language, rule=rule_id, **words)

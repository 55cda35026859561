"""Quotations: drafted, priced, issued, revised.

Issuing freezes: nothing that is published, or breaks, later changes what is out.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import ChangedByAnother, DraftStands, Refusal, YesStands
from app.domain.paging import SIZE, Page
from app.domain.quotations.changes import Changes
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import (
    DeliveryPlace,
    Draft,
    Imprint,
    Outcome,
    Quotation,
    QuotationRow,
    Revision,
    Standing,
    lapses_at,
    next_letter,
)
from app.services.answering import checking
from app.services.answering.pricing import day_of, quoted_in, tariff_of
from app.services.answering.specifying import Answered
from app.services.books.publishing import current_book
from app.services.once import Once, already, perform
from app.services.planning.dating import Working
from app.services.quotations import papering
from app.services.quotations.approving import at_issue
from app.services.quotations.comparing import changes_of
from app.services.quotations.enquiring import own_enquiry, running_name, words_of
from app.services.quotations.handing_out import imprint_of
from app.services.quotations.owned import draft_of, note, opened, own_quotation, own_revision
from app.services.quotations.ranging import foreseen
from app.services.quotations.requesting import at_issue as answer_requests
from app.services.quotations.working_out import WorkedOut, frozen_lines, frozen_of, refusals, work_out
from app.services.stock.claiming import with_stock
from app.store import books, dealers, papers, tools
from app.store import quotations as kept
from app.store.db import Store
from rules.money.totals import QuotedPrice, Totals

#: How often issuing starts again because a book was published or a tool changed while it worked.
TRIES = 5

#: Random bytes in a paper's code: 96 bits can't be guessed and still make a small QR code.
CODE_BYTES = 12


@dataclass(frozen=True, slots=True)
class PricedRevision:
    """A revision as it would be issued now, or, issued, as its own book and tool states give it again.

    `answers`: one per line, in their order; None for a line that names what the book hasn't. `price`: lines and extras
    before tax. `totals` None where a line can't be built, is not complete or not priced, or the tax can't be told;
    `refusals` are all the reasons, empty where it could be issued. `changes`: since the last that left the house.
    """

    revision: Revision
    book: int
    tool_state: int
    answers: tuple[Answered | None, ...]
    price: QuotedPrice | None
    totals: Totals | None
    refusals: tuple[Refusal, ...]
    changes: Changes | None = None


def create_quotation(
    store: Store,
    actor: Actor,
    enquiry: int,
    price_list: str,
    place: DeliveryPlace,
    now: datetime,
    *,
    once: Once | None = None,
) -> Quotation:
    """A new quotation with an empty draft A. Raises NotFound, BadInput, UnknownNames, KeyReused, Underway."""
    book, draft = current_book(store, now), Draft(price_list, place)

    def draw_up(db: Database) -> str:
        found = own_enquiry(db, actor, enquiry)
        checking.refuse(checking.draft_faults(book, draft, quoted_in(db, book, found)))
        number = running_name(db, "Q", book, now)
        kept.add(db, number, found.id, found.dealer, draft, actor.name, now)
        note(db, number, "A", "revision-drafted", actor, now)
        return number

    return quotation(store, actor, perform(store, once, now, draw_up), now)


def quotation(store: Store, actor: Actor, number: str, now: datetime) -> Quotation:
    """With all revisions and its history. Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        return own_quotation(db, actor, number, now)


def quotations(
    store: Store,
    actor: Actor,
    now: datetime,
    *,
    standing: Standing | None = None,
    text: str = "",
    after: int | None = None,
    size: int = SIZE,
) -> Page[QuotationRow]:
    """The last changed first, from `after` on; `text` is sought in numbers, customer's name, telephone and donor."""
    words = words_of(store, text, now)
    with store.reading() as db:
        return kept.rows(db, actor.dealer, now, standing, words, size, after)


def save_draft(
    store: Store, actor: Actor, number: str, letter: str, draft: Draft, now: datetime, *, expected: int
) -> Revision:
    """Keeps what was typed, buildable or not. Raises NotFound, Frozen, ChangedByAnother, BadInput, UnknownNames."""
    book = current_book(store, now)
    with store.writing() as db:
        quotation = own_quotation(db, actor, number, now)
        revision = draft_of(quotation, letter, expected)
        enquiry = own_enquiry(db, actor, quotation.enquiry)
        checking.refuse(checking.draft_faults(book, draft, quoted_in(db, book, enquiry)))
        kept.change(db, number, revision, draft, now)
        note(db, number, letter, "revision-changed", actor, now)
        return own_revision(db, actor, number, letter, now)


def price_revision(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> PricedRevision:
    """Answers and totals: a draft's by what is in force, an issued one's by its own numbers and terms.

    Raises NotFound, NoBook, UnknownNames where the book in force has no such price list.
    """
    quotation, enquiry, revision = opened(store, actor, number, letter, now)
    worked = work_out(store, enquiry, revision, now)
    return PricedRevision(
        revision=revision,
        book=worked.deal.book.number,
        tool_state=worked.tools.number,
        answers=worked.answers,
        price=None if worked.sum is None else worked.sum.price,
        totals=worked.totals,
        refusals=tuple(refusals(worked)),
        changes=changes_of(store, quotation, revision, worked),
    )


def next_revision(store: Store, actor: Actor, number: str, now: datetime, *, once: Once | None = None) -> Revision:
    """The next letter, a draft that copies the last. Raises NotFound, DraftStands, KeyReused, Underway.

    What was accepted may be revised, too: the draft changes nothing of the yes, only issuing it does (see `issue`).
    """

    def copy(db: Database) -> str:
        quotation = own_quotation(db, actor, number, now)
        last = quotation.revisions[-1]
        if not last.issued:
            raise DraftStands(number=number, letter=last.letter)
        letter = next_letter(last.letter)
        kept.add_revision(db, number, letter, last.draft(), actor.name, now)
        note(db, number, letter, "revision-drafted", actor, now, **_beside(quotation.standing_yes))
        return letter

    letter = perform(store, once, now, copy)
    return _revision(store, actor, number, letter, now)


def issue(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    now: datetime,
    *,
    expected: int,
    once: Once | None = None,
    url: str = "",
    draw: bool = True,
    replaces_yes: bool = False,
    working: Working | None = None,
) -> Revision:
    """Freezes it, keeps the customer's paper, supersedes the one before: all or nothing, and durable once it returns.

    `url`: where people reach the desk; the papers' QR code says `{url}/q/{code}`. `draw` False leaves the customer's
    paper, too, to whoever first asks for it. `replaces_yes`: it takes the place of a revision that the customer has
    accepted, on purpose. `working`: the firm's working days; without them the paper names no date. Raises NotFound,
    Frozen, ChangedByAnother, a CannotIssue, YesStands where that was not said, BadInput where the place or the
    customer's country is missing, KeyReused, Underway.
    """
    act = _Issue(actor, number, letter, now, expected, url, replaces_yes, working)
    for _ in range(TRIES):
        try:
            perform(store, once, now, _sealing(store, act, once, draw))
            return _revision(store, actor, number, letter, now)
        except _MovedMeanwhile:
            continue
    raise ChangedByAnother(what="quotation", name=number, expected=expected, actual=expected)


class _MovedMeanwhile(Exception):
    """A book was published, a tool changed or the enquiry was edited between working out and sealing."""


@dataclass(frozen=True, slots=True)
class _Issue:
    """Who issues what, as it was asked for."""

    actor: Actor
    number: str
    letter: str
    now: datetime
    expected: int
    url: str
    replaces_yes: bool
    working: Working | None


@dataclass(frozen=True, slots=True)
class _Ready:
    """All that issuing writes, made before the store is locked."""

    quotation: Quotation
    enquiry: Enquiry
    revision: Revision
    worked: WorkedOut
    issuing: kept.Issuing


def _sealing(store: Store, act: _Issue, once: Once | None, draw: bool) -> Callable[[Database], str]:
    """The one write of issuing; everything slow is done here, before it. Nothing is, where it was issued before."""
    with store.reading() as db:
        if already(db, once) is not None:
            return lambda _: act.letter
    ready = _make_ready(store, act)
    pdfs = dict(_pdfs(store, ready, act.now)) if draw else {}
    return lambda db: _seal(db, act, ready, pdfs)


def _make_ready(store: Store, act: _Issue) -> _Ready:
    code = secrets.token_urlsafe(CODE_BYTES)
    with store.reading() as db:
        quotation = own_quotation(db, act.actor, act.number, act.now)
        revision = draft_of(quotation, act.letter, act.expected)
        enquiry = own_enquiry(db, act.actor, quotation.enquiry)
        imprint = imprint_of(db, act.actor, quotation, f"{act.url}/q/{code}")
    worked = work_out(store, enquiry, revision, act.now)
    for refusal in refusals(worked):
        raise refusal
    _refuse_beside_a_yes(quotation, act, worked)
    worked = foreseen(store, worked, act.working, act.now)
    worked = with_stock(store, worked, act.number, act.working, act.now)
    return _Ready(quotation, enquiry, revision, worked, _issuing(worked, imprint, code, act.now))


def _refuse_beside_a_yes(quotation: Quotation, act: _Issue, worked: WorkedOut) -> None:
    """A quotation has at most one live promise, and a yes is never set aside by accident."""
    said = None if quotation.standing_yes is None else quotation.standing_yes.yes
    if said is not None and not act.replaces_yes:
        day = day_of(worked.deal.book, said.at)
        raise YesStands(number=act.number, letter=act.letter, accepted=said.letter, said_by=said.by, day=day)


def _issuing(worked: WorkedOut, imprint: Imprint, code: str, now: datetime) -> kept.Issuing:
    book = worked.deal.book
    return kept.Issuing(
        book=book.number,
        tool_state=worked.tools.number,
        code=code,
        valid_until=lapses_at(now, book.terms.validity_days, book.calendar.zone),
        frozen=frozen_of(worked, imprint),
    )


def _pdfs(store: Store, ready: _Ready, now: datetime) -> Iterator[tuple[papering.Kind, bytes]]:
    """The customer's own; the others are drawn when somebody asks for them."""
    issuing, kind = ready.issuing, papering.own_kind(ready.worked)
    imprint = issuing.frozen.imprint or Imprint()
    quotation, revision, worked = ready.quotation, ready.revision, ready.worked
    changes = changes_of(store, quotation, revision, worked)
    sheetful = papering.Sheetful(quotation, revision, worked, imprint, now, True, issuing.valid_until, changes)
    yield kind, papering.pdf(sheetful, *kind)


def _seal(db: Database, act: _Issue, ready: _Ready, pdfs: Mapping[papering.Kind, bytes]) -> str:
    actor, number, letter, now = act.actor, act.number, act.letter, act.now
    quotation = own_quotation(db, actor, number, now)
    revision = draft_of(quotation, letter, ready.revision.version)
    _refuse_beside_a_yes(quotation, act, ready.worked)
    _refuse_moved(db, actor, ready, now)
    for line, frozen in zip(revision.lines, frozen_lines(ready.worked), strict=True):
        kept.freeze_line(db, line.id, frozen)
    kept.issue(db, number, revision, ready.issuing, actor.name, now)
    for (language, size), pdf in pdfs.items():
        papers.add(db, revision.id, language, size, pdf)
    at_issue(db, actor, ready.quotation, letter, ready.worked, now)
    answer_requests(db, actor, number, now)
    _supersede(db, actor, quotation, now)
    note(db, number, letter, "revision-issued", actor, now, **_beside(quotation.standing_yes))
    return letter


def _refuse_moved(db: Database, actor: Actor, ready: _Ready, now: datetime) -> None:
    deal = ready.worked.deal
    dealer = None if ready.quotation.dealer is None else dealers.get(db, ready.quotation.dealer)
    stands = (
        books.number_in_force(db, now) == deal.book.number
        and tools.last_number(db) == ready.worked.tools.number
        and own_enquiry(db, actor, ready.enquiry.id).version == ready.enquiry.version
        and tariff_of(deal.book, dealer, deal.tariff.list) == deal.tariff
    )
    if not stands:
        raise _MovedMeanwhile


def _supersede(db: Database, actor: Actor, quotation: Quotation, now: datetime) -> None:
    """What stands issued and unanswered is superseded, lapsed or not.

    What was answered keeps its answer: that a yes has had its place taken is read off the order of the revisions.
    """
    for earlier in quotation.revisions:
        if earlier.standing in (Standing.ISSUED, Standing.LAPSED):
            kept.end(db, earlier.id, Outcome(Standing.SUPERSEDED, now, actor.name))
            note(db, quotation.number, earlier.letter, "revision-superseded", actor, now)


def _beside(said: Revision | None) -> dict[str, str]:
    """What the history adds where the customer has said yes to an earlier revision."""
    return {} if said is None else {"reason": "accepted", "accepted": said.letter}


def _revision(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> Revision:
    with store.reading() as db:
        return own_revision(db, actor, number, letter, now)

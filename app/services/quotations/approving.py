"""Approvals: asked for from a line, answered by a manager with his reason, and withdrawn when the shell is superseded.

Nothing here changes what the engine answers or what has gone out: it says only what is still waited for. Who may ask
and who may answer is settled by the one table before anybody gets here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import (
    ApprovalAnswered,
    ApprovalMoot,
    ApprovalStands,
    Fault,
    MayNot,
    NeedsNoApproval,
    NotFound,
    StructureOpen,
)
from app.domain.paging import SIZE, Page
from app.domain.quotations.approval import Approval, Need, Stage, fingerprint, open_structure, structure_of
from app.domain.quotations.quotation import Quotation, Revision, Standing
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.once import Once, perform
from app.services.quotations.approved import needs
from app.services.quotations.enquiring import own_enquiry
from app.services.quotations.owned import note, opened, own_quotation, own_revision, refuse_changed
from app.services.quotations.working_out import WorkedOut, standing_of_options, work_out
from app.store import approvals as kept
from app.store.db import Store
from rules.answer import State
from rules.donor.usual import key_options, usual_specification
from rules.model import Book
from rules.money.totals import Totals
from rules.specification import Donor

#: What a page of the list begins with; the rest stays in its order.
_FIRST = {Stage.WAITING: 0, Stage.MOOT: 1}


@dataclass(frozen=True, slots=True)
class BoundLine:
    """A line (from 1) as approvals see it. `rules`: ids of those whose approval it depends on."""

    line: int
    settled: dict[str, str]
    standing: dict[str, State]
    rules: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Weighed:
    """A request with all that whoever answers it must see. `stage` MOOT: nothing that may be built waits for it.

    `letter` and `line` are where it is waited for now. `settled`: every choice of that line; `unusual`: the structural
    options that the original of the ordered series and market had otherwise. `totals` of the whole revision.
    """

    approval: Approval
    stage: Stage
    book: Book
    letter: str
    line: int
    settled: dict[str, str]
    standing: dict[str, State]
    unusual: tuple[str, ...]
    customer: str
    dealer: str | None
    quotation_stands: Standing
    currency: str
    totals: Totals | None


def approvals_of(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> tuple[Need, ...]:
    """What every line of the revision needs, asked for or not. Raises NotFound, NoBook."""
    revision, worked = _opened(store, actor, number, letter, now)
    found = needs(store, revision.id, worked.deal.book, [(one.settled, one.rules) for one in _lines(worked)])
    return tuple(need for line in found for need in line)


def approvals_open(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> tuple[Need, ...]:
    """What still keeps an order from being confirmed: every approval needed that nobody has given. Raises NotFound."""
    return tuple(need for need in approvals_of(store, actor, number, letter, now) if not need.met)


def ask_for(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    line: int,
    rule: str,
    text: str,
    now: datetime,
    *,
    expected: int,
    once: Once | None = None,
) -> Approval:
    """Asks the manager for his yes to the rule on that line (from 1), as the revision is saved.

    Raises NotFound, ChangedByAnother, NeedsNoApproval, StructureOpen, ApprovalStands, BadInput, KeyReused, Underway.
    """
    refuse(long_faults("note", text, LONGEST_TEXT))
    _, worked = _opened(store, actor, number, letter, now)

    def ask(db: Database) -> int:
        revision = own_revision(db, actor, number, letter, now)
        refuse_changed(number, revision, expected)
        bound = _bound(worked, line, rule)
        _refuse_twice(db, worked.deal.book, number, bound, rule)
        return _ask(db, actor, number, letter, worked.deal.book, bound, rule, text, now)

    return approval(store, actor, perform(store, once, now, ask))


def answer(
    store: Store,
    actor: Actor,
    asked: int,
    granted: bool,
    reason: str,
    now: datetime,
    *,
    day: date | None = None,
    once: Once | None = None,
) -> Approval:
    """The manager's yes or no, with his reason and the day he said it (`day` None: today).

    Raises NotFound, ApprovalAnswered, ApprovalMoot, BadInput, KeyReused, Underway.
    """
    weighed = weigh(store, actor, asked, now)
    on = _day(weighed.book, day, reason, now)

    def say(db: Database) -> int:
        found = _get(db, actor, asked)
        if found.stage is not Stage.WAITING:
            raise ApprovalAnswered(rule=found.rule, number=found.number, why=found.stage.value)
        if weighed.stage is Stage.MOOT:
            raise ApprovalMoot(rule=found.rule, number=found.number)
        stage = Stage.GRANTED if granted else Stage.REFUSED
        return _say(db, actor, found, stage, on, reason, now)

    return approval(store, actor, perform(store, once, now, say))


def withdraw(
    store: Store, actor: Actor, asked: int, reason: str, now: datetime, *, takes_back: bool, once: Once | None = None
) -> Approval:
    """Takes a request back; a yes that was given only with `takes_back`, which is the manager's.

    Raises NotFound, MayNot, ApprovalAnswered, BadInput, KeyReused, Underway.
    """

    def take_back(db: Database) -> int:
        found = _get(db, actor, asked)
        book = book_of(store, found.book)
        on = _day(book, None, reason, now)
        if found.stage is Stage.GRANTED and not takes_back:
            raise MayNot(action="answer", role="")
        if found.stage not in (Stage.WAITING, Stage.GRANTED):
            raise ApprovalAnswered(rule=found.rule, number=found.number, why=found.stage.value)
        return _say(db, actor, found, Stage.WITHDRAWN, on, reason, now)

    return approval(store, actor, perform(store, once, now, take_back))


def approval(store: Store, actor: Actor, asked: int) -> Approval:
    """Raises NotFound, for another dealer's exactly as for one that does not exist."""
    with store.reading() as db:
        return _get(db, actor, asked)


def approvals(
    store: Store, actor: Actor, now: datetime, *, stage: Stage | None = None, after: int | None = None, size: int = SIZE
) -> Page[Weighed]:
    """What waits first, the oldest at the top; then what was answered, the last first.

    What nobody answered, and nothing waits for any longer, is in the whole list alone: it waits no more. So a page may
    hold fewer than it has room for, and another still follows.
    """
    with store.reading() as db:
        found = kept.listed(db, actor.dealer, stage, size, after)
    weighed = [_weighed(store, actor, one, now) for one in found.rows]
    asked_for = (one for one in weighed if stage is None or one.stage is stage)
    ordered = tuple(sorted(asked_for, key=lambda one: _FIRST.get(one.stage, len(_FIRST))))
    return Page(ordered, found.next)


def weigh(store: Store, actor: Actor, asked: int, now: datetime) -> Weighed:
    """One request with all that whoever answers it must see. Raises NotFound."""
    return _weighed(store, actor, approval(store, actor, asked), now)


def at_issue(db: Database, actor: Actor, quotation: Quotation, letter: str, worked: WorkedOut, now: datetime) -> None:
    """What issuing does to approvals, in its own transaction.

    A request that no line of the new revision needs any longer is withdrawn with what it was asked for. What a dealer
    lets out with approvals nobody asked for is asked for by that: he is never silently allowed anything.
    """
    bound, book = tuple(_lines(worked)), worked.deal.book
    wanted = {(rule, _mark(book, one)) for one in bound for rule in one.rules}
    asked = kept.of_quotation(db, quotation.number)
    for one in asked:
        if one.stage is Stage.WAITING and (one.rule, one.fingerprint) not in wanted:
            _say(db, actor, one, Stage.WITHDRAWN, day_of(book, now), "", now, letter=letter)
    if actor.dealer is not None:
        known = {(one.rule, one.fingerprint) for one in asked if one.stage in (Stage.WAITING, Stage.GRANTED)}
        for line, rule in _unasked(book, bound, known):
            _ask(db, actor, quotation.number, letter, book, line, rule, "", now)


def _unasked(book: Book, bound: tuple[BoundLine, ...], known: set[tuple[str, str]]) -> Iterator[tuple[BoundLine, str]]:
    for one in bound:
        for rule in one.rules:
            if (rule, _mark(book, one)) not in known:
                known.add((rule, _mark(book, one)))
                yield one, rule


def _ask(
    db: Database,
    actor: Actor,
    number: str,
    letter: str,
    book: Book,
    bound: BoundLine,
    rule: str,
    text: str,
    now: datetime,
) -> int:
    structure = structure_of(book, bound.settled)
    request = kept.Request(number, letter, bound.line, rule, fingerprint(structure), structure, book.number, text)
    note(db, number, letter, "approval-asked", actor, now, rule=rule)
    return kept.add(db, request, actor.name, now)


def _say(
    db: Database,
    actor: Actor,
    asked: Approval,
    stage: Stage,
    day: date,
    reason: str,
    now: datetime,
    *,
    letter: str = "",
) -> int:
    kept.say(db, asked.id, stage, day, reason, actor.name, now)
    note(db, asked.number, letter or asked.letter, f"approval-{stage.value}", actor, now, rule=asked.rule, why=reason)
    return asked.id


def _day(book: Book, day: date | None, reason: str, now: datetime) -> date:
    """The day it was said, which has come; the reason is never left out."""
    today = day_of(book, now)
    late = [Fault("day", "in-the-future")] if day is not None and day > today else []
    refuse((*blank_faults("reason", reason), *late, *long_faults("reason", reason, LONGEST_TEXT)))
    return day or today


def _get(db: Database, actor: Actor, asked: int) -> Approval:
    found = kept.get(db, asked, actor.dealer)
    if found is None:
        raise NotFound(what="approval", name=str(asked))
    return found


def _bound(worked: WorkedOut, line: int, rule: str) -> BoundLine:
    found = next((one for one in _lines(worked) if one.line == line), None)
    if found is None or rule not in found.rules:
        raise NeedsNoApproval(line=line, rule=rule)
    still = open_structure(worked.deal.book, found.settled)
    if still:
        raise StructureOpen(line=line, open_questions=still)
    return found


def _refuse_twice(db: Database, book: Book, number: str, bound: BoundLine, rule: str) -> None:
    mark = _mark(book, bound)
    for one in kept.of_quotation(db, number):
        if (one.rule, one.fingerprint) == (rule, mark) and one.stage in (Stage.WAITING, Stage.GRANTED):
            raise ApprovalStands(rule=rule, line=bound.line, why=one.stage.value)


def _mark(book: Book, bound: BoundLine) -> str:
    return fingerprint(structure_of(book, bound.settled))


def _lines(worked: WorkedOut) -> Iterator[BoundLine]:
    for at, (line, one) in enumerate(zip(worked.draft.lines, worked.answers, strict=True), start=1):
        if one is not None:
            said = one.answer
            standing = standing_of_options(said, line.specification)
            yield BoundLine(at, dict(said.settled), standing, said.depends.approvals)


def _opened(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> tuple[Revision, WorkedOut]:
    _, enquiry, revision = opened(store, actor, number, letter, now)
    return revision, work_out(store, enquiry, revision, now)


def _weighed(store: Store, actor: Actor, asked: Approval, now: datetime) -> Weighed:
    with store.reading() as db:
        quotation = own_quotation(db, actor, asked.number, now)
        enquiry = own_enquiry(db, actor, quotation.enquiry)
    own = Weighed(
        approval=asked,
        stage=asked.stage,
        book=book_of(store, asked.book),
        letter=asked.letter,
        line=asked.line,
        settled=dict(asked.structure),
        standing={},
        unusual=(),
        customer=enquiry.customer.name,
        dealer=quotation.dealer,
        quotation_stands=quotation.standing,
        currency="",
        totals=None,
    )
    for revision in _live(quotation):
        worked = work_out(store, enquiry, revision, now)
        for one in _lines(worked):
            if asked.rule in one.rules and _mark(worked.deal.book, one) == asked.fingerprint:
                return _at(own, revision, worked, one)
    gone = Stage.MOOT if asked.stage is Stage.WAITING else asked.stage
    return replace(own, stage=gone, unusual=_unusual(own.book, own.settled))


def _at(own: Weighed, revision: Revision, worked: WorkedOut, bound: BoundLine) -> Weighed:
    return replace(
        own,
        book=worked.deal.book,
        letter=revision.letter,
        line=bound.line,
        settled=bound.settled,
        standing=bound.standing,
        unusual=_unusual(worked.deal.book, bound.settled),
        currency=worked.deal.currency,
        totals=worked.totals,
    )


def _live(quotation: Quotation) -> Iterator[Revision]:
    """What may still be built: the draft that is being written, and what is out in date or accepted."""
    for revision in reversed(quotation.revisions):
        if revision.standing in (Standing.DRAFT, Standing.ISSUED, Standing.ACCEPTED):
            yield revision


def _unusual(book: Book, settled: dict[str, str]) -> tuple[str, ...]:
    """Against the original of the ordered series and market, whatever the donor car is."""
    keys = key_options(book)
    if any(key not in settled for key in keys):
        return ()
    usual = usual_specification(book, {key: settled[key] for key in keys}, Donor())
    return tuple(
        option.id
        for option in book.options
        if option.structural and option.id in settled and settled[option.id] != usual.get(option.id)
    )

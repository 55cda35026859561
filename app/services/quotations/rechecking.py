"""A quotation as it was, held against today's rules, tools and prices. Looking alters nothing.

An issued revision is compared with what was frozen. A draft is compared with the book and tools by which its author
last looked at it: what he said he had seen, else those of the revision it copies, else those when it was begun.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from app.domain.asking.actor import Actor
from app.domain.books.tool_state import ToolStates
from app.domain.customers.customer import Customer
from app.domain.errors import Fault, Frozen, NotFound, UnknownNames
from app.domain.quotations.changes import Facts, LineFacts, Moved
from app.domain.quotations.enquiry import DonorCar, Enquiry
from app.domain.quotations.quotation import Quotation, Revision
from app.domain.quotations.then_and_now import Looked, ThenAndNow, advice, then_and_now
from app.services.answering.checking import refuse
from app.services.answering.pricing import Deal, day_of, tariff_of
from app.services.answering.specifying import Answered
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.books.tools import tool_states
from app.services.quotations.comparing import facts_of, last_out_before
from app.services.quotations.owned import note, opened, own_revision
from app.services.quotations.working_out import WorkedOut, work_out, work_out_by
from app.store import books, dealers, seen, tools
from app.store.db import Store
from app.store.seen import Seen
from rules.answer import Verdict
from rules.explain.reasons import reasons
from rules.model import Book
from rules.money.price import Tariff
from rules.money.totals import ExtraNet, ShellsPrice
from rules.specification import Specification


@dataclass(frozen=True, slots=True)
class Rechecked:
    """`then`: by which numbers it was looked at, and when; `books`, `tools`: of then and of now.

    `found` None: it can't be held against anything, for the book of then had no such price list.
    """

    revision: Revision
    then: Seen
    books: Moved[Book]
    tools: Moved[ToolStates]
    found: ThenAndNow | None
    advice: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Terms:
    """Whom it is for, on whose trade terms: as issuing froze them, or as they stand."""

    customer: Customer
    donor: DonorCar
    trade_of: str | None
    version: int


def recheck(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> Rechecked:
    """Then against now. Raises NotFound, NoBook, and UnknownNames where the book in force has no such price list."""
    return recheck_by(store, actor, number, letter, current_book(store, now), now)


def recheck_by(store: Store, actor: Actor, number: str, letter: str, book: Book, now: datetime) -> Rechecked:
    """Then against that book, whatever is in force: also one that is still a draft. Raises as `recheck`."""
    quotation, enquiry, revision = opened(store, actor, number, letter, now)
    then, states = _then(store, quotation, revision), tool_states(store)
    books_, tools_ = Moved(book_of(store, then.book), book), Moved(tool_states(store, then.tool_state), states)
    terms, old = _terms(enquiry, revision), _tariff_of_old(quotation, revision, then)
    after = _by(store, revision, terms, book, states, now, None)
    try:
        before = _before(store, enquiry, revision, terms, (books_.before, tools_.before), then, old)
    except UnknownNames:
        return Rechecked(revision, then, books_, tools_, None, ())
    found = _held(revision.letter, before, after)
    return Rechecked(revision, then, books_, tools_, found, advice(revision.standing, found))


def see(store: Store, actor: Actor, number: str, letter: str, book: int, tool_state: int, now: datetime) -> None:
    """A draft's author has looked at it by these numbers: he is not told again. Raises NotFound, Frozen, BadInput."""
    with store.writing() as db:
        revision = own_revision(db, actor, number, letter, now)
        if revision.issued:
            raise Frozen(number=number, letter=letter)
        if tool_state > tools.last_number(db):
            raise NotFound(what="tool-state", name=str(tool_state))
        if books.text(db, book) is None:
            refuse([Fault("book", "too-large", {"most": books.number_in_force(db, now)})])
        seen.add(db, revision.id, Seen(book, tool_state, now), actor.name)
        note(db, number, letter, "revision-rechecked", actor, now, book=str(book))


def _then(store: Store, quotation: Quotation, revision: Revision) -> Seen:
    if revision.book is not None and revision.tool_state is not None and revision.issued_at is not None:
        return Seen(revision.book, revision.tool_state, revision.issued_at)
    with store.reading() as db:
        said = seen.last(db, revision.id)
        if said is not None:
            return said
        copied = last_out_before(quotation, revision)
        if copied is not None and copied.book is not None and copied.issued_at is not None:
            return Seen(copied.book, copied.tool_state or 0, copied.issued_at)
        at = revision.created_at
        return Seen(books.number_in_force(db, at) or 1, seen.tool_number_at(db, at), at)


def _tariff_of_old(quotation: Quotation, revision: Revision, then: Seen) -> Tariff | None:
    """A copy is held against what the revision it copies was quoted at, trade terms and all."""
    copied = last_out_before(quotation, revision)
    if copied is None or copied.frozen is None or copied.issued_at != then.at:
        return None
    return copied.frozen.tariff if copied.frozen.tariff.list == revision.price_list else None


def _terms(enquiry: Enquiry, revision: Revision) -> _Terms:
    """Of an issued one as frozen: what is looked for is what rules, tools and prices have done to it."""
    frozen = revision.frozen
    if frozen is None:
        return _Terms(enquiry.customer, enquiry.donor, enquiry.dealer, enquiry.version)
    return _Terms(frozen.customer, frozen.donor, frozen.trade_of, frozen.enquiry_version)


def _before(
    store: Store,
    enquiry: Enquiry,
    revision: Revision,
    terms: _Terms,
    by: tuple[Book, ToolStates],
    then: Seen,
    tariff: Tariff | None,
) -> WorkedOut:
    if revision.issued:
        return work_out(store, enquiry, revision, then.at)
    return _by(store, revision, terms, *by, then.at, tariff)


def _by(
    store: Store,
    revision: Revision,
    terms: _Terms,
    book: Book,
    states: ToolStates,
    at: datetime,
    tariff: Tariff | None,
) -> WorkedOut:
    with store.reading() as db:
        dealer = None if terms.trade_of is None else dealers.get(db, terms.trade_of)
    tariff = tariff or tariff_of(book, dealer, revision.price_list)
    place, country = revision.delivery_place, terms.customer.country
    deal = Deal(book, terms.donor.facts(), tariff, place, country, day_of(book, at))
    named = (terms.customer, terms.donor, terms.trade_of, terms.version)
    return work_out_by(store, deal, states, named, revision.draft())


def _held(letter: str, before: WorkedOut, after: WorkedOut) -> ThenAndNow:
    facts: Moved[Facts] = Moved(facts_of(letter, before), facts_of(letter, after))
    extras: Moved[Sequence[ExtraNet]] = Moved(_extras(before), _extras(after))
    return then_and_now(_looked(before, facts.before), _looked(after, facts.after), facts, extras)


def _extras(worked: WorkedOut) -> Sequence[ExtraNet]:
    return () if worked.sum is None else worked.sum.price.extras


def _looked(worked: WorkedOut, facts: Facts) -> list[Looked]:
    prices = (None,) * len(worked.answers) if worked.sum is None else worked.sum.price.lines
    lines = zip(worked.draft.lines, worked.answers, prices, facts.lines, strict=True)
    return [_looked_line(line.specification, one, price, line_facts) for line, one, price, line_facts in lines]


def _looked_line(
    specification: Specification, one: Answered | None, price: ShellsPrice | None, facts: LineFacts
) -> Looked:
    shell = None if price is None else price.shell
    return Looked(specification, None if one is None else one.answer, shell, facts, _against(specification, one))


def _against(specification: Specification, one: Answered | None) -> frozenset[str]:
    """Options whose answers some smallest reason names, where it can't be built."""
    if one is None or one.prepared is None or one.answer.verdict is not Verdict.CANT:
        return frozenset()
    found, _ = reasons(one.prepared, specification.choices())
    return frozenset(option for reason in found for option, _ in reason.answers)

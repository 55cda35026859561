"""A revision worked out: the answer to each line, the sum of them all, and why it can't be issued, if it can't.

The same for a draft, by what is in force, and for an issued revision, by the numbers and terms that issuing froze.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from app.domain.books.tool_state import ToolStates
from app.domain.customers.customer import Customer
from app.domain.errors import (
    BadInput,
    CannotBeBuilt,
    DeliveryContradicts,
    Fault,
    NotComplete,
    NothingToIssue,
    NotPriced,
    Refusal,
    UnknownNames,
)
from app.domain.quotations.enquiry import DonorCar, Enquiry
from app.domain.quotations.quotation import Approved, Draft, Foreseen, FromStock, Frozen, FrozenLine, Imprint, Revision
from app.services.answering import checking
from app.services.answering.pricing import Deal, Sum, day_of, sum_of, tariff_of
from app.services.answering.specifying import Answered, answered
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.books.tools import tool_states
from app.services.quotations.approved import approved
from app.store import dealers
from app.store.db import Store
from rules.answer import Answer, State, Verdict
from rules.engine.standing import settled_standing
from rules.money.tax import TaxRefusal
from rules.money.totals import ShellsPrice, Totals
from rules.specification import Specification


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """`answers`: one per line, None for a line that names what the book hasn't; `sum` None with any `faults`.

    `faults`: names in the draft that the book in force hasn't (any longer). `approved`: line by line, what has been
    given of the approvals it depends on; of an issued revision, what had been when it was issued. `foreseen`: line by
    line when it would be ready; empty where nobody looked. `stock`: line by line the shell of stock that it is.
    """

    deal: Deal
    tools: ToolStates
    customer: Customer
    donor: DonorCar
    trade_of: str | None
    enquiry_version: int
    draft: Draft
    faults: tuple[Fault, ...]
    answers: tuple[Answered | None, ...]
    sum: Sum | None
    approved: tuple[tuple[Approved, ...], ...] = ()
    foreseen: tuple[Foreseen | None, ...] = ()
    stock: tuple[FromStock | None, ...] = ()

    @property
    def totals(self) -> Totals | None:
        """None where a line can't be built, is not complete or not priced, or the tax can't be told."""
        return None if self.sum is None or any(_refusals(self)) else self.sum.totals


def work_out(store: Store, enquiry: Enquiry, revision: Revision, now: datetime) -> WorkedOut:
    """An issued revision by its own numbers, a draft by what is in force at `now`.

    Raises NoBook, BookTooBranched, and UnknownNames where the book in force has no such price list.
    """
    if revision.frozen is not None and revision.book is not None and revision.issued_at is not None:
        return _again(store, revision, revision.frozen, revision.book, revision.issued_at)
    book, draft = current_book(store, now), revision.draft()
    with store.reading() as db:
        dealer = None if enquiry.dealer is None else dealers.get(db, enquiry.dealer)
    tariff = tariff_of(book, dealer, draft.price_list)
    country = enquiry.customer.country
    deal = Deal(book, enquiry.donor.facts(), tariff, draft.delivery_place, country, day_of(book, now))
    terms = (enquiry.customer, enquiry.donor, enquiry.dealer, enquiry.version)
    worked = _work(store, deal, tool_states(store), terms, draft)
    return replace(worked, approved=approved(store, revision.id, book, _bound(worked)))


def work_out_by(
    store: Store, deal: Deal, tools: ToolStates, terms: tuple[Customer, DonorCar, str | None, int], draft: Draft
) -> WorkedOut:
    """A draft on that deal and by those tools, whatever is in force; no approval is looked up."""
    return _work(store, deal, tools, terms, draft)


def deal_as_issued(store: Store, revision: Revision) -> Deal:
    """What an issued revision's prices depended on, as it was issued. ValueError for a draft."""
    if revision.frozen is None or revision.book is None or revision.issued_at is None:
        raise ValueError("A draft is on no deal yet.")
    return _deal_as_issued(store, revision, revision.frozen, revision.book, revision.issued_at)


def _deal_as_issued(store: Store, revision: Revision, frozen: Frozen, number: int, issued_at: datetime) -> Deal:
    book, country = book_of(store, number), frozen.customer.country
    day = day_of(book, issued_at)
    return Deal(book, frozen.donor.facts(), frozen.tariff, revision.delivery_place, country, day)


def refusals(worked: WorkedOut) -> Iterator[Refusal]:
    """Every reason why it can't be issued as it is, the gravest first: none, and it can be. Lines count from 1."""
    if worked.faults:
        yield UnknownNames(worked.faults)
    if not worked.draft.lines:
        yield NothingToIssue()
    yield from _refusals(worked)


def frozen_of(worked: WorkedOut, imprint: Imprint) -> Frozen:
    """What issuing keeps of the revision. Only of one that can be issued."""
    if worked.sum is None or worked.totals is None:
        raise ValueError("This revision can't be issued: ask refusals() first.")
    return Frozen(
        enquiry_version=worked.enquiry_version,
        customer=worked.customer,
        donor=worked.donor,
        trade_of=worked.trade_of,
        tariff=worked.deal.tariff,
        currency=worked.deal.currency,
        extras=worked.sum.price.extras,
        totals=worked.totals,
        imprint=imprint,
    )


def frozen_lines(worked: WorkedOut) -> tuple[FrozenLine, ...]:
    """What issuing keeps of each line. Only of a revision that can be issued."""
    prices = () if worked.sum is None else worked.sum.price.lines
    none = (None,) * len(worked.answers)
    ranges, stock = worked.foreseen or none, worked.stock or none
    lines = zip(worked.draft.lines, worked.answers, prices, worked.approved, ranges, stock, strict=True)
    return tuple(
        replace(_frozen_line(line.specification, one.answer, price, given), foreseen=range_, stock=from_stock)
        for line, one, price, given, range_, from_stock in lines
        if one is not None
    )


def standing_of_options(said: Answer, specification: Specification) -> dict[str, State]:
    """option → how its settled choice stands: usual, chosen or forced."""
    stands = {each.option: settled_standing(each, specification.answers.get(each.option)) for each in said.options}
    return {option: state for option, state in stands.items() if state is not None}


def _frozen_line(
    specification: Specification, said: Answer, price: ShellsPrice, given: tuple[Approved, ...]
) -> FrozenLine:
    standing = standing_of_options(said, specification)
    return FrozenLine(dict(said.settled), standing, said.verdicts, said.depends, price, given)


def _again(store: Store, revision: Revision, frozen: Frozen, number: int, issued_at: datetime) -> WorkedOut:
    deal = _deal_as_issued(store, revision, frozen, number, issued_at)
    terms = (frozen.customer, frozen.donor, frozen.trade_of, frozen.enquiry_version)
    worked = _work(store, deal, tool_states(store, revision.tool_state), terms, revision.draft())
    frozen_lines = [line.frozen for line in revision.lines if line.frozen is not None]
    return replace(
        worked,
        approved=tuple(line.approved for line in frozen_lines),
        foreseen=tuple(line.foreseen for line in frozen_lines),
        stock=tuple(line.stock for line in frozen_lines),
    )


def _bound(worked: WorkedOut) -> list[tuple[Mapping[str, str], tuple[str, ...]]]:
    return [({}, ()) if one is None else (one.answer.settled, one.answer.depends.approvals) for one in worked.answers]


def _work(
    store: Store, deal: Deal, tools: ToolStates, terms: tuple[Customer, DonorCar, str | None, int], draft: Draft
) -> WorkedOut:
    faults = tuple(checking.draft_faults(deal.book, draft))
    answers = tuple(
        None
        if any(checking.specification_faults(deal.book, line.specification, ""))
        else answered(store, deal, tools, line.specification, line.quantity)
        for line in draft.lines
    )
    return WorkedOut(deal, tools, *terms, draft, faults, answers, None if faults else sum_by(deal, draft, answers))


def sum_by(deal: Deal, draft: Draft, answers: tuple[Answered | None, ...]) -> Sum:
    """What the lines and extras of a draft come to on that deal; its names are all known to the book."""
    settled = [{} if one is None else one.answer.settled for one in answers]
    quantities = [line.quantity for line in draft.lines]
    extras = {sold.extra: sold.quantity for sold in draft.extras}
    return sum_of(deal, list(zip(settled, quantities, strict=True)), extras)


def _refusals(worked: WorkedOut) -> Iterator[Refusal]:
    for line, one in enumerate(worked.answers, start=1):
        if one is not None and one.answer.verdict is Verdict.CANT:
            yield CannotBeBuilt(line=line, causes=one.answer.causes)
    for line, one in enumerate(worked.answers, start=1):
        if one is not None and one.answer.verdict is not Verdict.CANT and not one.answer.complete:
            yield NotComplete(line=line, open_questions=one.answer.open_questions)
    if worked.sum is not None:
        yield from _unpriced(worked, worked.sum)
        yield from _untold(worked, worked.sum)


def _unpriced(worked: WorkedOut, summed: Sum) -> Iterator[Refusal]:
    price_list = worked.deal.tariff.list
    for line, price in enumerate(summed.price.lines, start=1):
        if price.shell.unpriced:
            yield NotPriced(line=line, unpriced=price.shell.unpriced, list=price_list)
    extras = tuple(extra.extra for extra in summed.price.extras if extra.net is None)
    if extras:
        yield NotPriced(line=None, unpriced=extras, list=price_list)


def _untold(worked: WorkedOut, summed: Sum) -> Iterator[Refusal]:
    for at, refusal in summed.untold.items():
        yield _tax_refusal(worked, at, refusal)


def _tax_refusal(worked: WorkedOut, at: int, refusal: TaxRefusal) -> Refusal:
    """Where a fact is missing the field that lacks it is named, else what contradicts."""
    missing = {"place-open": "delivery_place.country", "customer-country-open": "customer.country"}.get(refusal.why)
    if missing is not None:
        return BadInput([Fault(missing, "required")])
    place = worked.draft.delivery_place
    facts: dict[str, Any] = {"country": place.country, "region": place.region, **refusal.fields}
    return DeliveryContradicts(line=at + 1, why=refusal.why, fitting=refusal.fitting, **facts)

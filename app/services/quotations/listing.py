"""A list of quotations made useful: to each row what it comes to and what it waits for, read all at once.

What is out is read as it was frozen. A draft is summed as it would be issued now, and the sum kept for as long as
nothing that it depends on has changed: a list must not work out fifty drafts each time it is looked at.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from threading import Lock
from weakref import WeakKeyDictionary

from app.domain.asking.actor import Actor
from app.domain.errors import Refusal
from app.domain.quotations.enquiry import Enquiry
from app.domain.quotations.quotation import EarlierYes, QuotationRow, Revision, Standing
from app.domain.quotations.waiting import waits_for
from app.services.answering.pricing import day_of
from app.services.books.publishing import current_book
from app.services.books.shelf import Shelf
from app.services.books.tools import tool_states
from app.services.quotations.approved import still_open
from app.services.quotations.enquiring import own_enquiry
from app.services.quotations.owned import own_quotation
from app.services.quotations.working_out import work_out
from app.store import confirmations, dealers, issued
from app.store.db import Store
from app.store.issued import IssuedSummary
from rules.money.totals import Totals

#: Sums of drafts kept.
ROOM = 2000


@dataclass(frozen=True, slots=True)
class DraftSum:
    """What a draft would come to now; `totals` None where it can't be issued as it is."""

    currency: str
    totals: Totals | None


@dataclass(frozen=True, slots=True)
class ListedQuotation:
    """`totals` of the revision that the row names, None where it has no sum. `parts`, `approvals`: still to be met."""

    row: QuotationRow
    waits_for: str | None
    currency: str = ""
    totals: Totals | None = None
    parts: tuple[str, ...] = ()
    approvals: tuple[str, ...] = ()


def listed(
    store: Store, actor: Actor, rows: Sequence[QuotationRow], now: datetime, *, sums: bool = True
) -> list[ListedQuotation]:
    """The rows in their order. `sums` False leaves out what drafts come to, where nobody may see it."""
    numbers = [row.number for row in rows]
    with store.reading() as db:
        out, yeses = issued.last_of(db, numbers), issued.replaced_yeses(db, numbers)
        confirmed = confirmations.confirmed(db, numbers)
    drafts = [row.number for row in rows if row.standing is Standing.DRAFT]
    written = {number: _draft_sum(store, actor, number, now) for number in drafts} if sums else {}
    some_given = still_open(store, numbers)
    found = [_listed(row, out.get(row.number), written.get(row.number), yeses, row.number in confirmed) for row in rows]
    return [replace(one, approvals=some_given.get(one.row.number, one.approvals)) if one.approvals else one
            for one in found]  # fmt: skip


def _listed(
    row: QuotationRow,
    out: IssuedSummary | None,
    written: DraftSum | None,
    yeses: Mapping[str, EarlierYes],
    confirmed: bool,
) -> ListedQuotation:
    waits = waits_for(row.standing, row.draft, confirmed=confirmed)
    if out is None:
        return ListedQuotation(row, waits, *(() if written is None else (written.currency, written.totals)))
    row = replace(row, earlier_yes=yeses.get(row.number))
    if waits is None:
        return ListedQuotation(row, waits, out.currency, out.totals)
    parts = tuple(dict.fromkeys(rule for one in out.depends for rule in one.parts))
    approvals = tuple(dict.fromkeys(rule for one in out.depends for rule in one.approvals))
    return ListedQuotation(row, waits, out.currency, out.totals, parts, approvals)


def _draft_sum(store: Store, actor: Actor, number: str, now: datetime) -> DraftSum | None:
    """None where the book in force can't tell: a list still lists what it can't sum."""
    try:
        with store.reading() as db:
            quotation = own_quotation(db, actor, number, now)
            enquiry = own_enquiry(db, actor, quotation.enquiry)
            terms = None if enquiry.dealer is None else dealers.get(db, enquiry.dealer)
        book, states = current_book(store, now), tool_states(store)
        draft = quotation.revisions[-1]
        key = (draft.id, draft.version, enquiry.id, enquiry.version, book.number, states.number, day_of(book, now))
        return _sums_of(store).have((*key, str(terms)), lambda: _summed(store, enquiry, draft, now))
    except Refusal:
        return None


def _summed(store: Store, enquiry: Enquiry, draft: Revision, now: datetime) -> DraftSum:
    worked = work_out(store, enquiry, draft, now)
    return DraftSum(worked.deal.currency, worked.totals)


_sums: WeakKeyDictionary[Store, Shelf[DraftSum]] = WeakKeyDictionary()
_lock = Lock()


def _sums_of(store: Store) -> Shelf[DraftSum]:
    with _lock:
        return _sums.setdefault(store, Shelf(ROOM))

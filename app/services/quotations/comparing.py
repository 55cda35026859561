"""A revision against the last one that left the house before it: the change list of screen and paper, made once here.

Decides nothing itself: it fetches what each revision came to, and `app.domain.quotations.changes` compares.
"""

from __future__ import annotations

from app.domain.quotations.changes import CaseSum, Changes, Days, Facts, LineFacts, Sums, changes_between
from app.domain.quotations.quotation import DraftLine, Quotation, QuotationLine, Revision
from app.services.answering.specifying import Answered
from app.services.books.publishing import book as book_of
from app.services.planning.readying import Ready, ready_of
from app.services.quotations.working_out import WorkedOut
from app.store.db import Store
from rules.model import Book
from rules.money.totals import ShellsPrice, Totals
from rules.specification import Donor


def changes_of(store: Store, quotation: Quotation, revision: Revision, worked: WorkedOut) -> Changes | None:
    """What is otherwise in `revision`, worked out, than in the last that left the house before it; None: none did."""
    before = last_out_before(quotation, revision)
    if before is None or before.book is None:
        return None
    return changes_between(facts_of_issued(book_of(store, before.book), before), facts_of(revision.letter, worked))


def changes_of_issued(store: Store, quotation: Quotation, revision: Revision) -> Changes | None:
    """The same of a revision that was issued, by what was frozen: nothing is worked out again."""
    before = last_out_before(quotation, revision)
    if before is None or before.book is None or revision.book is None:
        return None
    then, now = book_of(store, before.book), book_of(store, revision.book)
    return changes_between(facts_of_issued(then, before), facts_of_issued(now, revision))


def last_out_before(quotation: Quotation, revision: Revision) -> Revision | None:
    """The last revision that left the house before this one."""
    earlier = [one for one in quotation.revisions if one.issued and one.id < revision.id]
    return earlier[-1] if earlier else None


def facts_of(letter: str, worked: WorkedOut) -> Facts:
    """A revision worked out, as it compares."""
    prices = (None,) * len(worked.answers) if worked.sum is None else worked.sum.price.lines
    lines = zip(worked.draft.lines, worked.answers, prices, strict=True)
    return Facts(
        letter=letter,
        book=worked.deal.book.number,
        price_list=worked.draft.price_list,
        place=worked.draft.delivery_place,
        lines=tuple(_line(line, one, price) for line, one, price in lines),
        extras={sold.extra: sold.quantity for sold in worked.draft.extras},
        sums=_sums(worked.totals, worked.deal.currency),
        donor=worked.donor.number_text,
        note=worked.draft.note,
    )


def facts_of_issued(book: Book, revision: Revision) -> Facts:
    """An issued revision by what was frozen; `book` is its own. ValueError for a draft."""
    frozen = revision.frozen
    if frozen is None:
        raise ValueError(f"Revision {revision.letter} is a draft: work it out and ask facts_of().")
    return Facts(
        letter=revision.letter,
        book=book.number,
        price_list=revision.price_list,
        place=revision.delivery_place,
        lines=tuple(_issued_line(book, line, frozen.donor.facts()) for line in revision.lines),
        extras={sold.extra: sold.quantity for sold in revision.extras},
        sums=_sums(frozen.totals, frozen.currency),
        donor=frozen.donor.number_text,
        note=revision.note,
    )


def _line(line: DraftLine, one: Answered | None, price: ShellsPrice | None) -> LineFacts:
    if one is None:
        typed = {option: taken.choice for option, taken in line.specification.answers.items()}
        return LineFacts(line.quantity, typed)
    net = None if price is None else price.shell.net
    return LineFacts(line.quantity, one.answer.settled, one.answer.depends, net, _days(one.ready))


def _issued_line(book: Book, line: QuotationLine, donor: Donor) -> LineFacts:
    frozen = line.frozen
    if frozen is None:
        raise ValueError("A line of an issued revision is always frozen.")
    ready = ready_of(book, frozen.settled, donor, frozen.depends)
    return LineFacts(line.quantity, frozen.settled, frozen.depends, frozen.price.shell.net, _days(ready))


def _days(ready: Ready | None) -> Days | None:
    return None if ready is None else Days(ready.from_days, ready.to_days)


def _sums(totals: Totals | None, currency: str) -> Sums | None:
    if totals is None:
        return None
    cases = (CaseSum(case.kind, case.sum.without_tax, case.sum.with_tax, case.deposit) for case in totals.cases)
    return Sums(currency, tuple(cases))

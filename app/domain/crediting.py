"""What may still be credited, and what the documents of an order come to: pure decisions on documents as they stand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.domain.errors import Fault, Sum
from app.domain.invoice import Document, Kind, SetOff
from rules.settlement import gross, less, part_of
from rules.totals import TaxedSum

LONGEST_WHY = 2_000


@dataclass(frozen=True, slots=True)
class Credit:
    """A credit as it is asked for: `line` of the document counts from 1, `net` before tax."""

    document: str
    line: int
    net: int
    why: str
    concession: str = ""


def credit_faults(credit: Credit, document: Document | None, documents: Sequence[Document]) -> Iterator[Fault]:
    """A credit names a document that bills, a line of it, a reason, and no more than is left of the line."""
    if not credit.why.strip():
        yield Fault("why", "required")
    if document is None or document.kind not in (Kind.DEPOSIT, Kind.BALANCE):
        yield Fault("document", "not-a-bill")
    elif not 1 <= credit.line <= len(document.content.lines):
        yield Fault("line", "no-such-line", {"most": len(document.content.lines)})
    elif credit.net > (left := left_of_line(document, credit.line, documents)):
        yield Fault("net", "more-than-left", {"left": Sum(left, document.content.currency)})


def left_of_line(document: Document, line: int, documents: Sequence[Document]) -> int:
    """Before tax, of a line of the document, once its credit notes are taken off."""
    on_it = [one for one in credits_of(document, documents) if one.content.credited_line == line]
    return document.content.lines[line - 1].net - sum(one.content.sum.without_tax for one in on_it)


def credits_of(document: Document, documents: Sequence[Document]) -> tuple[Document, ...]:
    return tuple(one for one in documents if one.credits == document.id)


def credited_rows(document: Document, documents: Sequence[Document]) -> tuple[TaxedSum, ...]:
    return tuple(row for one in credits_of(document, documents) for row in one.rows)


def in_advance(documents: Sequence[Document]) -> tuple[SetOff, ...]:
    """What was billed in advance and not credited since, document by document."""
    bills = [one for one in documents if one.kind is Kind.DEPOSIT]
    left = [(one, less(one.rows, credited_rows(one, documents))) for one in bills]
    return tuple(SetOff(one.number, one.content.dated, rows) for one, rows in left if rows)


def standing_bill(documents: Sequence[Document]) -> str | None:
    """The number of a document that bills and was not credited in full; None where none does."""
    bills = [one for one in documents if one.kind in (Kind.DEPOSIT, Kind.BALANCE)]
    return next((one.number for one in bills if less(one.rows, credited_rows(one, documents))), None)


def balance_in(documents: Sequence[Document]) -> Document | None:
    """The balance document that stands: one that was credited in full stands no longer."""
    bills = [one for one in documents if one.kind is Kind.BALANCE]
    return next((one for one in bills if less(one.rows, credited_rows(one, documents))), None)


def refunds_by_document(amount: int, advance: Sequence[SetOff]) -> Iterator[tuple[SetOff, tuple[TaxedSum, ...]]]:
    """A refund with tax, taken off the last document first: what is to be credited on each."""
    for one in reversed(advance):
        taken = min(amount, gross(one.rows))
        amount -= taken
        if taken:
            yield one, part_of(taken, one.rows)

"""What may still be credited, and what the documents of an order come to: pure decisions on documents as they stand."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction

from app.domain.errors import Fault, Sum
from app.domain.inspection.concession import Concession, ConcessionStanding
from app.domain.money.invoice import Document, Kind, SetOff
from rules.money.settlement import gross, less, part_of, shared_by
from rules.money.totals import TaxedSum

LONGEST_WHY = 2_000

#: What can be wrong with the concession that a credit is for.
NOT_GRANTED, ELSEWHERE = "concession-not-granted", "concession-elsewhere"


@dataclass(frozen=True, slots=True)
class Credit:
    """A credit as it is asked for: `line` of the document counts from 1, `net` before tax.

    `concession`: what was granted, as somebody wrote it; `granted`: the key of the very concession.
    """

    document: str
    line: int
    net: int
    why: str
    concession: str = ""
    granted: int | None = None


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


def concession_faults(granted: Concession | None, document: Document, place: int | None) -> Iterator[Fault]:
    """A credit for a concession goes with one that holds, on a shell that the document bills. `place`: its own."""
    if granted is None or granted.standing is not ConcessionStanding.GRANTED:
        yield Fault("granted", NOT_GRANTED)
    elif place is None or not bills(document, place):
        yield Fault("granted", ELSEWHERE, {"document": document.number})


def left_of_line(document: Document, line: int, documents: Sequence[Document]) -> int:
    """Before tax, of a line of the document, once its credit notes are taken off."""
    on_it = [one for one in credits_of(document, documents) if one.content.credited_line == line]
    return document.content.lines[line - 1].net - sum(one.content.sum.without_tax for one in on_it)


def credits_of(document: Document, documents: Sequence[Document]) -> tuple[Document, ...]:
    return tuple(one for one in documents if one.credits == document.id)


def due_of(document: Document, documents: Sequence[Document]) -> int:
    """What it leaves to pay, with tax, less what was credited on it."""
    return document.content.sum.payable - sum(one.content.sum.with_tax for one in credits_of(document, documents))


def credited_rows(document: Document, documents: Sequence[Document]) -> tuple[TaxedSum, ...]:
    return tuple(row for one in credits_of(document, documents) for row in one.rows)


def in_advance(documents: Sequence[Document]) -> tuple[SetOff, ...]:
    """What was billed in advance and not credited since, document by document."""
    written = [one for one in documents if one.kind is Kind.DEPOSIT]
    left = [(one, less(one.rows, credited_rows(one, documents))) for one in written]
    return tuple(SetOff(one.number, one.content.dated, rows) for one, rows in left if rows)


def standing_bill(documents: Sequence[Document]) -> str | None:
    """The number of a document that bills and was not credited in full; None where none does."""
    written = [one for one in documents if one.kind in (Kind.DEPOSIT, Kind.BALANCE)]
    return next((one.number for one in written if less(one.rows, credited_rows(one, documents))), None)


def balances_in(documents: Sequence[Document]) -> tuple[Document, ...]:
    """The balance documents that stand: one that was credited in full stands no longer."""
    written = (one for one in documents if one.kind is Kind.BALANCE)
    return tuple(one for one in written if less(one.rows, credited_rows(one, documents)))


def balance_of_place(place: int, documents: Sequence[Document]) -> Document | None:
    """The balance document that bills this place of the order and stands; None where none does."""
    return next((one for one in balances_in(documents) if bills(one, place)), None)


def bills(document: Document, place: int) -> bool:
    """Whether a balance document bills this place; one that names none bills the whole order."""
    billed = document.content.billed
    return not billed or any(one.place == place for one in billed)


def left_in_advance(documents: Sequence[Document]) -> tuple[SetOff, ...]:
    """Of what was billed in advance and not credited since, what no balance document has set off yet."""
    gone = [one for document in balances_in(documents) for one in document.content.set_off]
    left = [
        replace(one, rows=less(one.rows, [row for off in gone if off.number == one.number for row in off.rows]))
        for one in in_advance(documents)
    ]
    return tuple(one for one in left if one.rows)


def share_in_advance(
    document: Document,
    wanted: Collection[int],
    shares: Mapping[int, int],
    gone: Mapping[int, datetime],
    documents: Sequence[Document],
) -> int:
    """What of a document in advance falls to the places `wanted`, with tax: never more than was billed by it.

    `shares`: of every place of the order, its part of the price with tax; `gone`: since when its shell is cancelled. A
    payment in advance is for whatever was neither billed nor cancelled when it was billed itself, each place by its
    share; what is set off for one does not move another's.
    """
    before = [one for one in documents if one.id < document.id]
    there = [place for place in shares if place not in gone or document.at <= gone[place]]
    open_then = [place for place in there if balance_of_place(place, before) is None]
    parts = shared_by([Fraction(shares[place]) for place in open_then], document.content.sum.with_tax)
    return sum(part for place, part in zip(open_then, parts, strict=True) if place in wanted)


def parts_in_advance(
    wanted: Collection[int], shares: Mapping[int, int], gone: Mapping[int, datetime], documents: Sequence[Document]
) -> Iterator[tuple[Document, SetOff, int]]:
    """Of each document in advance what is left, and what of that falls to the places `wanted`, with tax."""
    by_number = {one.number: one for one in documents}
    for left in left_in_advance(documents):
        document = by_number[left.number]
        yield document, left, min(share_in_advance(document, wanted, shares, gone, documents), gross(left.rows))


def refunds_by_document(amount: int, advance: Sequence[SetOff]) -> Iterator[tuple[SetOff, tuple[TaxedSum, ...]]]:
    """A refund with tax, taken off the last document first: what is to be credited on each."""
    for one in reversed(advance):
        taken = min(amount, gross(one.rows))
        amount -= taken
        if taken:
            yield one, part_of(taken, one.rows)

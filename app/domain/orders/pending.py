"""What a revision that is out would make of an order that follows another: said before anybody says yes to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from app.domain.orders.order import Order
from app.domain.quotations.quotation import QuotationLine, Revision, Standing
from rules.money.totals import CaseTotal, with_tax


@dataclass(frozen=True, slots=True)
class MovedShell:
    """`shells` alike, each of which costs `each` more before tax (less, where below nothing), `taxed` with tax."""

    line: int
    shells: int
    each: int
    taxed: int


@dataclass(frozen=True, slots=True)
class Pending:
    """`case` None where a person must decide which of the later revision's tax cases holds."""

    letter: str
    case: CaseTotal | None
    moved: tuple[MovedShell, ...]


def pending(order: Order, revisions: Sequence[Revision]) -> Pending | None:
    """The last revision that is out and unanswered, held against what the order follows; None where there is none."""
    later = [one for one in revisions if one.id > order.revision.id and one.standing is Standing.ISSUED]
    if not later or later[-1].totals is None:
        return None
    last, totals = later[-1], later[-1].totals
    case = totals.cases[0] if totals.decided else None
    percent = Decimal(0) if case is None else max(part.percent for part in case.parts)
    return Pending(last.letter, case, tuple(_moved(order.revision.lines, last.lines, percent)))


def _moved(before: Sequence[QuotationLine], after: Sequence[QuotationLine], percent: Decimal) -> Iterator[MovedShell]:
    """Shells of the same specification that cost something else: those that stay, at what the others' going does."""
    for at, line in enumerate(after, start=1):
        was = next((one for one in before if _settled(one) == _settled(line)), None)
        old, new = None if was is None else _net(was), _net(line)
        if old is not None and new is not None and old != new:
            yield MovedShell(at, line.quantity, new - old, with_tax(new - old, percent))


def _settled(line: QuotationLine) -> dict[str, str]:
    return {} if line.frozen is None else dict(line.frozen.settled)


def _net(line: QuotationLine) -> int | None:
    return None if line.frozen is None else line.frozen.price.shell.net

"""A list of quotations made useful: to each row what it comes to and what it waits for, read all at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.quotation import QuotationRow
from app.domain.waiting import waits_for
from app.store import issued
from app.store.db import Store
from app.store.issued import IssuedSummary
from rules.totals import Totals


@dataclass(frozen=True, slots=True)
class ListedQuotation:
    """`totals` of the last revision that left the house, None before. `parts`, `approvals`: rules still to be met."""

    row: QuotationRow
    waits_for: str | None
    currency: str = ""
    totals: Totals | None = None
    parts: tuple[str, ...] = ()
    approvals: tuple[str, ...] = ()


def listed(store: Store, rows: Sequence[QuotationRow]) -> list[ListedQuotation]:
    """The rows in their order."""
    with store.reading() as db:
        out = issued.last_of(db, [row.number for row in rows])
    return [_listed(row, out.get(row.number)) for row in rows]


def _listed(row: QuotationRow, out: IssuedSummary | None) -> ListedQuotation:
    waits = waits_for(row.standing)
    if out is None:
        return ListedQuotation(row, waits)
    if waits is None:
        return ListedQuotation(row, waits, out.currency, out.totals)
    parts = tuple(dict.fromkeys(rule for one in out.depends for rule in one.parts))
    approvals = tuple(dict.fromkeys(rule for one in out.depends for rule in one.approvals))
    return ListedQuotation(row, waits, out.currency, out.totals, parts, approvals)

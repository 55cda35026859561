"""What a quotation waits for, so that a list says whose turn it is. Decides by its standing and its draft."""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.quotation import Standing

#: issue: ours, to be finished and issued. answer: the customer's. order: ours, to be confirmed. Else: nothing.
WAITS: Mapping[Standing, str] = {
    Standing.DRAFT: "issue",
    Standing.ISSUED: "answer",
    Standing.ACCEPTED: "order",
}


def waits_for(standing: Standing, draft: str | None = None) -> str | None:
    """What comes next; None: nothing is awaited any longer. `draft`: the letter of a later draft, ours to issue."""
    return WAITS[Standing.DRAFT] if draft is not None else WAITS.get(standing)

"""What a quotation waits for, so that a list says whose turn it is. Decides by how it stands alone."""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.quotation import Standing

#: issue: ours, to be finished and issued. answer: the customer's. order: ours, to be confirmed. Else: nothing.
WAITS: Mapping[Standing, str] = {
    Standing.DRAFT: "issue",
    Standing.ISSUED: "answer",
    Standing.ACCEPTED: "order",
}


def waits_for(standing: Standing) -> str | None:
    """What comes next; None where nothing is awaited any longer."""
    return WAITS.get(standing)

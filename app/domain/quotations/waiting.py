"""What a quotation waits for, so that a list says whose turn it is: by its standing, its draft and its order."""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.quotations.quotation import Standing

#: issue: ours, to be finished and issued. answer: the customer's. order: ours, to be confirmed. Else: nothing.
WAITS: Mapping[Standing, str] = {
    Standing.DRAFT: "issue",
    Standing.ISSUED: "answer",
    Standing.ACCEPTED: "order",
}


def waits_for(standing: Standing, draft: str | None = None, *, confirmed: bool = False) -> str | None:
    """What comes next; None: nothing is awaited any longer.

    `draft`: the letter of a later draft, ours to issue; `confirmed`: its order is, as the quotation stands.
    """
    if draft is not None:
        return WAITS[Standing.DRAFT]
    return None if confirmed else WAITS.get(standing)

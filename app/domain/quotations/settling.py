"""Whether the customer's yes or no may be recorded: pure decisions on a revision, its clock and who asks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from app.domain.errors import AnswerStands, Fault, Lapsed, NotIssued, Refusal
from app.domain.quotations.quotation import Outcome, Reply, Revision, Standing


def reply_faults(revision: Revision, standing: Standing, reply: Reply, now: datetime) -> Iterator[Fault]:
    """A yes needs a name, a no its reason; nobody answers before it is issued, nor tomorrow."""
    if standing is Standing.ACCEPTED and not reply.by.strip():
        yield Fault("said_by", "required")
    if standing is Standing.DECLINED and reply.reason is None:
        yield Fault("reason", "required")
    if reply.at > now:
        yield Fault("said_at", "in-the-future")
    elif revision.issued_at is not None and reply.at < revision.issued_at:
        yield Fault("said_at", "before-issue")


def refusal_of(number: str, revision: Revision, outcome: Outcome, *, by_dealer: bool) -> Refusal | None:
    """Why it can't be recorded, or None.

    A yes counts from when it was said: the office may record one late that came in time. A dealer speaks for himself,
    so his counts from when he records it.
    """
    letter = revision.letter
    if not revision.issued:
        return NotIssued(number=number, letter=letter)
    if revision.outcome is not None:
        return AnswerStands(number=number, letter=letter, why=revision.outcome.standing.value)
    if outcome.standing is Standing.ACCEPTED and _too_late(revision, outcome, by_dealer):
        return Lapsed(number=number, letter=letter, valid_until=revision.valid_until)
    return None


def _too_late(revision: Revision, outcome: Outcome, by_dealer: bool) -> bool:
    said = outcome.at if by_dealer or outcome.reply is None else outcome.reply.at
    return revision.valid_until is not None and said >= revision.valid_until

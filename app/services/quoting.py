"""Quotations: drafted, priced, issued, revised. Issuing freezes; nothing published or broken later changes what is out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.domain.actor import Actor
from app.domain.quotation import DeliveryPlace, Draft, Quotation, QuotationRow, Revision, Standing
from app.services.once import Once
from app.services.specifying import Answered
from app.store.db import Store
from rules.totals import Totals


@dataclass(frozen=True, slots=True)
class PricedRevision:
    """A revision as it would be issued now, or, issued, as its own book and tool states give it again.

    `answers`: one per line, in their order; None for a line that names what the book hasn't. `totals` None where a
    line can't be built, is not complete or not priced, or the place is missing.
    """

    revision: Revision
    book: int
    tool_state: int
    answers: tuple[Answered | None, ...]
    totals: Totals | None


def create_quotation(
    store: Store, actor: Actor, enquiry: int, price_list: str, place: DeliveryPlace, now: datetime, *, once: Once | None = None
) -> Quotation:
    """A new quotation with an empty draft A. Raises NotFound, BadInput, UnknownNames, KeyReused, Underway."""
    raise NotImplementedError


def quotation(store: Store, actor: Actor, number: str, now: datetime) -> Quotation:
    """With all revisions and its history. Raises NotFound, for another dealer's as for none."""
    raise NotImplementedError


def quotations(
    store: Store,
    actor: Actor,
    now: datetime,
    *,
    standing: Standing | None = None,
    text: str = "",
    page: int = 1,
    size: int = 50,
) -> tuple[QuotationRow, ...]:
    """The last changed first; `text` is sought in number, customer's name and donor number."""
    raise NotImplementedError


def save_draft(
    store: Store, actor: Actor, number: str, letter: str, draft: Draft, now: datetime, *, expected: int
) -> Revision:
    """Keeps what was typed, buildable or not. Raises NotFound, Frozen, ChangedByAnother, BadInput, UnknownNames."""
    raise NotImplementedError


def price_revision(store: Store, actor: Actor, number: str, letter: str, now: datetime) -> PricedRevision:
    """Answers and totals: a draft's against what is in force, an issued one's against its own numbers."""
    raise NotImplementedError


def next_revision(store: Store, actor: Actor, number: str, now: datetime, *, once: Once | None = None) -> Revision:
    """The next letter, a draft that copies the last. Raises NotFound, DraftStands, KeyReused, Underway."""
    raise NotImplementedError


def issue(
    store: Store, actor: Actor, number: str, letter: str, now: datetime, *, expected: int, once: Once | None = None
) -> Revision:
    """Freezes the revision, keeps its papers, supersedes the one before, all or nothing.

    Raises NotFound, Frozen, ChangedByAnother, a CannotIssue, KeyReused, Underway.
    """
    raise NotImplementedError


def paper(store: Store, actor: Actor, number: str, letter: str, language: str, size: str, now: datetime) -> bytes:
    """A PDF: an issued revision's as it was stored, a draft's made now and marked so. Raises NotFound."""
    raise NotImplementedError


def by_code(store: Store, code: str) -> tuple[str, str] | None:
    """(quotation number, revision letter) behind a paper's code; None where there is none. Tell nobody before sign-in."""
    raise NotImplementedError

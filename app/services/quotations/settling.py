"""Recording what the customer said to a revision that is out: yes, or no and why. Said once, kept beside it.

What was issued stays as it was. A later issue supersedes what nobody answered (`quoting.issue`); the clock lapses it.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.errors import Lapsed
from app.domain.quotations.quotation import Outcome, Reply, Revision, Standing
from app.domain.quotations.settling import refusal_of, reply_faults
from app.services.answering.checking import LONGEST_TEXT, long_faults, refuse
from app.services.answering.pricing import day_of
from app.services.books.publishing import book
from app.services.once import Once, perform
from app.services.planning.giving_back import follow_yes
from app.services.quotations.owned import note, own_revision, refuse_changed
from app.store import quotations as kept
from app.store.db import Store


def accept(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    reply: Reply,
    now: datetime,
    *,
    expected: int,
    once: Once | None = None,
) -> Revision:
    """The customer's yes, while it is valid: to the midnight that ends its last day where the firm is.

    It makes the order, or the order made before follows it; none is confirmed. Raises NotFound, NotIssued,
    AnswerStands, Lapsed, ChangedByAnother, BadInput, KeyReused, Underway.
    """
    return _settle(store, actor, number, letter, Outcome(Standing.ACCEPTED, now, actor.name, reply), expected, once)


def decline(
    store: Store,
    actor: Actor,
    number: str,
    letter: str,
    reply: Reply,
    now: datetime,
    *,
    expected: int,
    once: Once | None = None,
) -> Revision:
    """The customer's no, with its reason; of a lapsed one, too. Raises as `accept`, but never Lapsed."""
    return _settle(store, actor, number, letter, Outcome(Standing.DECLINED, now, actor.name, reply), expected, once)


def _settle(
    store: Store, actor: Actor, number: str, letter: str, outcome: Outcome, expected: int, once: Once | None
) -> Revision:
    def record(db: Database) -> str:
        revision = own_revision(db, actor, number, letter, outcome.at)
        _refuse(store, actor, number, revision, outcome)
        refuse_changed(number, revision, expected)
        kept.settle(db, number, revision.id, outcome)
        note(db, number, letter, f"revision-{outcome.standing.value}", actor, outcome.at, **_facts(outcome))
        _order(store, db, actor, number, revision, outcome)
        return letter

    perform(store, once, outcome.at, record)
    with store.reading() as db:
        return own_revision(db, actor, number, letter, outcome.at)


def _order(store: Store, db: Database, actor: Actor, number: str, revision: Revision, outcome: Outcome) -> None:
    """A yes makes the order, or the order that there is follows it; it confirms none."""
    if outcome.standing is Standing.ACCEPTED and revision.book is not None:
        follow_yes(store, db, actor, book(store, revision.book), number, revision, outcome.at)


def _refuse(store: Store, actor: Actor, number: str, revision: Revision, outcome: Outcome) -> None:
    refusal = refusal_of(number, revision, outcome, by_dealer=actor.dealer is not None)
    if isinstance(refusal, Lapsed) and revision.book is not None and revision.valid_until is not None:
        own_book = book(store, revision.book)
        refusal.facts["day"] = day_of(own_book, revision.valid_until - timedelta(microseconds=1))
        refusal.facts["zone"] = own_book.calendar.zone
    if refusal is not None:
        raise refusal
    if outcome.reply is not None:
        reply = outcome.reply
        refuse(reply_faults(revision, outcome.standing, reply, outcome.at))
        refuse((*long_faults("said_by", reply.by), *long_faults("note", reply.note, LONGEST_TEXT)))


def _facts(outcome: Outcome) -> dict[str, str]:
    reply = outcome.reply
    if reply is None:
        return {}
    reason = {} if reply.reason is None else {"reason": reply.reason.value}
    return {"said_by": reply.by, "said_at": reply.at.isoformat(), **reason}

"""How an order stands with its money: its payments, its documents, and what follows from both. Writes nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.money.account import Account, account_of
from app.domain.money.crediting import balances_in, credits_of, left_in_advance, parts_in_advance
from app.domain.money.invoice import Document, Kind
from app.domain.money.payment import Payment
from app.domain.orders.order import Deal, Order, OrderRow, case_of, deal_of
from app.domain.orders.pending import Pending, pending
from app.domain.quotations.quotation import PaperKept
from app.services.money.sharing import cancelled_since, shares_of, to_bill
from app.services.orders.ordering import own_order
from app.store import invoices, orders, payments, quotations
from app.store.db import Store
from rules.money.settlement import gross


@dataclass(frozen=True, slots=True)
class Opened:
    """An order with its money. `papers`: of each document, by its number, those that are stored.

    `pending`: a later revision that is out, and what a yes to it would move.
    """

    order: Order
    payments: tuple[Payment, ...]
    documents: tuple[Document, ...]
    account: Account
    papers: Mapping[str, tuple[PaperKept, ...]]
    pending: Pending | None = None


def open_order(store: Store, actor: Actor, number: str, now: datetime) -> Opened:
    """Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        return opened(store, db, actor, number, now)


def opened(store: Store, db: Database, actor: Actor, number: str, now: datetime) -> Opened:
    """For use inside a transaction. A dealer is shown no worksheet: it says what the firm thought."""
    order = own_order(db, actor, number, now)
    paid, written = payments.of(db, order.id), invoices.of(db, order.id)
    shown = tuple(one for one in written if actor.dealer is None or one.kind is not Kind.WORKSHEET)
    papers = {one.number: invoices.papers(db, one.id) for one in shown}
    quotation = quotations.get(db, order.quotation, actor.dealer, now)
    out = None if quotation is None else pending(order, quotation.revisions)
    return Opened(order, paid, shown, account(store, db, order, paid, written), papers, out)


def deposit_met(db: Database, order: Order) -> bool:
    """For use inside a transaction, with whatever was written in it."""
    return _account(db, deal_of(order), payments.of(db, order.id), invoices.of(db, order.id)).deposit_met


def account(store: Store, db: Database, order: Order, paid: Sequence[Payment], written: Sequence[Document]) -> Account:
    """For use inside a transaction."""
    return _account(db, deal_of(order), paid, written, _left(store, order, written))


@dataclass(frozen=True, slots=True)
class _Left:
    """Of an order with cancelled shells, with tax: what stands in advance for them, and what the others still cost."""

    kept: int
    to_come: int = 0


def _left(store: Store, order: Order, written: Sequence[Document]) -> _Left | None:
    """None where none of its shells is cancelled, or nobody has decided yet what the others cost."""
    gone = cancelled_since(order)
    if len(gone) == len(order.shells):
        return _Left(_in_advance(written))
    if not gone or case_of(order) is None:
        return None
    shares = shares_of(store, order)
    to_come = to_bill(order, shares, written)
    theirs = sum(part for _, _, part in parts_in_advance(to_come, shares, gone, written))
    return _Left(_in_advance(written) - theirs, sum(shares[place] for place in to_come))


def in_advance_of_what_comes(store: Store, order: Order, written: Sequence[Document]) -> int:
    """What was billed in advance and not set off yet, with tax, but for what stands for cancelled shells."""
    left = _left(store, order, written)
    return _in_advance(written) - (0 if left is None else left.kept)


def _in_advance(written: Sequence[Document]) -> int:
    return sum(gross(one.rows) for one in left_in_advance(written))


def _account(
    db: Database, deal: Deal, paid: Sequence[Payment], written: Sequence[Document], left: _Left | None = None
) -> Account:
    balances = balances_in(written)
    parts = [None if not one.content.billed else sum(part.share for part in one.content.billed) for one in balances]
    return account_of(
        deal.currency,
        deal.case,
        paid,
        tolerance=payments.tolerance(db, deal.currency),
        billed=sum(one.content.sum.with_tax for one in balances) if balances else None,
        stands_for=None if None in parts else sum(part for part in parts if part is not None),
        credited=sum(credited.content.sum.with_tax for one in balances for credited in credits_of(one, written)),
        kept=None if left is None else left.kept,
        to_come=0 if left is None else left.to_come,
    )


def accounts_of(store: Store, rows: Sequence[OrderRow]) -> Mapping[str, Account]:
    """For a page of a list, by the order's number; only those of which some shells are cancelled are opened for it."""
    with store.reading() as db:
        numbers = [row.number for row in rows]
        deals = orders.deals(db, numbers)
        return {row.number: _account_of(store, db, row, deals[row.number]) for row in rows}


def _account_of(store: Store, db: Database, row: OrderRow, deal: Deal) -> Account:
    """What was billed in advance is read only where it may be all that stands."""
    paid = payments.of(db, row.id)
    if row.cancelled is None:
        return _account(db, deal, paid, invoices.billed(db, row.id))
    written = invoices.of(db, row.id)
    if row.cancelled:
        return _account(db, deal, paid, written, _Left(_in_advance(written)))
    # Only whether its quotation has lapsed hangs on the time.
    order = orders.get(db, row.number, None, row.made_at)
    assert order is not None
    return account(store, db, order, paid, written)

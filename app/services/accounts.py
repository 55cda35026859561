"""How an order stands with its money: its payments, its documents, and what follows from both. Writes nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.account import Account, account_of
from app.domain.actor import Actor
from app.domain.crediting import balances_in, credits_of, left_in_advance
from app.domain.invoice import Document, Kind
from app.domain.order import Deal, Order, OrderRow, deal_of
from app.domain.payment import Payment
from app.domain.pending import Pending, pending
from app.domain.quotation import PaperKept
from app.domain.shell import ShellState
from app.services.ordering import own_order
from app.store import invoices, orders, payments, quotations
from app.store.db import Store
from rules.settlement import gross


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
        return opened(db, actor, number, now)


def opened(db: Database, actor: Actor, number: str, now: datetime) -> Opened:
    """For use inside a transaction. A dealer is shown no worksheet: it says what the firm thought."""
    order = own_order(db, actor, number, now)
    paid, written = payments.of(db, order.id), invoices.of(db, order.id)
    shown = tuple(one for one in written if actor.dealer is None or one.kind is not Kind.WORKSHEET)
    papers = {one.number: invoices.papers(db, one.id) for one in shown}
    quotation = quotations.get(db, order.quotation, actor.dealer, now)
    out = None if quotation is None else pending(order, quotation.revisions)
    return Opened(order, paid, shown, account(db, order, paid, written), papers, out)


def deposit_met(db: Database, order: Order) -> bool:
    """For use inside a transaction, with whatever was written in it."""
    return account(db, order, payments.of(db, order.id), invoices.of(db, order.id)).deposit_met


def account(db: Database, order: Order, paid: Sequence[Payment], written: Sequence[Document]) -> Account:
    return _account(db, deal_of(order), paid, written, cancelled=order.state is ShellState.CANCELLED)


def _account(
    db: Database, deal: Deal, paid: Sequence[Payment], written: Sequence[Document], *, cancelled: bool = False
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
        kept=sum(gross(one.rows) for one in left_in_advance(written)) if cancelled else None,
    )


def accounts_of(store: Store, rows: Sequence[OrderRow]) -> Mapping[str, Account]:
    """For a page of a list, by the order's number; no order is opened for it."""
    with store.reading() as db:
        numbers = [row.number for row in rows]
        deals, cancelled = orders.deals(db, numbers), orders.cancelled(db, numbers)
        return {row.number: _account_of(db, row, deals[row.number], row.number in cancelled) for row in rows}


def _account_of(db: Database, row: OrderRow, deal: Deal, cancelled: bool) -> Account:
    """What was billed in advance is read only where it is all that may stand."""
    written = invoices.of(db, row.id) if cancelled else invoices.billed(db, row.id)
    return _account(db, deal, payments.of(db, row.id), written, cancelled=cancelled)

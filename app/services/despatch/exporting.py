"""Whether an exported order leaves in time. Writes nothing."""

from __future__ import annotations

from app.domain.asking.actor import Actor
from app.domain.money.export import ExportLimit, paid_in_full
from app.services.despatch.evidence import exported
from app.services.money.accounts import account
from app.services.planning.promising import OrderDates, Shown
from app.store import invoices, payments
from app.store.db import Store
from rules.schedule.promise import Promise


def export_limit(store: Store, actor: Actor, dates: OrderDates) -> ExportLimit | None:
    """For the office, where the order is untaxed as an export and every shell has its date; else None."""
    promises = [_promise_of(shell) for shell in dates.shells]
    if actor.dealer is not None or not exported(dates.order):
        return None
    dated = [promise for promise in promises if promise is not None]
    if not dated or len(dated) < len(promises):
        return None
    with store.reading() as db:
        paid = payments.of(db, dates.order.id)
        stands = account(store, db, dates.order, paid, invoices.of(db, dates.order.id))
    day = paid_in_full(stands.payable or 0, stands.currency, paid)
    last = max(dated, key=lambda promise: promise.ready_by)
    return ExportLimit(day or dates.today, day is None, last.ready, last.ready_by)


def _promise_of(shell: Shown) -> Promise | None:
    return shell.now if shell.kept is None else shell.kept.promise

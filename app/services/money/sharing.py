"""The shells of an order in their places, and what part of its price falls to each. Writes nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from app.domain.errors import TaxUndecided
from app.domain.floor.shell import Deed, ShellState
from app.domain.money.crediting import balance_of_place
from app.domain.money.invoice import BESIDE_THE_SHELLS, Document
from app.domain.orders.order import Order, OrderLine, Shell, case_of
from app.domain.quotations.quotation import FrozenLine
from app.services.answering.pricing import Deal, cases_of, day_of
from app.services.books.publishing import book as book_of
from app.store.db import Store
from rules.model import Book
from rules.money.settlement import shared_by
from rules.money.tax import TaxCase, TaxRefusal
from rules.money.totals import CaseTotal


@dataclass(frozen=True, slots=True)
class Placed:
    """A shell at its place in the order, from 1."""

    place: int
    line: OrderLine
    shell: Shell

    @property
    def frozen(self) -> FrozenLine:
        """What it is built as."""
        return self.line.frozen_of(self.shell)


def decided_case(order: Order) -> CaseTotal:
    """The tax case that holds. Raises TaxUndecided."""
    case = case_of(order)
    if case is None:
        raise TaxUndecided(number=order.number)
    return case


def placed(order: Order) -> tuple[Placed, ...]:
    """Every shell at its place."""
    each = ((line, shell) for line in order.lines for shell in line.shells)
    return tuple(Placed(place, line, shell) for place, (line, shell) in enumerate(each, start=1))


def shares_of(store: Store, order: Order) -> Mapping[int, int]:
    """Place → its part of the price with tax; together they are the price. Raises TaxUndecided."""
    case, of = decided_case(order), book_of(store, order.revision.book or 0)
    deal, every = deal_of(of, order), placed(order)
    percents = {one.place: taxed_as(deal, case, one.frozen).percent for one in every}
    weights = {one.place: _with_tax(agreed_net(one.frozen), percents[one.place]) for one in every}
    if order.frozen.extras:
        beside = sum(extra.net or 0 for extra in order.frozen.extras)
        weights[BESIDE_THE_SHELLS] = _with_tax(beside, max(percents.values()))
    return dict(zip(weights, shared_by([*weights.values()], case.sum.payable), strict=True))


def cancelled_since(order: Order) -> Mapping[int, datetime]:
    """The places whose shell is cancelled, and since when."""
    gone = (one for one in placed(order) if one.shell.state is ShellState.CANCELLED)
    return {one.place: max(done.at for done in one.shell.deeds if done.deed is Deed.CANCELLED) for one in gone}


def to_bill(order: Order, shares: Mapping[int, int], documents: Sequence[Document]) -> tuple[int, ...]:
    """Those of the places that no balance document bills yet and whose shell is not cancelled.

    What an order has beside its shells goes with them: once all are cancelled nothing is left to bill.
    """
    gone = cancelled_since(order)
    if len(gone) == len(order.shells):
        return ()
    return tuple(place for place in shares if place not in gone and balance_of_place(place, documents) is None)


def _with_tax(net: int, percent: Decimal) -> Fraction:
    return net * (100 + Fraction(percent)) / 100


def agreed_net(frozen: FrozenLine) -> int:
    """Of one shell, before tax."""
    return frozen.price.shell.net or 0


def taxed_as(deal: Deal, case: CaseTotal, frozen: FrozenLine) -> TaxCase:
    """The tax case that the shell falls under, as quotation and change notes worked it out."""
    cases = cases_of(deal, frozen.settled)
    if isinstance(cases, TaxRefusal):
        raise LookupError(cases.why)
    return next((one for one in cases if one.kind == case.kind), cases[0])


def deal_of(of: Book, order: Order) -> Deal:
    """What its quotation was worked out by."""
    frozen, revision = order.frozen, order.revision
    day = day_of(of, revision.issued_at or order.made_at)
    return Deal(of, frozen.donor.facts(), frozen.tariff, order.place, frozen.customer.country, day)

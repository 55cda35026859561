"""How the shells of an order stand on their way out of the house, and what keeps each of them in. Writes nothing."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.despatch.consignment import Paper
from app.domain.despatch.despatch import Despatched, Owed, Packing, Standing, credit_on, keeps, left_open
from app.domain.errors import Fault, NotFound
from app.domain.floor.rework import open_rework
from app.domain.floor.shell import ShellState
from app.domain.inspection.concession import Concession, holding
from app.domain.money.account import received_of
from app.domain.money.crediting import balance_of_place, due_of, in_advance
from app.domain.money.export import ExportEvidence
from app.domain.money.invoice import Document
from app.domain.money.payment import Payment
from app.domain.orders.order import Order, case_of
from app.domain.quotations.quotation import PaperKept
from app.services.answering.pricing import day_of
from app.services.books.publishing import book as book_of
from app.services.despatch.evidence import evidence_of
from app.services.floor.stopping import stopped
from app.services.inspection.inspecting import inspected
from app.services.money.sharing import Placed, placed
from app.services.orders.ordering import own_order
from app.store import concessions, despatches, invoices, payments, rework
from app.store import shells as kept_shells
from app.store.db import Store
from rules.inspection.subject import Phase
from rules.model import Book
from rules.money.settlement import gross


@dataclass(frozen=True, slots=True)
class Leaving:
    """A shell at its place in its order. `due`: what the invoice of its balance leaves to pay.

    `keeps`: all that keeps it in the house; empty where it may go, and once it has left. `record`: the code of its
    as-built record.
    `papers`: those that can be had, with what is stored of each. `evidence`: that an export left; None for any other.
    """

    order: Order
    book: Book
    placed: Placed
    standing: Standing
    keeps: tuple[Fault, ...]
    due: int | None = None
    despatched: Despatched | None = None
    record: str | None = None
    conceded: tuple[Concession, ...] = ()
    evidence: ExportEvidence | None = None
    papers: Mapping[Paper, tuple[PaperKept, ...]] = field(default_factory=dict)


def of_order(store: Store, actor: Actor, number: str, now: datetime) -> tuple[Leaving, ...]:
    """Every shell of one order. Raises NotFound, for another dealer's as for none."""
    with store.reading() as db:
        return tuple(_each(store, db, own_order(db, actor, number, now), now))


def of_shell(store: Store, actor: Actor, key: int, now: datetime) -> Leaving:
    """Raises NotFound."""
    with store.reading() as db:
        return leaving(store, db, actor, key, now)


def leaving(store: Store, db: Database, actor: Actor, key: int, now: datetime) -> Leaving:
    """For use inside a transaction. Raises NotFound."""
    number = kept_shells.order_of(db, key)
    if number is not None:
        for one in _each(store, db, own_order(db, actor, number, now), now):
            if one.placed.shell.id == key:
                return one
    raise NotFound(what="shell", name=str(key))


def going(store: Store, actor: Actor, now: datetime) -> tuple[Leaving, ...]:
    """Of every confirmed order the shells that are ready or on hold with nothing left to do, and those that left."""
    with store.reading() as db:
        numbers = kept_shells.of_confirmed(db)
        found = [one for number in numbers for one in _own(store, db, actor, number, now)]
    return tuple(one for one in found if one.standing.state in (ShellState.READY, ShellState.DESPATCHED))


def _own(store: Store, db: Database, actor: Actor, number: str, now: datetime) -> Iterator[Leaving]:
    try:
        order = own_order(db, actor, number, now)
    except NotFound:
        return
    yield from _each(store, db, order, now)


def _each(store: Store, db: Database, order: Order, now: datetime) -> Iterator[Leaving]:
    book = book_of(store, order.revision.book or 0)
    money, today = _money(db, order), day_of(book, now)
    for one in placed(order):
        gone, document = money.left.get(one.shell.id), balance_of_place(one.place, money.documents)
        shop = _Shop.of(store, db, one, now)
        standing = _standing(db, book, order, one, money, today, now, shop)
        yield Leaving(
            order=order,
            book=book,
            placed=one,
            standing=standing,
            keeps=() if gone is not None else keeps(standing, today),
            due=None if document is None else due_of(document, money.documents),
            despatched=gone,
            record=despatches.record_code(db, one.shell.id),
            evidence=None if gone is None else _evidence(db, book, order, gone, money),
            conceded=holding(concessions.of_shell(db, one.shell.id)),
            papers=_papers(db, standing, gone),
        )


@dataclass(frozen=True, slots=True)
class _Shop:
    """What the workshop's own records say of a shell that is ready; of any other nothing is asked."""

    stops: tuple[Fault, ...] = ()
    overcoat_by: date | None = None
    acknowledged: str = ""
    inspected: bool = True
    out: tuple[str, ...] = ()

    @classmethod
    def of(cls, store: Store, db: Database, one: Placed, now: datetime) -> _Shop:
        if one.shell.state is not ShellState.READY:
            return cls()
        found = inspected(store, db, _OFFICE, one.shell.id, now)
        coat = found.overcoat
        words = "" if coat is None or coat.words is None else f"{coat.words.said_by}: {coat.words.words}"
        return cls(
            stops=stopped(store, db, _OFFICE, one.shell.id, now),
            overcoat_by=None if coat is None else coat.by,
            acknowledged=words,
            inspected=found.passed(Phase.COATED) is not None,
            out=found.failed,
        )


@dataclass(frozen=True, slots=True)
class _Money:
    """`free`: received, and billed by no document in advance. `left`: the key of a shell that left → how it did."""

    documents: tuple[Document, ...]
    payments: tuple[Payment, ...]
    free: int
    left: Mapping[int, Despatched]

    @property
    def gone(self) -> frozenset[int]:
        """Places of shells that left."""
        return frozenset(one.place for one in self.left.values())


def _money(db: Database, order: Order) -> _Money:
    documents, paid = invoices.of(db, order.id), payments.of(db, order.id)
    billed = sum(gross(one.rows) for one in in_advance(documents))
    free = received_of(paid, order.frozen.currency) - billed
    return _Money(documents, paid, free, despatches.of_order(db, order.id))


def _evidence(db: Database, book: Book, order: Order, gone: Despatched, money: _Money) -> ExportEvidence | None:
    return evidence_of(db, book, order, gone, money.left.values(), money.documents, money.payments)


def _standing(
    db: Database, book: Book, order: Order, one: Placed, money: _Money, today: date, now: datetime, shop: _Shop
) -> Standing:
    document, key = balance_of_place(one.place, money.documents), one.shell.id
    own = left_open(_owed({*money.gone, one.place}, money.documents), money.free)
    credit = _credit(db, order, today)
    elsewhere = _owed_elsewhere(db, order, now) if credit and own else 0
    return Standing(
        state=one.shell.state,
        currency=order.frozen.currency,
        invoice=None if document is None else document.number,
        open=own + elsewhere,
        credit=credit,
        packing=despatches.packing(db, key),
        abroad=_abroad(order, book),
        untaxed=_untaxed(order),
        concessions=tuple(str(asked.subject) for asked in concessions.of_shell(db, key) if asked.answer is None),
        rework=tuple(str(found.subject) for found in open_rework(rework.of_shell(db, key))),
        overcoat_by=shop.overcoat_by,
        acknowledged=shop.acknowledged,
        inspected=shop.inspected,
        out=shop.out,
        stops=shop.stops,
        dealers=order.dealer is not None,
    )


def _papers(db: Database, stands: Standing, gone: Despatched | None) -> dict[Paper, tuple[PaperKept, ...]]:
    """Those that can be had, with what is stored of each; none before it is packed."""
    if stands.packing is None:
        return {}
    wanted = (one for one in Paper if stands.abroad or one is not Paper.EXPORT_DATA)
    return {one: () if gone is None else despatches.papers(db, gone.number, one.value) for one in wanted}


def _owed(places: Collection[int], documents: Sequence[Document]) -> Iterator[Owed]:
    for place in places:
        document = balance_of_place(place, documents)
        if document is not None:
            yield Owed(document.number, due_of(document, documents))


def _credit(db: Database, order: Order, today: date) -> int:
    if order.dealer is None:
        return 0
    return credit_on(despatches.credits(db, order.dealer), order.frozen.currency, today)


def _owed_elsewhere(db: Database, order: Order, now: datetime) -> int:
    """What the same dealer owes in that currency for shells of his other orders that left."""
    assert order.dealer is not None
    owed = 0
    for number in despatches.orders_of_dealer(db, order.dealer):
        other = own_order(db, _OFFICE, number, now)
        if other.id != order.id and other.frozen.currency == order.frozen.currency:
            money = _money(db, other)
            owed += left_open(_owed(money.gone, money.documents), money.free)
    return owed


@dataclass(frozen=True, slots=True)
class _Anybody:
    """Who asks for what the firm itself must know: no dealer narrows it."""

    name: str = ""
    display_name: str = ""
    dealer: str | None = None


_OFFICE = _Anybody()


def _abroad(order: Order, book: Book) -> bool:
    return order.place.country != book.tax.home or _untaxed(order)


def _untaxed(order: Order) -> bool:
    case = case_of(order)
    return case is not None and any(part.percent == 0 for part in case.parts)


def packing_of(store: Store, key: int) -> Packing | None:
    """As it was last typed."""
    with store.reading() as db:
        return despatches.packing(db, key)

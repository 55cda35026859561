"""The heart: what the book and the tools say about a specification, with its price and totals. Saves nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime

from app.domain.asking.actor import Actor
from app.domain.books.tool_state import ToolStates
from app.domain.errors import BookTooBranched, Fault
from app.domain.quotations.quotation import DeliveryPlace
from app.services.answering import checking
from app.services.answering.pricing import Deal, Sum, day_of, dealer_of, sum_of, tariff_of
from app.services.books import compiling
from app.services.books.publishing import book as book_of
from app.services.books.publishing import current_book
from app.services.books.tools import tool_states
from app.services.planning.readying import Ready, ready_of
from app.store.db import Store
from rules.answer import Answer, Verdict
from rules.donor.usual import key_options, usual_specification
from rules.engine.ask import ask
from rules.engine.diagram import TooLarge
from rules.engine.prepare import LIMIT, Prepared
from rules.engine.without_diagram import WithoutDiagram
from rules.model import Book, Role, ToolCondition
from rules.money.price import ShellPrice, price_shell
from rules.money.tax import TaxRefusal
from rules.money.totals import Totals
from rules.specification import Donor, Specification


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked. `book` and `tool_state` None: those in force.

    `price_list` None: the dealer's own, else the first of the book. `trade_of`: the dealer whose terms hold; a dealer
    who asks always gets his own, whatever stands here. `delivery_country`/`customer_country` None: totals are left out
    where tax can't be told without them.
    """

    specification: Specification
    donor: Donor = field(default_factory=Donor)
    price_list: str | None = None
    trade_of: str | None = None
    delivery_country: str | None = None
    delivery_region: str | None = None
    customer_country: str | None = None
    quantity: int = 1
    book: int | None = None
    tool_state: int | None = None


@dataclass(frozen=True, slots=True)
class Answered:
    """`price` is of one shell, of what is settled so far, and None where it can't be built.

    `totals` None unless complete, buildable, priced and placed; `untold`: why no tax case can be named, if that is why.
    `ready`: of what is settled so far; None where it can't be built. `prepared`: the book, to ask on.
    """

    book: Book
    tools: ToolStates
    price_list: str
    currency: str
    answer: Answer
    price: ShellPrice | None
    totals: Totals | None
    untold: TaxRefusal | None = None
    ready: Ready | None = None
    prepared: Prepared | WithoutDiagram | None = field(default=None, compare=False, repr=False)


def answer(store: Store, actor: Actor, asked: Asked, now: datetime) -> Answered:
    """The full answer. Raises NoBook, NotFound (book or tool-state number), UnknownNames or BadInput, every fault."""
    deal, tools = deal_of(store, actor, asked, now)
    return answered(store, deal, tools, asked.specification, asked.quantity)


def deal_of(
    store: Store, actor: Actor, asked: Asked, now: datetime, more: Callable[[Book], Iterable[Fault]] = lambda book: ()
) -> tuple[Deal, ToolStates]:
    """What is asked of whom, on which terms; `more`: what else is at fault. Raises as `answer` does."""
    with store.reading() as db:
        book = current_book(store, now) if asked.book is None else book_of(store, asked.book)
        tools = tool_states(store, asked.tool_state)
        checking.refuse((*_faults(book, asked), *more(book)))
        tariff = tariff_of(book, dealer_of(db, actor, asked.trade_of), asked.price_list)
    place = DeliveryPlace(asked.delivery_country or "", asked.delivery_region or "")
    return Deal(book, asked.donor, tariff, place, asked.customer_country or "", day_of(book, now)), tools


def answered(store: Store, deal: Deal, tools: ToolStates, specification: Specification, quantity: int) -> Answered:
    """The answer for a deal that is known to be well named; `quantity` shells of it alone."""
    prepared, said = said_of(store, deal, tools, specification)
    summed = _sum(deal, said, quantity)
    return Answered(
        book=deal.book,
        tools=tools,
        price_list=deal.tariff.list,
        currency=deal.currency,
        answer=said,
        price=_price(deal, said, quantity),
        totals=None if summed is None else summed.totals,
        untold=None if summed is None else summed.untold.get(0),
        ready=None if said.verdict is Verdict.CANT else ready_of(deal.book, said.settled, deal.donor, said.depends),
        prepared=prepared,
    )


def said_of(
    store: Store, deal: Deal, tools: ToolStates, specification: Specification
) -> tuple[Prepared | WithoutDiagram, Answer]:
    """What the book says, and the book made ready, to ask on."""
    prepared = compiling.ready(store, deal.book, tools.conditions(), deal.donor)
    return prepared, ask(prepared, specification, deal.tariff)


def prepared_book(store: Store, book: Book, conditions: dict[str, ToolCondition], donor: Donor) -> Prepared:
    """The compiled book, kept for all donor cars that the book does not tell apart. Raises BookTooBranched."""
    try:
        return compiling.compiled(store, book, conditions, donor)
    except TooLarge:
        raise BookTooBranched(limit=LIMIT) from None


def usual(store: Store, series: str, market: str, body: str, donor: Donor, now: datetime) -> dict[str, str]:
    """option → what the original car had, in the book in force. Raises UnknownNames, BadInput, NoBook."""
    book = current_book(store, now)
    asked = {Role.SERIES: series, Role.MARKET: market, Role.BODY: body}
    keys = {book.roles[role]: choice for role, choice in asked.items() if role in book.roles}
    named = {role.value: choice for role, choice in asked.items()}
    checking.refuse((*checking.key_faults(book, named), *_donor_faults(book, donor)))
    return usual_specification(book, {key: keys[key] for key in key_options(book)}, donor)


def _faults(book: Book, asked: Asked) -> tuple[Fault, ...]:
    return (
        *checking.specification_faults(book, asked.specification, "specification"),
        *_donor_faults(book, asked.donor),
        *(() if asked.price_list is None else checking.list_faults(book, asked.price_list)),
        *checking.country_faults(asked.delivery_country or "", "delivery_place.country"),
        *checking.country_faults(asked.customer_country or "", "customer_country"),
        *checking.quantity_faults("quantity", asked.quantity),
    )


def _donor_faults(book: Book, donor: Donor) -> tuple[Fault, ...]:
    return tuple(checking.donor_facts_faults(book, donor.series, donor.number, donor.gearbox, "donor"))


def _price(deal: Deal, said: Answer, quantity: int) -> ShellPrice | None:
    if said.verdict is Verdict.CANT:
        return None
    return price_shell(deal.book, said.settled, deal.donor, deal.tariff, quantity)


def _sum(deal: Deal, said: Answer, quantity: int) -> Sum | None:
    if said.verdict is Verdict.CANT or not said.complete:
        return None
    return sum_of(deal, [(said.settled, quantity)], {})

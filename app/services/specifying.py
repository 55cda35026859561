"""The heart: what the book and the tools say about a specification, with its price and totals. Saves nothing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.domain.actor import Actor
from app.domain.tool_state import ToolStates
from app.store.db import Store
from rules.answer import Answer
from rules.model import Book
from rules.price import ShellPrice
from rules.specification import Donor, Specification
from rules.totals import Totals


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked. `book` and `tool_state` None: those in force.

    `price_list` None: the dealer's own, else the first of the book. `trade_of`: the dealer whose terms hold; a dealer
    who asks always gets his own, whatever stands here. `delivery_country`/`customer_country` None: totals are left out
    where tax can't be told without them.
    """

    specification: Specification
    donor: Donor = Donor()
    price_list: str | None = None
    trade_of: str | None = None
    delivery_country: str | None = None
    customer_country: str | None = None
    quantity: int = 1
    book: int | None = None
    tool_state: int | None = None


@dataclass(frozen=True, slots=True)
class Answered:
    """`price` None while nothing is settled that costs; `totals` None unless complete, buildable, priced and placed."""

    book: Book
    tools: ToolStates
    price_list: str
    currency: str
    answer: Answer
    price: ShellPrice | None
    totals: Totals | None


def answer(store: Store, actor: Actor, asked: Asked, now: datetime) -> Answered:
    """The full answer. Raises NoBook, NotFound (book or tool-state number), UnknownNames with every unknown name."""
    raise NotImplementedError


def usual(store: Store, series: str, market: str, body: str, donor: Donor, now: datetime) -> dict[str, str]:
    """option → what the original car had, in the book in force. Raises UnknownNames, NoBook."""
    raise NotImplementedError

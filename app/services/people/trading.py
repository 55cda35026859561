"""Dealers' trade terms: the list that each is quoted from, and what is taken off by category. What is out stays."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.customers.dealer import Dealer
from app.domain.errors import ChangedByAnother, Fault, NotFound
from app.domain.quotations.quotation import Happening
from app.services.answering.checking import blank_faults, is_percent, list_faults, long_faults, refuse
from app.services.books.publishing import current_book
from app.store import dealers, history
from app.store.db import Store
from rules.model import Book

LEAST, MOST, DECIMALS = Decimal(0), Decimal(100), 2


@dataclass(frozen=True, slots=True)
class Terms:
    """A dealer as he stands, everything that was ever changed of his terms; `version` counts the changes from 1."""

    dealer: Dealer
    history: tuple[Happening, ...]

    @property
    def version(self) -> int:
        return 1 + len(self.history)


def every(store: Store) -> tuple[Terms, ...]:
    """By the dealer's name."""
    with store.reading() as db:
        return tuple(_terms(db, one) for one in dealers.every(db))


def of(store: Store, dealer: str) -> Terms:
    """Raises NotFound."""
    with store.reading() as db:
        return _terms(db, _dealer(db, dealer))


def change(
    store: Store,
    actor: Actor,
    dealer: str,
    price_list: str,
    discounts: Mapping[str, str],
    why: str,
    now: datetime,
    *,
    expected: int,
) -> Terms:
    """For what is quoted from now on; what is issued keeps its prices. `discounts`: category → percent as text.

    Raises NotFound, BadInput, UnknownNames, ChangedByAnother.
    """
    book = current_book(store, now)
    refuse(_faults(book, price_list, discounts, why))
    with store.writing() as db:
        found = _terms(db, _dealer(db, dealer))
        if found.version != expected:
            raise ChangedByAnother(what="dealer", name=found.dealer.name, expected=expected, actual=found.version)
        after = replace(found.dealer, price_list=price_list, discounts=_percents(discounts))
        if after != found.dealer:
            dealers.put(db, after)
            facts = {"dealer": after.name, "before": _told(found.dealer), "after": _told(after), "why": why.strip()}
            history.add(db, "dealer", dealer, "trade-terms-changed", actor.name, now, **facts)
        return _terms(db, _dealer(db, dealer))


def _percents(discounts: Mapping[str, str]) -> dict[str, Decimal]:
    return {category: Decimal(text) for category, text in discounts.items()}


def _told(dealer: Dealer) -> str:
    """As in GBP, A 12.5 %, B 5 %."""
    percents = (f"{category} {percent.normalize():f} %" for category, percent in sorted(dealer.discounts.items()))
    return ", ".join((dealer.price_list, *percents))


def _faults(book: Book, price_list: str, discounts: Mapping[str, str], why: str) -> Iterator[Fault]:
    yield from list_faults(book, price_list)
    yield from (*blank_faults("why", why), *long_faults("why", why))
    known = {category.id for category in book.categories}
    for category, text in discounts.items():
        if category not in known:
            yield Fault(f"discounts.{category}", "unknown-category", {"name": category})
        elif not is_percent(text, LEAST, MOST, DECIMALS):
            yield Fault(f"discounts.{category}", "not-a-percent", {"least": LEAST, "most": MOST})


def _dealer(db: Database, dealer: str) -> Dealer:
    found = dealers.get(db, dealer)
    if found is None:
        raise NotFound(what="dealer", name=dealer)
    return found


def _terms(db: Database, dealer: Dealer) -> Terms:
    told = (entry for entry in history.of(db, "dealer", dealer.id) if entry.what == "trade-terms-changed")
    return Terms(dealer, tuple(told))

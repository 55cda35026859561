"""What the packing of a shell could list, from what is recorded: customers' parts, what the book sends, extras."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.actor import Actor
from app.domain.order import Order
from app.domain.packing_up import Into, Origin, Proposal, goes
from app.domain.part import Arrival
from app.services.despatch.consigning import old_parts
from app.services.despatch.leaving import Leaving, leaving
from app.services.money.sharing import placed
from app.services.parts.taking_in import OrderedPart, left_over, parts_of_shell
from app.services.quotations.papering import kind_for
from app.store import despatches
from app.store.db import Store
from app.wording import say
from rules.donor.keep import Kept, kept_of
from rules.model import Book, Words


def proposals(store: Store, actor: Actor, key: int, now: datetime) -> tuple[Proposal, ...]:
    """For one shell, each line once; nothing once it has left. Raises NotFound."""
    with store.reading() as db:
        found = leaving(store, db, actor, key, now)
        return () if found.despatched is not None else tuple(_proposed(db, found))


def _proposed(db: Database, found: Leaving) -> Iterator[Proposal]:
    order, book, frozen = found.order, found.book, found.placed.frozen
    write = Writing(kind_for(book, order.frozen.customer, order.place.country)[0])
    parts = parts_of_shell(order, book, found.placed.place)
    kept = kept_of(book, order.frozen.donor.facts(), frozen.settled, frozen.depends, ())
    yield from _parts(parts, old_parts(book, frozen), write)
    yield from _company(book, parts, kept, write)
    yield from _sent(book, kept, write)
    yield from (write.part(one, came, Into.RETURNED, Origin.NO_SHELL) for one, came in _here(left_over(order, book)))
    yield from _extras(book, order, _listed(db, found), write)


@dataclass(frozen=True, slots=True)
class Writing:
    """Lines as they are printed: in one language, that of the customer's papers."""

    language: str

    def part(self, one: OrderedPart, came: Arrival, into: Into, origin: Origin) -> Proposal:
        """A customer's part, by its tag."""
        what, day = one.book.rule(one.tag.rule).part, came.day if came.verdict is None else came.verdict.day
        return Proposal(into, origin, self._line("part", what, tag=one.tag.number), what, one.tag.number, day)

    def company(self, what: Words, tag: str) -> Proposal:
        """What was sent together with a customer's part."""
        return Proposal(Into.LOOSE, Origin.COMPANY, self._line("company", what, tag=tag), what, tag)

    def sent(self, what: Words) -> Proposal:
        """What the customer sent by itself."""
        return Proposal(Into.RETURNED, Origin.SENT, self._line("sent", what), what)

    def sold(self, what: Words, count: int) -> Proposal:
        return Proposal(Into.LOOSE, Origin.EXTRA, self._line("extra", what, count=count), what, count=count)

    def _line(self, key: str, what: Words, **slots: object) -> str:
        words = what.get(self.language) or next(iter(what.values()), "")
        return say(f"packing.{key}", self.language, what=words, **slots)


def _here(parts: Iterable[OrderedPart]) -> Iterator[tuple[OrderedPart, Arrival]]:
    return ((one, came) for one in parts for came in one.arrivals if not came.gone)


def _parts(parts: Iterable[OrderedPart], welded: tuple[str, ...], write: Writing) -> Iterator[Proposal]:
    for one, came in _here(parts):
        where = goes(came, needed=one.needed, welded=one.tag.rule in welded)
        if where is not None:
            yield write.part(one, came, *where)


def _company(book: Book, parts: Iterable[OrderedPart], kept: Kept, write: Writing) -> Iterator[Proposal]:
    """Of parts that came: clips and hinges are named on no record of their own."""
    labels, came = _labels(book), {one.tag.rule: one.tag.number for one, _ in _here(parts) if one.needed}
    for sent in kept.sent:
        if sent.rule in came:
            yield from (write.company(labels[name], came[sent.rule]) for name in sent.company)


def _sent(book: Book, kept: Kept, write: Writing) -> Iterator[Proposal]:
    labels = _labels(book)
    return (write.sent(labels[name]) for name in kept.besides)


def _extras(book: Book, order: Order, listed: frozenset[str], write: Writing) -> Iterator[Proposal]:
    """They belong to the order: what goes with another of its shells is not proposed again."""
    labels = {one.id: one.label for one in book.extras}
    made = (write.sold(labels[one.extra], one.quantity) for one in order.frozen.extras)
    return (one for one in made if one.line not in listed)


def _listed(db: Database, found: Leaving) -> frozenset[str]:
    others = (one.shell.id for one in placed(found.order) if one.shell.id != found.placed.shell.id)
    packings = (despatches.packing(db, key) for key in others)
    return frozenset(line for packing in packings if packing is not None for line in packing.loose)


def _labels(book: Book) -> Mapping[str, Words]:
    return {one.id: one.label for one in book.keeps}

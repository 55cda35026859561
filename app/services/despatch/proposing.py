"""What the packing of a shell could list, from what is recorded: customers' parts, what the book sends, extras.

What it lists as going back is written down as returned once the shell has left.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.despatch.packing_up import Into, Origin, Proposal, goes
from app.domain.orders.order import Order
from app.domain.part import ActDone, Arrival, PartAct
from app.services.answering.pricing import day_of
from app.services.despatch.consigning import old_parts
from app.services.despatch.leaving import Leaving, leaving
from app.services.money.sharing import placed
from app.services.parts.taking_in import OrderedPart, left_over, parts_of_shell, tell
from app.services.quotations.papering import kind_for
from app.store import despatches
from app.store import parts as kept_parts
from app.store.db import Store
from app.wording import say
from rules.donor.keep import Kept, kept_of
from rules.model import Book, Words


def proposals(store: Store, actor: Actor, key: int, now: datetime) -> tuple[Proposal, ...]:
    """For one shell, each line once; nothing once it has left. Raises NotFound."""
    with store.reading() as db:
        found = leaving(store, db, actor, key, now)
        return () if found.despatched is not None else tuple(_proposed(db, found))


def send_back(db: Database, actor: Actor, found: Leaving, number: str, now: datetime) -> None:
    """What the packing of a shell that leaves as `number` lists as going back is no longer here: its records say so."""
    listed = () if found.standing.packing is None else found.standing.packing.returned
    note, day = f"{found.placed.shell.serial}, {number}", day_of(found.book, now)
    for one, came, told in _of_parts(found, _writing(found)):
        if told.into is Into.RETURNED and told.line in listed:
            kept_parts.act(db, came.id, ActDone(PartAct.RETURNED, day, note, now, actor.name))
            tell(db, one, "part-returned", actor, now, day=day.isoformat())


def _proposed(db: Database, found: Leaving) -> Iterator[Proposal]:
    order, book, frozen, write = found.order, found.book, found.placed.frozen, _writing(found)
    kept = kept_of(book, order.frozen.donor.facts(), frozen.settled, frozen.depends, ())
    yield from (told for _, _, told in _of_parts(found, write))
    yield from _company(book, _own_parts(found), kept, write)
    yield from _sent(book, kept, write)
    yield from _extras(book, order, _listed(db, found), write)


def _writing(found: Leaving) -> Writing:
    return Writing(kind_for(found.book, found.order.frozen.customer, found.order.place.country)[0])


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


def _own_parts(found: Leaving) -> tuple[OrderedPart, ...]:
    return parts_of_shell(found.order, found.book, found.placed.place)


def _of_parts(found: Leaving, write: Writing) -> Iterator[tuple[OrderedPart, Arrival, Proposal]]:
    """Of its own parts that are here, then of those whose shell is no longer on the order."""
    welded = old_parts(found.book, found.placed.frozen)
    for one, came in _here(_own_parts(found)):
        where = goes(came, needed=one.needed, welded=one.tag.rule in welded)
        if where is not None:
            yield one, came, write.part(one, came, *where)
    for one, came in _here(left_over(found.order, found.book)):
        yield one, came, write.part(one, came, Into.RETURNED, Origin.NO_SHELL)


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

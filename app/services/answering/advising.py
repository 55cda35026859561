"""Why not, why so, and what else: the three questions that a refusal leaves a reader with. Saves nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from app.domain.asking.actor import Actor
from app.domain.errors import BeingWorkedOut, Fault, NearestNotSought
from app.services.answering import checking
from app.services.answering.pricing import Deal, cases_of
from app.services.answering.specifying import Asked, deal_of
from app.services.books import compiling
from app.services.books.shelf import surroundings_of
from app.services.planning.readying import Ready, ready_of
from app.store.db import Store
from rules.answer import Answer, Verdict
from rules.condition import options_of
from rules.donor.resolve import resolve
from rules.engine.prepare import LIMIT
from rules.engine.without_diagram import WithoutDiagram
from rules.explain.reasons import Answered
from rules.explain.refusal import Refusal, refuse
from rules.explain.why import Grounds
from rules.explain.why import why as why_of
from rules.model import Book, ToolCondition
from rules.money.tax import TaxRefusal
from rules.money.totals import Wanted, price_quotation, total
from rules.specification import Specification
from rules.suggest import Suggestion, Surroundings, suggest

#: Seconds after which to ask again for what waits for a diagram.
AGAIN = 2


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a wish, or the answers themselves, can't be built."""

    book: Book
    refusal: Refusal


@dataclass(frozen=True, slots=True)
class Grounded:
    """Why an option stands as it does."""

    book: Book
    grounds: Grounds


@dataclass(frozen=True, slots=True)
class Worth:
    """Of all the shells asked about: `net` before tax, `with_tax` None where no one tax case is decided.

    Both None where something is not priced.
    """

    net: int | None
    with_tax: int | None


@dataclass(frozen=True, slots=True)
class Offer:
    """`fills`: shown only to fill a place. `difference`: against the shell that the suggestion is held against.

    `cautions`: those of its gains that hang on what changes. `ready`: of what is settled with it; None where the book
    has no stages. `stands`: it takes the wish back, and all is as it was.
    """

    suggestion: Suggestion
    fills: bool
    price: Worth
    difference: Worth
    cautions: tuple[str, ...]
    ready: Ready | None
    stands: bool


@dataclass(frozen=True, slots=True)
class Offered:
    """`asked`: what the engine says of the answers with the wish among them.

    `held`: the answers before the wish can be built, and differences are against them; else what was asked can't be
    built and costs nothing that one could hold a price against.
    """

    book: Book
    currency: str
    wish: Answered | None
    asked: Answer
    held: bool
    offers: tuple[Offer, ...]
    keep: tuple[Offer, ...]


def reasons(store: Store, actor: Actor, asked: Asked, wish: Answered | None, now: datetime) -> Refused:
    """Every smallest reason, up to a cap. Raises as `specifying.answer` does; a wish must be known to the book."""
    deal, tools = deal_of(store, actor, asked, now, _wish_faults(wish))
    prepared = compiling.ready(store, deal.book, tools.conditions(), deal.donor)
    return Refused(deal.book, refuse(prepared, asked.specification, wish))


def why(store: Store, actor: Actor, asked: Asked, option: str, now: datetime) -> Grounded:
    """The chain from the answers to the option. Raises as `specifying.answer` does, and for an option unknown."""
    deal, tools = deal_of(store, actor, asked, now, lambda book: _option_faults(book, option))
    prepared = compiling.ready(store, deal.book, tools.conditions(), deal.donor)
    return Grounded(deal.book, why_of(prepared, asked.specification, deal.donor, option))


def alternatives(store: Store, actor: Actor, asked: Asked, wish: Answered | None, now: datetime) -> Offered:
    """The nearest shells that can be built, priced and taxed. Raises as `reasons` does.

    Without a diagram they aren't looked for: BeingWorkedOut while one is compiled, NearestNotSought where none can be.
    """
    deal, tools = deal_of(store, actor, asked, now, _wish_faults(wish))
    around = _surroundings(store, deal, tools.conditions())
    found = suggest(around, asked.specification, deal.tariff, wish)
    known = {*found.asked.settled, *asked.specification.answers}
    worth = _Worth(deal, frozenset(known), None if wish is None else wish[0], asked.quantity, asked.specification)
    return Offered(
        deal.book,
        deal.currency,
        wish,
        found.asked,
        _held(around, found.asked, asked.specification, wish),
        (*(worth.offer(each) for each in found.nearest), *(worth.offer(each, fills=True) for each in found.fill)),
        tuple(worth.offer(each) for each in found.keep),
    )


@dataclass(frozen=True, slots=True)
class _Worth:
    """What shells are worth on a deal. `known`: the options that were answered or forced; `wished`: the one wished."""

    deal: Deal
    known: frozenset[str]
    wished: str | None
    quantity: int
    before: Specification

    def offer(self, suggestion: Suggestion, fills: bool = False) -> Offer:
        there = self._of(suggestion.shell, suggestion.answer.settled)
        here = self._of(suggestion.before, {o: c for o, c in suggestion.before.items() if o in self.known})
        difference = Worth(_less(there.net, here.net), _less(there.with_tax, here.with_tax))
        said = suggestion.answer
        ready = ready_of(self.deal.book, said.settled, self.deal.donor, said.depends)
        return Offer(
            suggestion, fills, there, difference, tuple(self._new_cautions(suggestion)), ready, self._stands(suggestion)
        )

    def _stands(self, suggestion: Suggestion) -> bool:
        return self.wished is not None and suggestion.specification.choices() == self.before.choices()

    def _new_cautions(self, suggestion: Suggestion) -> Iterator[str]:
        """An impossible shell depends on nothing, so against it every caution is new: these come with the changes."""
        changed = {self.wished, *(change.option for change in suggestion.changes)}
        for id_ in suggestion.gains.cautions:
            if changed & options_of(resolve(self.deal.book.rule(id_).when, self.deal.book, self.deal.donor)):
                yield id_

    def _of(self, shell: Mapping[str, str], settled: Mapping[str, str]) -> Worth:
        """Tax goes by what is settled: where the delivery is open, that of the cheapest one says nothing."""
        cases = cases_of(self.deal, settled)
        told = () if isinstance(cases, TaxRefusal) else cases
        wanted = (Wanted(shell, self.deal.donor, self.quantity, told),)
        price = price_quotation(self.deal.book, wanted, {}, self.deal.tariff)
        totals = total(price, wanted, self.deal.book.terms) if told else None
        decided = totals is not None and totals.decided
        return Worth(price.net, totals.cases[0].sum.with_tax if totals is not None and decided else None)


def _held(around: Surroundings, said: Answer, before: Specification, wish: Answered | None) -> bool:
    if said.verdict is not Verdict.CANT:
        return True
    return wish is not None and around.prepared.alone(before.choices()) != 0


def _less(there: int | None, here: int | None) -> int | None:
    return None if there is None or here is None else there - here


def _surroundings(store: Store, deal: Deal, conditions: dict[str, ToolCondition]) -> Surroundings:
    prepared = compiling.ready(store, deal.book, conditions, deal.donor)
    if isinstance(prepared, WithoutDiagram):
        if compiling.is_underway(store, deal.book, conditions, deal.donor):
            raise BeingWorkedOut(seconds=AGAIN)
        raise NearestNotSought(limit=LIMIT)
    key = (deal.book.number, frozenset(conditions.items()), deal.donor)
    return surroundings_of(store).have(key, lambda: Surroundings(prepared, conditions, deal.donor))


def _wish_faults(wish: Answered | None) -> Callable[[Book], Iterable[Fault]]:
    return lambda book: () if wish is None else checking.choice_faults(book, dict([wish]), "wish")


def _option_faults(book: Book, option: str) -> Iterable[Fault]:
    if all(known.id != option for known in book.options):
        yield Fault("option", "unknown-option", {"name": option})

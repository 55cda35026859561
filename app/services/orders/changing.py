"""What a change on one shell would be: how the book takes it at that stage, what forbids it, what it costs and moves.

Nothing is written. The order's own book and prices hold; of the tools it is asked how they are today.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.floor.shell import ShellState
from app.domain.orders.change_note import (
    Content,
    Difference,
    Effect,
    OptionChange,
    PlaceChange,
    PriceRow,
    Wish,
    differences,
    with_deposit_of,
)
from app.domain.orders.order import Order, OrderLine, Shell, deal_of
from app.domain.planning.slots import Proposal
from app.domain.quotations.changes import SORTS
from app.domain.quotations.quotation import FrozenLine
from app.services.answering import checking
from app.services.answering.pricing import Sum, sum_of
from app.services.books import compiling
from app.services.books.tools import tool_states
from app.services.floor.finding import FoundShell, found_shell, known_shell
from app.services.money.sharing import deal_of as agreed_deal
from app.services.orders.redating import Instead, Redating, come_into, range_of
from app.services.planning.dating import Working
from app.services.quotations.working_out import standing_of_options
from app.store import slots
from app.store.db import Store
from rules.answer import Answer, Cause, Depends, State, Verdict
from rules.condition import holds
from rules.donor.resolve import domains_of
from rules.engine.ask import ask
from rules.engine.view import Ready
from rules.model import Allowed, Book, Role, Tool, ToolCondition
from rules.money.price import ShellPrice
from rules.money.tax import TaxRefusal
from rules.money.totals import ShellsPrice
from rules.proof.reliance import uses
from rules.schedule.promise import Promise, Wanted
from rules.specification import Origin, Specification, Taken
from rules.workshop.late import Taken as TakenAt
from rules.workshop.late import gravest, taken_each


@dataclass(frozen=True, slots=True)
class Demand:
    """What the change takes besides: an answer to `option`, one of `choices`; a single one follows by itself."""

    option: str
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Weighed:
    """`taken`: the gravest of all that changes. `causes`: what can't stand together, `demands`: what it takes besides.

    `unpriced`: lines without an amount, `untold`: why no tax can be named; `out`: tools it newly needs that are out of
    order. `content` and `effect` None where there is nothing to sign. `move`: the promises that move, with the token of
    exactly that list.
    """

    order: Order
    book: Book
    line: OrderLine
    shell: Shell
    place: int
    today: date
    before: FrozenLine
    come: tuple[str, ...]
    changes: tuple[OptionChange, ...]
    goes: PlaceChange | None
    taken: Allowed
    causes: tuple[Cause, ...] = ()
    demands: tuple[Demand, ...] = ()
    unpriced: tuple[str, ...] = ()
    untold: TaxRefusal | None = None
    out: tuple[str, ...] = ()
    content: Content | None = None
    effect: Effect | None = None
    move: Proposal | None = None
    wanted: Wanted | None = None
    instead: Instead | None = None


def weigh(store: Store, actor: Actor, key: int, wish: Wish, why: str, working: Working, now: datetime) -> Weighed:
    """Raises NotFound, BadInput for what the order's book hasn't."""
    with store.reading() as db:
        return weighed(store, db, actor, key, wish, why, working, now)


def weighed(
    store: Store, db: Database, actor: Actor, key: int, wish: Wish, why: str, working: Working, now: datetime
) -> Weighed:
    """For use inside a transaction."""
    return _Weighing(store, db, actor, found_shell(store, db, actor, key, now), wish, why, working, now).weighed()


def shell_at(store: Store, actor: Actor, key: int, now: datetime) -> FoundShell:
    """A shell in its order, be it replaced. Raises NotFound."""
    with store.reading() as db:
        return known_shell(store, db, actor, key, now)


class _Weighing:
    def __init__(
        self,
        store: Store,
        db: Database,
        actor: Actor,
        at: FoundShell,
        wish: Wish,
        why: str,
        working: Working,
        now: datetime,
    ) -> None:
        self.store, self.db, self.actor, self.at, self.why = store, db, actor, at, why
        self.working, self.now = working, now
        self.whole, self.order, self.book = at.whole, at.whole.order, at.whole.book
        self.donor, self.before = self.order.frozen.donor.facts(), at.gated.frozen
        checking.refuse(checking.choice_faults(self.book, wish.choices, "choices"))
        checking.refuse(checking.country_faults("" if wish.place is None else wish.place.country, "place.country"))
        changed = {option: choice for option, choice in wish.choices.items() if self.before.settled[option] != choice}
        goes = None if wish.place is None or wish.place == self.order.place else wish.place
        self.wish = Wish(changed, goes, wish.charge)
        self.come, self.days = come_into(at), Redating(store, db, at, working, now)

    def weighed(self) -> Weighed:
        after = {**self.before.settled, **self.wish.choices}
        prepared, said = self._said(after)
        found = self._found(after, said)
        if said.verdict is Verdict.CANT:
            return replace(found, causes=said.causes, demands=tuple(self._demands(prepared)))
        priced = self._sum(after)
        unpriced, untold = priced.price.lines[self.at.gated.seat.place - 1].shell.unpriced, priced.untold
        found = replace(found, unpriced=unpriced, untold=next(iter(untold.values()), None))
        if priced.totals is None or found.taken is Allowed.NO:
            return found
        return self._written(found, said, priced)

    def _found(self, after: Mapping[str, str], said: Answer) -> Weighed:
        options = [option for option, choice in self.before.settled.items() if after[option] != choice]
        taken = taken_each(self.book, self.before.settled, self.donor, self.come, options)
        changes = tuple(OptionChange(t.option, self.before.settled[t.option], after[t.option], t.taken) for t in taken)
        goes = self._goes()
        grave = gravest((*taken, *self._place_taken())) if self._open() else Allowed.NO
        refused = grave is Allowed.NO and said.verdict is not Verdict.CANT
        instead = self.days.instead(after, said.depends) if refused else None
        return Weighed(
            self.order, self.book, self.at.line, self.at.shell, self.at.gated.seat.place, self.whole.today,
            self.before, self.come, changes, goes, grave, out=tuple(self._out(after)), instead=instead,
        )  # fmt: skip

    def _open(self) -> bool:
        return self.at.shell.state not in (ShellState.DESPATCHED, ShellState.REJECTED, ShellState.CANCELLED)

    def _place_taken(self) -> Sequence[TakenAt]:
        delivery = self.book.roles.get(Role.DELIVERY)
        if self.wish.place is None or delivery is None:
            return ()
        return taken_each(self.book, self.before.settled, self.donor, self.come, [delivery])

    def _goes(self) -> PlaceChange | None:
        if self.wish.place is None:
            return None
        return PlaceChange(self.order.place, self.wish.place, gravest(self._place_taken()))

    def _said(self, settled: Mapping[str, str]) -> tuple[Ready, Answer]:
        """By the tools as they stood when it was ordered: what is past a tool needs it no more."""
        conditions = tool_states(self.store, self.order.revision.tool_state).conditions()
        prepared = compiling.ready(self.store, self.book, conditions, self.donor)
        return prepared, ask(prepared, self._specification(settled), self.order.frozen.tariff)

    def _specification(self, settled: Mapping[str, str]) -> Specification:
        return Specification(
            {option: Taken(choice, self._origin(option, choice)) for option, choice in settled.items()}
        )

    def _origin(self, option: str, choice: str) -> Origin:
        same = self.before.settled.get(option) == choice
        return Origin.USUAL if same and self.before.standing.get(option) is not State.CHOSEN else Origin.CHOSEN

    def _demands(self, prepared: Ready) -> Iterator[Demand]:
        """Of what is ordered as much is kept as can stand with the wish; the rest has to be answered anew."""
        kept = dict(self.wish.choices)
        if prepared.alone(kept) == 0:
            return
        for option, choice in self.before.settled.items():
            if option not in kept and prepared.alone({**kept, option: choice}) != 0:
                kept[option] = choice
        said = ask(prepared, self._specification(kept), self.order.frozen.tariff)
        for each in said.options:
            if each.option not in kept:
                yield Demand(each.option, tuple(one.choice for one in each.choices if one.state is not State.CLOSED))

    def _out(self, after: Mapping[str, str]) -> Iterator[str]:
        domains, conditions = domains_of(self.book), self.whole.tools.conditions()
        for tool in self.book.tools:
            when = uses(self.book, tool.id, self.donor)
            newly = holds(when, after, domains) and not holds(when, self.before.settled, domains)
            if newly and conditions.get(tool.id, ToolCondition.OK) is not ToolCondition.OK and not _stood_in(tool):
                yield tool.id

    def _sum(self, after: Mapping[str, str]) -> Sum:
        """Of the whole order, each shell by itself: the others as they are."""
        place = self.at.gated.seat.place
        frozen = [self.before if at == place else one for at, (_, one) in enumerate(self.whole.shells, 1)]
        lines = [(after if at == place else one.settled, 1) for at, one in enumerate(frozen, 1)]
        charges = [charged(one) + (self.wish.charge if at == place else 0) for at, one in enumerate(frozen, 1)]
        deal = replace(agreed_deal(self.book, self.order), place=self.wish.place or self.order.place)
        return sum_of(deal, lines, {one.extra: one.quantity for one in self.order.frozen.extras}, charges)

    def _written(self, found: Weighed, said: Answer, priced: Sum) -> Weighed:
        assert priced.totals is not None
        decided, had = deal_of(self.order).decided, self.order.totals
        totals = with_deposit_of(had, priced.totals, decided)
        frozen = self._frozen(said, priced.price.lines[found.place - 1])
        move, after, wanted = self.days.moved(frozen)
        content = self._content(found, frozen, differences(had, priced.totals, decided), after)
        effect = Effect(frozen, self.days.route(frozen), totals, self.wish.place)
        return replace(found, content=content, effect=effect, move=move, wanted=wanted)

    def _frozen(self, said: Answer, price: ShellsPrice) -> FrozenLine:
        return FrozenLine(
            settled=dict(said.settled),
            standing=standing_of_options(said, self._specification(said.settled)),
            verdicts=said.verdicts,
            depends=said.depends,
            price=price,
            approved=tuple(one for one in self.before.approved if one.rule not in self._gained(said.depends).approvals),
            foreseen=self.before.foreseen,
        )

    def _gained(self, after: Depends) -> Depends:
        """An approval belongs to the exact structure: where that changes, it has to be given anew."""
        told = {sort: _less(getattr(after, sort), getattr(self.before.depends, sort)) for sort in SORTS}
        structural = {option.id for option in self.book.options if option.structural}
        if structural.intersection(self.wish.choices):
            told["approvals"] = after.approvals
        return Depends(**told)

    def _content(
        self, found: Weighed, frozen: FrozenLine, moneys: tuple[Difference, ...], after: Promise | None
    ) -> Content:
        had = slots.promised(self.db, self.at.gated.seat)
        was, now = range_of(None if had is None else had.promised), range_of(after)
        later = was is not None and now is not None and now.ready > was.ready
        working = self.working(self.book.calendar, found.today)
        return Content(
            dated=found.today,
            author=self.actor.display_name,
            why=self.why,
            come=self.come,
            changes=found.changes,
            place=found.goes,
            charge=self.wish.charge,
            currency=self.order.frozen.currency,
            prices=tuple(_price_rows(self.before.price.shell, frozen.price.shell)),
            differences=moneys,
            gained=self._gained(frozen.depends),
            days=working.between(was.ready, now.ready) if later and was and now else 0,
            before=was,
            after=now,
            frozen=frozen,
        )


def charged(frozen: FrozenLine) -> int:
    """What is taken for changes of a shell beside the price of the list, before tax."""
    shell = frozen.price.shell
    return 0 if shell.net is None else shell.net - sum(line.net for line in shell.lines)


def _stood_in(tool: Tool) -> bool:
    """A part takes its place."""
    return tool.stands_in is not None


def _less(these: tuple[str, ...], those: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(one for one in these if one not in those)


def _price_rows(before: ShellPrice, after: ShellPrice) -> Iterator[PriceRow]:
    was, now = ({one.line: one.net for one in price.lines} for price in (before, after))
    for line in dict.fromkeys((*was, *now)):
        if was.get(line) != now.get(line):
            yield PriceRow(line, was.get(line), now.get(line))

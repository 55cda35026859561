"""Suggestions on random rule books against a list of every specification, made with itertools.product.

The list is searched plainly: sort all shells by nearness, strike out what only changes more, take the first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.answer import State, Verdict
from rules.engine.ask import prepare
from rules.model import Addition, Book, Kind, Stage
from rules.money.price import line_net, price_shell
from rules.schedule.days import route_days
from rules.specification import Origin, Specification, Taken
from rules.suggest import Suggestion, Suggestions, Surroundings, suggest
from tests.rules.listed import Listed, Made
from tests.rules.random_books import Asked, make_question

Wish = tuple[str, str] | None
Nearness = tuple[int, int, int, int, list[bool], list[int]]


@dataclass(frozen=True)
class Wished:
    """A question, and perhaps a wish."""

    asked: Asked
    wish: Wish


def make_wished(rng: Random) -> Wished:
    """Three options or more, most of them all answered; a day or more is added wherever a price line is."""
    asked = make_question(rng)
    while len(asked.book.options) < 3:
        asked = make_question(rng)
    option = rng.choice(asked.book.options)
    wish = (option.id, rng.choice(option.choices).id) if rng.random() < 0.5 else None
    stages = (Stage("early", {}, 2, before_slot=True), Stage("late", {}, 3))
    additions = tuple(
        Addition(f"A{i}", rng.choice(("early", "late")), rng.randint(1, 20), when, {}, from_gate=rng.random() < 0.5)
        for i, when in enumerate(line.when for line in asked.book.lines)
    )
    book = replace(asked.book, stages=stages, additions=additions)
    return Wished(replace(asked, book=book, specification=_answered(rng, book)), wish)


def _answered(rng: Random, book: Book) -> Specification:
    share, own = rng.choice((0.6, 1.0, 1.0)), rng.choice((0.2, 0.5, 0.9))
    origins = {o.id: Origin.CHOSEN if rng.random() < own else Origin.USUAL for o in book.options}
    return Specification(
        {o.id: Taken(rng.choice(o.choices).id, origins[o.id]) for o in book.options if rng.random() < share}
    )


#: A book by its seed: so many that few examples are drawn twice, so few that the tests share them.
SEEDS = st.integers(0, 399)


@cache
def world(seed: int) -> tuple[Suggestions, Plain]:
    question = make_wished(Random(seed))
    return _suggest(question), Plain(question)


class Plain:
    """The same answers from the list."""

    def __init__(self, question: Wished) -> None:
        self.asked, self.wish = question.asked, question.wish
        self.listed = Listed(self.asked.book, self.asked.states, self.asked.donor, self.asked.tariff).list_all()
        taken = dict(self.asked.specification.answers)
        self.answers = taken | ({self.wish[0]: Taken(self.wish[1])} if self.wish else {})
        self.made = {option: answer.choice for option, answer in self.answers.items()}
        self.near = sorted((i for i in range(len(self.listed.all)) if self._stands(i)), key=self.nearness)

    def _stands(self, i: int) -> bool:
        hard = dict([self.wish]) if self.wish else {}
        return not self.listed.breaches[i] and hard.items() <= self.listed.all[i].items()

    def changed(self, i: int) -> frozenset[str]:
        return frozenset(option for option, choice in self.made.items() if self.listed.all[i][option] != choice)

    def gates(self, i: int) -> frozenset[str]:
        rules = [rule for rule in self.asked.book.rules if rule.kinds & {Kind.PART, Kind.APPROVAL}]
        return frozenset(rule.id for rule in rules if self.listed.says(rule.when, self.listed.all[i]))

    def nearness(self, i: int) -> Nearness:
        own = [self.answers[option].origin is Origin.CHOSEN for option in self.changed(i)]
        unpriced, amount = self._price(self.listed.all[i])
        return sum(own), len(own) - sum(own), unpriced, amount, *self._kept(i)

    def _price(self, made: Made) -> tuple[int, int]:
        book, says = self.asked.book, self.listed.says
        held = [adjustment for adjustment in book.adjustments if says(adjustment.when, made)]
        nets = [line_net(line, held, self.asked.tariff) for line in book.lines if says(line.when, made)]
        return sum(net is None for net in nets), sum(net.net for net in nets if net is not None)

    def first_to_shed(self) -> frozenset[str]:
        if not self.listed.buildable(self.made):
            return frozenset()
        depends = self.listed.depends(self.made)
        return frozenset((*depends.parts, *depends.approvals))

    def nearest(self, limit: int) -> list[int]:
        found: list[int] = []
        for _ in range(limit):
            fine = [i for i in self.near if self._fine(i, found)]
            if not fine:
                break
            found.append(self._outright(fine[0], fine))
        return found

    def _fine(self, i: int, found: Sequence[int]) -> bool:
        shed = self.first_to_shed()
        if shed and shed <= self.gates(i):
            return False
        return all(not self.changed(i) >= self.changed(j) or self.gates(j) - self.gates(i) for j in found)

    def _outright(self, i: int, fine: Sequence[int]) -> int:
        same = [j for j in fine if self.answered(j) == self.answered(i)]
        return next((j for j in same if not self.listed.gated[j]), i)

    def answered(self, i: int) -> Made:
        return {option: self.listed.all[i][option] for option in self.made}

    def stood(self) -> Made | None:
        """The cheapest shell, an outright one if there is any, of the answers before the wish."""
        made = self.asked.specification.choices()
        built = self.listed.outright(made) or self.listed.buildable(made)
        cheapest = min(built, key=lambda i: (self._price(self.listed.all[i]), self._kept(i)), default=None)
        return None if cheapest is None else self.listed.all[cheapest]

    def _kept(self, i: int) -> tuple[list[bool], list[int]]:
        """Among equals, those that change early in the book come first, then as written."""
        kept = [option in self.made and option not in self.changed(i) for option in self.listed.domains]
        places = [choices.index(self.listed.all[i][option]) for option, choices in self.listed.domains.items()]
        return kept, places

    def fill(self, nearest: Sequence[int], room: int) -> list[int]:
        known = [self.answered(i) for i in nearest]
        found: list[int] = []
        for i in self.near if nearest else ():
            if len(found) < room and not self.listed.gated[i] and self.answered(i) not in known:
                found.append(i)
                known.append(self.answered(i))
        return found


def _suggest(question: Wished) -> Suggestions:
    asked = question.asked
    around = Surroundings(prepare(asked.book, asked.states, asked.donor), asked.states, asked.donor)
    return suggest(around, asked.specification, asked.tariff, question.wish)


def _all(found: Suggestions) -> Iterator[Suggestion]:
    yield from (*found.nearest, *found.fill, *found.keep)


@settings(max_examples=200)
@given(SEEDS)
def test_nothing_nearer_is_missed_and_nothing_is_offered_that_only_changes_more(seed: int) -> None:
    found, plain = world(seed)
    if found.asked.verdict not in (Verdict.CANT, Verdict.ONCE):
        assert not [*_all(found)]
        return
    nearest = plain.nearest(3)
    assert [dict(each.shell) for each in found.nearest] == [plain.listed.all[i] for i in nearest]
    assert [dict(each.shell) for each in found.fill] == [
        plain.listed.all[i] for i in plain.fill(nearest, 3 - len(nearest))
    ]


@settings(max_examples=100)
@given(SEEDS)
def test_every_suggestion_can_be_built_keeps_the_wish_and_says_what_it_costs(seed: int) -> None:
    found, plain = world(seed)
    asked = plain.asked
    for each in (*found.nearest, *found.fill):
        assert plain.wish is None or each.shell[plain.wish[0]] == plain.wish[1]
    for each in _all(found):
        before = plain.stood() or {**each.shell, **plain.made}
        prices = [price_shell(asked.book, made, asked.donor, asked.tariff).net for made in (each.shell, before)]
        days = [route_days(asked.book, made, asked.donor).compared for made in (each.shell, before)]
        assert each.answer.verdict is not Verdict.CANT
        assert plain.listed.buildable(each.specification.choices())
        assert each.shell.items() >= each.specification.choices().items()
        assert each.price == prices[0]
        assert each.difference == (None if None in prices else prices[0] - prices[1])  # type: ignore[operator]
        assert (each.days, each.days_difference) == (days[0], days[0] - days[1])


@settings(max_examples=100)
@given(SEEDS)
def test_what_contains_another_sheds_something_or_is_marked(seed: int) -> None:
    found, plain = world(seed)
    for place, each in enumerate(found.nearest):
        assert all(beside.place < place and beside.sheds for beside in each.beside)
    for each in found.fill:
        assert each.beside
    for each in (*found.nearest, *found.fill):
        own = {option for option in _changed(each) if plain.answers[option].origin is Origin.CHOSEN}
        assert own == {change.option for change in each.changes if change.origin is Origin.CHOSEN}
        for beside in each.beside:
            other = found.nearest[beside.place]
            assert _changed(each) >= _changed(other)
            assert set(beside.also) == _changed(each) - _changed(other)


@settings(max_examples=100)
@given(SEEDS)
def test_what_is_forced_is_what_the_own_answers_leave_alone(seed: int) -> None:
    found, plain = world(seed)
    for each in _all(found):
        own = {o: each.shell[o] for o, taken in plain.answers.items() if taken.origin is Origin.CHOSEN}
        settled = plain.listed.settled(own)
        for change in each.changes:
            taken_over = plain.answers[change.option].origin is Origin.USUAL
            assert change.forced == (taken_over and change.option in settled)
            assert each.specification.answers[change.option] == Taken(
                change.now, Origin.USUAL if change.forced else Origin.CHOSEN
            )


@settings(max_examples=100)
@given(SEEDS)
def test_to_keep_all_else_every_other_value_that_stands_is_offered(seed: int) -> None:
    found, plain = world(seed)
    if found.asked.verdict not in (Verdict.CANT, Verdict.ONCE) or plain.wish is None:
        assert found.keep == ()
        return
    option, wish = plain.wish
    specification = Specification(plain.answers)
    stands = [
        choice
        for choice in plain.listed.domains[option]
        if choice != wish and plain.listed.state(specification, option, choice) is not State.CLOSED
    ]
    assert [[(c.option, c.now) for c in each.changes] for each in found.keep] == [[(option, c)] for c in stands]


def test_the_random_books_know_every_kind_of_offer() -> None:
    found = [world(seed)[0] for seed in range(400)]
    sizes = [(len(each.nearest), len(each.fill), len(each.keep)) for each in found]
    assert sum(nearest > 1 for nearest, _, _ in sizes) > 30
    assert sum(fill > 0 for _, fill, _ in sizes) > 30
    assert sum(keep > 0 for _, _, keep in sizes) > 30
    assert sum(bool(each.beside) for offer in found for each in offer.nearest) > 10
    assert sum(offer.asked.verdict is Verdict.ONCE and bool(offer.nearest) for offer in found) > 20


def _changed(suggestion: Suggestion) -> set[str]:
    return {change.option for change in suggestion.changes}

"""The proof of a book, on random rule books against lists of every specification, for every donor car there may be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations
from math import prod
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.condition import All, Condition, DonorNumber, DonorSeries, Not
from rules.donor.resolve import facts_key
from rules.donor.usual import usual_specification
from rules.model import Addition, Book, Caution, Kind, Option, PriceList, Role, Rule, ToolCondition
from rules.money.price import Tariff, price_shell
from rules.proof import Proof, Silent, Unpriced, prove
from rules.proof.cars import cars
from rules.specification import Donor
from tests.rules.listed import Listed, Made
from tests.rules.random_books import GEARBOXES, WORDS, make_question

NOBODY = Donor()
SPEAKING = {Kind.PART: "part", Kind.APPROVAL: "approval", Kind.CAUTION: "caution", Kind.HOLD: "hold"}


def make_case(rng: Random) -> tuple[Book, dict[str, ToolCondition]]:
    """A small book with lists, additions, cautions and choices declared lost, and the state of its tools."""
    asked = make_question(rng)
    while not 4 <= prod(len(option.choices) for option in asked.book.options) <= 60:
        asked = make_question(rng)
    book = asked.book
    whens = [line.when for line in book.lines]
    rng.shuffle(whens)
    return replace(
        book,
        options=tuple(_declared(rng, option) for option in book.options),
        lists=(PriceList("GBP", "GBP", WORDS), PriceList("EUR", "EUR", WORDS)),
        additions=tuple(Addition(f"A{i}", "s", 1, when, WORDS) for i, when in enumerate(whens[:2])),
        cautions=tuple(Caution(f"C{i}", frozenset(), when, WORDS) for i, when in enumerate(whens[2:4])),
    ), asked.states


def _declared(rng: Random, option: Option) -> Option:
    return replace(option, choices=tuple(replace(choice, lost=rng.random() < 0.1) for choice in option.choices))


@dataclass
class Plain:
    """The same from lists, one for each car."""

    book: Book
    states: dict[str, ToolCondition]

    def __post_init__(self) -> None:
        known = {facts_key(self.book, car): car for car in reversed(all_cars(self.book))}
        self.cars = list(reversed(known.values()))
        self.lists = {car: self._listed(car) for car in self.cars}
        self.nobody = self.lists[NOBODY]

    def _listed(self, car: Donor) -> Listed:
        return Listed(self.book, self.states, car, Tariff("GBP")).list_all()

    def built(self, car: Donor) -> list[Made]:
        listed = self.lists[car]
        return [made for made, broken in zip(listed.all, listed.breaches, strict=True) if not broken]

    def built_with(self, when: Condition) -> list[Made]:
        return [made for car in self.cars for made in self.built(car) if self.lists[car].says(when, made)]

    def met(self, when: Condition) -> list[Made]:
        return [made for car in self.cars for made in self.lists[car].all if self.lists[car].says(when, made)]

    def things(self) -> Iterator[tuple[str, str, str | None, Condition]]:
        for rule in self.book.rules:
            yield from ((SPEAKING[k], rule.id, None, rule.when) for k in SPEAKING if k in rule.kinds)
        for tool in self.book.tools:
            if not tool.speaks_as and self.states.get(tool.id) is not ToolCondition.LOST:
                yield "tool", tool.id, None, tool.needed_for
        lines = {line.id: line.when for line in self.book.lines}
        yield from (("line", id_, None, when) for id_, when in lines.items())
        for adjustment in self.book.adjustments:
            yield from (
                ("adjustment", adjustment.id, id_, All((adjustment.when, lines[id_]))) for id_ in adjustment.lines
            )
        yield from (("addition", addition.id, None, addition.when) for addition in self.book.additions)
        yield from (("standing-caution", caution.id, None, caution.when) for caution in self.book.cautions)

    def broken_by(self, id_: str) -> list[list[frozenset[str]]]:
        """By car, what else the shells break that break this."""
        return [[b - {id_} for b in self.lists[car].breaches if id_ in b] for car in self.cars]

    def banning(self) -> list[str]:
        """Ids of rules that forbid, then of lost tools that do."""
        rules = [rule.id for rule in self.book.rules if rule.kinds & {Kind.NEVER, Kind.NEEDS}]
        lost = [t for t in self.book.tools if self.states.get(t.id) is ToolCondition.LOST]
        return rules + [tool.id for tool in lost if not (tool.speaks_as or tool.stands_in)]


def all_cars(book: Book) -> list[Donor]:
    """Every donor that a random book may be asked about, the unknown one first: of series it has or names."""
    series = sorted({car.series for car in cars(book) if car.series is not None})
    known = [(None, None), *((s, n) for s in series for n in (None, *range(11)))]
    return [Donor(s, n, g) for s, n in known for g in (None, *GEARBOXES)]


@cache
def world(seed: int) -> tuple[Plain, Proof]:
    book, states = make_case(Random(seed))
    return Plain(book, states), prove(book, states)


SEEDS = st.integers(0, 69)


@settings(max_examples=50)
@given(SEEDS)
def test_counts_are_those_of_the_list(seed: int) -> None:
    plain, proof = world(seed)
    nobody, book = plain.nobody, plain.book
    assert (proof.count, proof.outright) == (len(nobody.buildable({})), len(nobody.outright({})))
    structural = [option.id for option in book.options if option.structural]
    assert proof.variants == len({tuple(made[o] for o in structural) for made in plain.built(NOBODY)})
    keys = [book.roles[role] for role in (Role.SERIES, Role.MARKET, Role.BODY) if role in book.roles]
    assert [(c.option, c.choice, c.count, c.outright) for c in proof.counts] == [
        (key, choice, len(nobody.buildable({key: choice})), len(nobody.outright({key: choice})))
        for key in keys
        for choice in nobody.domains[key]
    ]


@settings(max_examples=50)
@given(SEEDS)
def test_dead_choices_and_contradictions_come_with_every_smallest_cause(seed: int) -> None:
    plain, proof = world(seed)
    nobody, alive = plain.nobody, bool(plain.built(NOBODY))
    assert proof.contradiction == (() if alive else nobody.causes({}))
    dead = [(o, c) for o, choices in nobody.domains.items() for c in choices if not nobody.buildable({o: c})]
    assert [(each.option, each.choice) for each in proof.dead] == (dead if alive else [])
    for each in proof.dead:
        assert each.causes == nobody.causes({each.option: each.choice})
        assert each.declared == plain.book.option(each.option).choice(each.choice).lost
    assert proof.sound == (alive and all(each.declared for each in proof.dead))


@settings(max_examples=50)
@given(SEEDS)
def test_a_choice_declared_lost_that_can_be_built_is_shown(seed: int) -> None:
    plain, proof = world(seed)
    lost = [(o.id, c.id) for o in plain.book.options for c in o.choices if c.lost]
    assert [(each.option, each.choice) for each in proof.not_lost] == [
        (option, choice) for option, choice in lost if plain.nobody.buildable({option: choice})
    ]
    for each in proof.not_lost:
        # the first of all in written order
        assert each.witness == next(made for made in plain.built(NOBODY) if made[each.option] == each.choice)


@settings(max_examples=50)
@given(SEEDS)
def test_an_idle_rule_forbids_nothing_of_its_own_for_any_car(seed: int) -> None:
    plain, proof = world(seed)
    idle = [id_ for id_ in plain.banning() if not any(frozenset() in broken for broken in plain.broken_by(id_))]
    assert [each.rule for each in proof.idle] == idle
    for each in proof.idle:
        speaks = [broken for broken in plain.broken_by(each.rule) if broken]
        assert (each.witness is None) == (not speaks)
        assert each.implied_by == (_hitting(speaks[0], plain.banning()) if speaks else ())


@settings(max_examples=50)
@given(SEEDS)
def test_a_silent_condition_holds_for_nothing_that_can_be_built_for_any_car(seed: int) -> None:
    plain, proof = world(seed)
    silent = [(kind, id_, line, when) for kind, id_, line, when in plain.things() if not plain.built_with(when)]
    found = [(each.kind, each.id, each.line) for each in proof.silent]
    assert found == [(kind, id_, line) for kind, id_, line, _ in silent]
    for each, (_, _, _, when) in zip(proof.silent, silent, strict=True):
        assert (each.witness is None) == (not plain.met(when))
        assert each.witness is None or each.witness in plain.met(when)


@settings(max_examples=50)
@given(SEEDS)
def test_an_unpriced_line_names_the_lists_and_a_shell_they_cannot_price(seed: int) -> None:
    plain, proof = world(seed)
    lacking = {line.id: tuple(x for x in ("GBP", "EUR") if x not in line.amounts) for line in plain.book.lines}
    assert [(each.line, each.lists, each.everywhere) for each in proof.unpriced] == [
        (id_, lists, len(lists) == 2) for id_, lists in lacking.items() if lists
    ]
    whens = {line.id: line.when for line in plain.book.lines}
    for each in proof.unpriced:
        charged = plain.built_with(whens[each.line])
        assert each.witness in charged if charged else each.witness is None


@settings(max_examples=50)
@given(SEEDS)
def test_tools_and_structural_choices_name_each_other_or_are_told(seed: int) -> None:
    plain, proof = world(seed)
    assert proof.idle_tools == tuple(tool.id for tool in plain.book.tools if not plain.met(tool.needed_for))
    named = {pair for tool in plain.book.tools for car in plain.cars for pair in _named(plain, tool.needed_for, car)}
    structural = [(o.id, c.id) for o in plain.book.options if o.structural for c in o.choices]
    assert [(each.option, each.choice) for each in proof.toolless] == [p for p in structural if p not in named]


@settings(max_examples=50)
@given(SEEDS)
def test_every_usual_specification_is_standard_or_broken(seed: int) -> None:
    plain, proof = world(seed)
    for shell in (*proof.standard, *proof.broken):
        listed = Listed(plain.book, plain.states, shell.donor, Tariff("GBP")).list_all()
        at = listed.all.index(dict(shell.specification))
        assert shell.specification == usual_specification(plain.book, shell.keys, shell.donor)
        assert set(shell.causes) == listed.breaches[at]
        gated = set(listed.depends(listed.all[at]).parts + listed.depends(listed.all[at]).approvals)
        assert set(shell.gates) == (set() if shell.causes else gated)
        nets = [(x, price_shell(plain.book, shell.specification, shell.donor, Tariff(x)).net) for x in ("GBP", "EUR")]
        assert [(price.list, price.amount) for price in shell.prices] == ([] if shell.causes else nets)
    assert all(not shell.causes for shell in proof.standard)
    assert all(shell.causes for shell in proof.broken)
    assert _usual(plain) == {
        (tuple(shell.keys.items()), tuple(shell.specification.items())) for shell in (*proof.standard, *proof.broken)
    }


@settings(max_examples=50)
@given(SEEDS)
def test_the_cars_stand_for_all_others(seed: int) -> None:
    book, _ = make_case(Random(seed))
    assert {facts_key(book, car) for car in all_cars(book)} <= {facts_key(book, car) for car in cars(book)}


def test_the_random_books_know_every_finding() -> None:
    proofs = [world(seed)[1] for seed in range(70)]
    for name, least in (
        ("contradiction", 3),
        ("dead", 10),
        ("not_lost", 10),
        ("idle", 20),
        ("silent", 20),
        ("unpriced", 20),
        ("idle_tools", 5),
        ("toolless", 20),
        ("standard", 20),
        ("broken", 20),
    ):
        assert sum(bool(getattr(proof, name)) for proof in proofs) >= least, name
    assert sum(bool(each.implied_by) for proof in proofs for each in proof.idle) > 10
    assert any(isinstance(each, Silent) and each.line for proof in proofs for each in proof.silent)
    assert all(isinstance(each, Unpriced) for proof in proofs for each in proof.unpriced)


def _hitting(broken: list[frozenset[str]], order: list[str]) -> tuple[tuple[str, ...], ...]:
    """Every smallest set of ids of which each shell breaks one, by trying all sets."""
    found: list[tuple[str, ...]] = []
    for size in range(1, len(order) + 1):
        for names in combinations(order, size):
            minimal = not any(set(less) <= set(names) for less in found)
            if minimal and all(each & set(names) for each in broken):
                found.append(names)
    return tuple(found)


def _named(plain: Plain, when: Condition, car: Donor) -> Iterator[tuple[str, str]]:
    """Choices with which the condition can hold, of options that make a difference to it."""
    listed = plain.lists[car]
    said = {tuple(made.items()): bool(listed.says(when, made)) for made in listed.all}
    for option, choices in listed.domains.items():
        twins = [[said[tuple({**made, option: c}.items())] for c in choices] for made in listed.all]
        if any(len(set(twin)) > 1 for twin in twins):
            yield from ((option, c) for k, c in enumerate(choices) if any(twin[k] for twin in twins))


def _usual(plain: Plain) -> set[tuple[object, object]]:
    found: set[tuple[object, object]] = set()
    series = plain.book.roles.get(Role.SERIES)
    keys = [plain.book.roles[role] for role in (Role.SERIES, Role.MARKET, Role.BODY) if role in plain.book.roles]
    for made in plain.nobody.all:
        row = {key: made[key] for key in keys}
        for car in all_cars(plain.book):
            if car == NOBODY or (series is not None and car.series == row[series]):
                usual = usual_specification(plain.book, row, car)
                found.add((tuple(row.items()), tuple(usual.items())))
    return found


def test_without_a_series_option_the_cars_are_of_the_series_that_conditions_name() -> None:
    book = _book_where(All((DonorNumber("s2", 10, 20), Not(DonorSeries(frozenset({"s4", "s1"}))))))
    assert [(car.series, car.number) for car in cars(book)] == [
        (None, None), ("s1", None), ("s2", None), ("s2", 9), ("s2", 10), ("s2", 20), ("s2", 21), ("s4", None),
    ]  # fmt: skip


def test_an_open_end_of_the_numbers_is_one_edge_and_no_end_is_any_number() -> None:
    def numbers(low: int | None, high: int | None) -> list[int | None]:
        return [car.number for car in cars(_book_where(DonorNumber("s2", low, high))) if car.number is not None]

    assert (numbers(0, None), numbers(None, 5), numbers(None, None)) == ([0], [5, 6], [0])


def _book_where(when: Condition) -> Book:
    return Book("b", {}, ("en",), (), rules=(Rule("R", frozenset({Kind.CAUTION}), when, None, {}),))

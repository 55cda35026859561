"""Books without a diagram answer as those with one do; large books load, answer and explain themselves."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from msgspec import structs
from pysat.solvers import Solver

from rules.answer import Answer, ChoiceAnswer, PriceFrom, State, Verdict
from rules.condition import All, Is
from rules.engine.ask import ask, prepare
from rules.engine.diagram import TooLarge
from rules.engine.numbers import Patience
from rules.engine.without_diagram import WithoutDiagram, prepare_without_diagram
from rules.explain.reasons import reasons
from rules.model import Book, Choice, Line, Option
from rules.money.price import Tariff
from rules.specification import Donor, Specification, Taken
from tests.fuzz.walks import walk
from tests.rules.by_sat import BySat
from tests.rules.large_books import GBP as GBP_LIST
from tests.rules.large_books import WORDS, grown, tangled

GBP = Tariff("GBP")
NONE = Patience(0, 0)


@pytest.mark.parametrize("number", range(20))
def test_small_books_get_the_same_answer_to_the_last_field(number: int) -> None:
    for question in walk(11, number).questions:
        asked = question.asked
        drawn = prepare(asked.book, asked.states, asked.donor)
        bare = prepare_without_diagram(asked.book, asked.states, asked.donor)
        expected = ask(drawn, asked.specification, asked.tariff)
        assert ask(bare, asked.specification, asked.tariff) == expected
        seen, told = (each.views(asked.specification.choices(), asked.tariff)[0] for each in (drawn, bare))
        assert (told.ways, told.choices) == (seen.ways, seen.choices)
        assert reasons(bare, asked.specification.choices()) == reasons(drawn, asked.specification.choices())


@pytest.mark.parametrize("number", range(20))
def test_with_no_patience_all_but_counts_and_prices_is_the_same(number: int) -> None:
    for question in walk(12, number).questions:
        asked = question.asked
        expected = ask(prepare(asked.book, asked.states, asked.donor), asked.specification, asked.tariff)
        bare = prepare_without_diagram(asked.book, asked.states, asked.donor, patience=NONE)
        found = ask(bare, asked.specification, asked.tariff)
        assert _unpriced(found) == _unpriced(expected)
        assert found.count in (None, expected.count)
        _prices_told_are_right(found, expected)


def _unpriced(answer: Answer) -> Answer:
    nothing = PriceFrom(None, False, False)
    options = tuple(structs.replace(o, choices=tuple(_bare(choice) for choice in o.choices)) for o in answer.options)
    return replace(answer, options=options, count=None, outright=None, price_from=nothing)


def _bare(choice: ChoiceAnswer) -> ChoiceAnswer:
    return structs.replace(choice, price_from=None, difference=None)


def _prices_told_are_right(found: Answer, expected: Answer) -> None:
    pairs = [(found.price_from, expected.price_from)]
    for one, other in zip(found.options, expected.options, strict=True):
        pairs += [(a.price_from, b.price_from) for a, b in zip(one.choices, other.choices, strict=True)]  # type: ignore[misc]
    for price, right in pairs:
        assert price == right or not (price is None or price.worked_out)


@pytest.mark.parametrize("groups", [1, 4, 8, 15])
def test_a_book_of_ten_to_a_hundred_and_fifty_options_answers_alike_both_ways(groups: int) -> None:
    book = grown(groups)
    drawn, bare = prepare(book, {}, Donor(), seeds=()), prepare_without_diagram(book, {}, Donor())
    rng, made = Random(groups), {}
    for option in rng.sample(book.options, min(10 * groups, 12)):
        made[option.id] = Taken(rng.choice(option.choices).id)
        expected, found = (ask(each, Specification(made), GBP) for each in (drawn, bare))
        assert _unpriced(found) == _unpriced(expected)
        assert found.count in (None, expected.count)
        _prices_told_are_right(found, expected)


def test_a_price_that_two_answers_make_together_counts_once_when_one_of_them_is_taken_back() -> None:
    """A coupé is 10 or 20 by its glass, a roadster 1 or 2: from the coupé on, a roadster is from 1, which is 9 less."""
    prices = {("coupe", "thin"): 10, ("coupe", "thick"): 20, ("roadster", "thin"): 1, ("roadster", "thick"): 2}
    lines = tuple(
        Line(f"{body}-{glass}", All((_is("body", body), _is("glass", glass))), "A", WORDS, {"GBP": amount})
        for (body, glass), amount in prices.items()
    )
    book = Book("small", WORDS, ("en",), (_option("body", "coupe", "roadster"), _option("glass", "thin", "thick")),
                (), lists=(GBP_LIST,), lines=lines)  # fmt: skip
    answer = ask(prepare_without_diagram(book, {}, Donor()), Specification({"body": Taken("coupe")}), GBP)
    assert (answer.count, answer.price_from) == (2, PriceFrom(10, True))
    told = {choice.choice: (choice.price_from, choice.difference) for choice in answer.options[0].choices}
    assert told == {"coupe": (PriceFrom(10, True), 0), "roadster": (PriceFrom(1, True), -9)}


def _option(option: str, *choices: str) -> Option:
    return Option(option, "g", WORDS, tuple(Choice(choice, WORDS) for choice in choices))


def _is(option: str, choice: str) -> Is:
    return Is(option, frozenset((choice,)))


def test_a_tangled_book_is_too_large_for_a_diagram() -> None:
    with pytest.raises(TooLarge):
        prepare(tangled(80), {}, Donor(), limit=20_000, seeds=())


@pytest.mark.parametrize(("count", "wide"), [(80, 0), (150, 2), (300, 3)])
def test_a_tangled_book_answers_and_explains_as_a_solver_does(count: int, wide: int) -> None:
    book = tangled(count, wide=wide)
    tables = [len(rule.needs.rows) for rule in book.rules if rule.id.startswith("W")]  # type: ignore[union-attr]
    assert not wide or max(tables) > 1_000
    bare, sat = prepare_without_diagram(book, {}, Donor()), BySat(book, {}, Donor())
    with Solver(bootstrap_with=sat.clauses) as solver:
        shell = _shell(sat, solver)
        for share in (0.0, 0.5, 1.0):
            made = dict(list(shell.items())[: int(share * count)])
            answer = ask(bare, Specification({o: Taken(c) for o, c in made.items()}), GBP)
            assert (answer.verdict is not Verdict.CANT) == sat.can(solver, made)
            for option in answer.options:
                for choice in option.choices:
                    can = sat.can(solver, {**made, option.option: choice.choice})
                    assert (choice.state is not State.CLOSED) == can
    assert answer.complete
    assert answer.count == 1
    _explains(bare, answer, made)


def _shell(sat: BySat, solver: Solver) -> dict[str, str]:
    """A whole shell that can be built."""
    assert solver.solve()
    model = frozenset(solver.get_model())
    return {option: choice for (option, choice), variable in sat.variables.items() if variable in model}


def _explains(bare: WithoutDiagram, answer: Answer, made: dict[str, str]) -> None:
    closed = [(o.option, c) for o in answer.options for c in o.choices if c.state is State.CLOSED]
    assert closed
    for option, choice in closed[:20]:
        assert choice.causes
        found, _ = reasons(bare, made, (option, choice.choice))
        assert found
        assert all(reason.rules for reason in found)


def test_a_price_that_changes_with_one_answer_is_told_where_all_else_is_answered() -> None:
    book = tangled(80)
    bare, sat = prepare_without_diagram(book, {}, Donor()), BySat(book, {}, Donor())
    with Solver(bootstrap_with=sat.clauses) as solver:
        made = _shell(sat, solver)
    answer = ask(bare, Specification({o: Taken(c) for o, c in made.items()}), GBP)
    amounts = {(line.option, line.choice): line.amounts["GBP"] for line in book.lines}
    assert answer.price_from == PriceFrom(sum(amounts[at] for at in made.items()), answer.outright == 1)
    for option in answer.options:
        for choice in option.choices:
            if choice.state is not State.CLOSED:
                own = amounts[option.option, choice.choice] - amounts[option.option, made[option.option]]
                assert choice.difference == own

"""Random rule books against python-sat with an encoding of its own: tests/rules/by_sat.py."""

from __future__ import annotations

from collections.abc import Mapping

from hypothesis import given, reject, settings
from pysat.solvers import Solver

from rules.answer import State, Verdict
from rules.engine.ask import ask, prepare
from tests.rules.by_sat import BySat
from tests.rules.random_books import Asked
from tests.rules.strategies import questions


def told(sat: BySat, made: Mapping[str, str], asked: Asked) -> int | None:
    """The solver's cheapest; an example whose odd amounts keep weighted MaxSAT busy for minutes is let go."""
    try:
        return sat.cheapest(made, asked.tariff, seconds=2)
    except TimeoutError:
        reject()


@settings(max_examples=150)
@given(questions())
def test_verdict_choices_counts_and_cheapest_are_what_a_sat_solver_says(asked: Asked) -> None:
    made = asked.specification.choices()
    answer = ask(prepare(asked.book, asked.states, asked.donor), asked.specification, asked.tariff)
    whole = BySat(asked.book, asked.states, asked.donor)
    outright = BySat(asked.book, asked.states, asked.donor, outright=True)
    with Solver(bootstrap_with=whole.clauses) as solver:
        assert (answer.verdict is not Verdict.CANT) == whole.can(solver, made)
        for option in answer.options:
            open_ = {choice.choice for choice in option.choices if choice.state is not State.CLOSED}
            assert open_ == {c.choice for c in option.choices if whole.can(solver, {**made, option.option: c.choice})}
    assert (answer.count, answer.outright) == (whole.count(made), outright.count(made))
    cheapest = told(outright if answer.outright else whole, made, asked)
    assert answer.price_from.amount == cheapest


@settings(max_examples=60)
@given(questions())
def test_the_price_from_a_choice_is_what_weighted_maxsat_says(asked: Asked) -> None:
    made = asked.specification.choices()
    answer = ask(prepare(asked.book, asked.states, asked.donor), asked.specification, asked.tariff)
    whole = BySat(asked.book, asked.states, asked.donor)
    outright = BySat(asked.book, asked.states, asked.donor, outright=True)
    for option in answer.options:
        for choice in option.choices:
            if choice.price_from is not None:
                there = {**made, option.option: choice.choice}
                sat = outright if choice.price_from.outright else whole
                assert choice.price_from.amount == told(sat, there, asked)

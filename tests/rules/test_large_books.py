"""Books of ten to a hundred and fifty options and more, from their text to the nearest shells that can be built.

Checked against python-sat: what can be built by a solver, the fewest answers to change by weighted MaxSAT (RC2).
"""

from __future__ import annotations

from random import Random
from typing import Any

import pytest
from pysat.examples.rc2 import RC2
from pysat.formula import WCNF
from pysat.solvers import Solver

from rules.answer import Answer, State, Verdict
from rules.engine.ask import ask, prepare
from rules.engine.prepare import Prepared
from rules.engine.without_diagram import prepare_without_diagram
from rules.explain.reasons import Reason, reasons
from rules.model import Book
from rules.money.price import Tariff
from rules.reading import read_book
from rules.specification import Donor, Specification, Taken
from rules.suggest import Surroundings, suggest
from rules.writing import write_book
from tests.rules.by_sat import BySat
from tests.rules.large_books import grown, tangled

GBP, NOBODY = Tariff("GBP"), Donor()
GROUPS = [1, 4, 8, 15]


def from_text(book: Book) -> Book:
    """The book as somebody would have it: read from its text."""
    read = read_book(write_book(book), "large.book")
    assert read == book
    return read


def chosen(made: dict[str, str]) -> Specification:
    return Specification({option: Taken(choice) for option, choice in made.items()})


def walked(prepared: Any, book: Book, count: int) -> dict[str, str]:
    """Answers one after another, each among what can be taken."""
    rng, made = Random(count), dict[str, str]()
    for option in rng.sample(book.options, count):
        answer = next(o for o in ask(prepared, chosen(made), GBP).options if o.option == option.id)
        made[option.id] = rng.choice([c.choice for c in answer.choices if c.state is not State.CLOSED])
    return made


def a_closed_choice(answer: Answer, made: dict[str, str]) -> tuple[str, str]:
    """A choice of an open question that the answers close."""
    open_ = (option for option in answer.options if option.option not in made)
    return next((o.option, c.choice) for o in open_ for c in o.choices if c.state is State.CLOSED)


def fewest_changes(sat: BySat, made: dict[str, str], wish: tuple[str, str]) -> int:
    """How many of the answers have to go for the wish, at least."""
    formula = WCNF()
    formula.extend([*sat.clauses, [sat.variables[wish]]])
    for at in made.items():
        formula.append([sat.variables[at]], weight=1)
    with RC2(formula) as solver:
        assert solver.compute() is not None
        return int(solver.cost)


def explained(sat: BySat, found: tuple[Reason, ...], made: dict[str, str], wish: tuple[str, str]) -> None:
    """Every reason is one: with the wish its answers, which are the reader's, can't be."""
    assert found
    with Solver(bootstrap_with=sat.clauses) as solver:
        for reason in found:
            assert reason.wish == wish
            assert dict(reason.answers).items() <= made.items()
            assert not sat.can(solver, dict([*reason.answers, wish]))


@pytest.mark.parametrize("groups", GROUPS)
def test_a_book_is_read_answered_explained_and_its_nearest_shells_are_found(groups: int) -> None:
    book = from_text(grown(groups))
    assert len(book.options) == 10 * groups
    prepared, sat = prepare(book, {}, NOBODY, seeds=()), BySat(book, {}, NOBODY)
    made = walked(prepared, book, 6)
    wish = a_closed_choice(ask(prepared, chosen(made), GBP), made)
    found, _ = reasons(prepared, made, wish)
    explained(sat, found, made, wish)
    offered(prepared, sat, made, wish)


def offered(prepared: Prepared, sat: BySat, made: dict[str, str], wish: tuple[str, str]) -> None:
    """The nearest shells can be built, keep the wish, and the first changes as little as anything does."""
    shells = suggest(Surroundings(prepared, {}, NOBODY), chosen(made), GBP, wish)
    assert shells.nearest
    assert len(shells.nearest[0].changes) == fewest_changes(sat, made, wish)
    with Solver(bootstrap_with=sat.clauses) as solver:
        for suggestion in (*shells.nearest, *shells.fill):
            assert sat.can(solver, dict(suggestion.shell))
            assert suggestion.shell[wish[0]] == wish[1]


@pytest.mark.parametrize(("count", "wide"), [(80, 0), (150, 2)])
def test_a_book_that_no_diagram_holds_is_read_answered_and_explained(count: int, wide: int) -> None:
    book = from_text(tangled(count, wide=wide))
    bare, sat = prepare_without_diagram(book, {}, NOBODY), BySat(book, {}, NOBODY)
    made = walked(bare, book, 6)
    answer = ask(bare, chosen(made), GBP)
    assert answer.verdict is not Verdict.CANT
    wish = a_closed_choice(answer, made)
    found, _ = reasons(bare, made, wish)
    explained(sat, found, made, wish)

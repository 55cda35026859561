"""Specifications stored earlier, looked at again: against the list of all shells, and on the demo book."""

from __future__ import annotations

from hypothesis import given

from rules.donor.usual import usual_specification
from rules.engine.ask import prepare
from rules.proof.recheck import Rechecked
from tests.rules.demo_book import NO_DONOR, prepared, whole
from tests.rules.listed import Listed
from tests.rules.random_books import Asked
from tests.rules.strategies import questions

S3_HOME = {"series": "s3", "market": "home", "body": "roadster"}


@given(questions())
def test_what_stands_and_stands_outright_is_what_a_list_says(asked: Asked) -> None:
    rechecked = Rechecked(prepare(asked.book, asked.states, asked.donor))
    listed = Listed(asked.book, asked.states, asked.donor, asked.tariff).list_all()
    for made, breaches, gated in zip(listed.all, listed.breaches, listed.gated, strict=True):
        assert rechecked.stands(made) == (not breaches, not breaches and not gated)


def test_a_whole_shell_stands_and_what_the_book_does_not_know_is_passed_over() -> None:
    rechecked, shell = Rechecked(prepared()), usual_specification(whole(), S3_HOME, NO_DONOR)
    assert rechecked.stands(shell) == (True, True)
    assert rechecked.stands({**shell, "ashtray": "walnut"}) == (True, True)


def test_with_an_answer_missing_unknown_or_forbidden_it_does_not() -> None:
    rechecked, shell = Rechecked(prepared()), usual_specification(whole(), S3_HOME, NO_DONOR)
    assert rechecked.stands({o: c for o, c in shell.items() if o != "sealer"}) == (False, False)
    assert rechecked.stands({**shell, "sealer": "tar"}) == (False, False)
    assert rechecked.stands({**shell, "scuttle": "vented"}) == (False, False)


def test_a_shell_that_needs_a_part_stands_but_not_outright() -> None:
    keys = {"series": "s2", "market": "home", "body": "coupe"}
    shell = {**usual_specification(whole(), keys, NO_DONOR), "rear-window": "small"}
    assert Rechecked(prepared()).stands(shell) == (True, False)

"""Rules written as clauses node by node clash as those written path by path do."""

from __future__ import annotations

from random import Random

import pytest

from rules.engine import clauses
from rules.engine.ask import ask, prepare
from tests.rules.random_books import make_question


@pytest.mark.parametrize("seed", range(60))
def test_both_ways_of_writing_a_rule_give_the_same_causes(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = make_question(Random(seed))
    by_path = ask(prepare(asked.book, asked.states, asked.donor), asked.specification, asked.tariff)
    monkeypatch.setattr(clauses, "PATHS", 1)
    by_node = ask(prepare(asked.book, asked.states, asked.donor), asked.specification, asked.tariff)
    assert by_node == by_path

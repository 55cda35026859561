"""Why a choice can't be taken beside answers that can be built: found near it, the same as found from scratch."""

from __future__ import annotations

from random import Random

import pytest

from rules.engine.prepare import Prepared, prepare
from tests.rules.random_books import make_question


@pytest.mark.parametrize("seed", range(90, 150))
def test_a_closed_choice_has_all_the_causes_that_a_search_from_scratch_finds(seed: int) -> None:
    """Nothing answered first: no shell is at hand then that shows what else holds. It matters in four of these."""
    asked = make_question(Random(seed))
    here, scratch = (prepare(asked.book, asked.states, asked.donor) for _ in range(2))
    for made in ({}, asked.specification.choices()):
        buildable, _ = here.views(made, asked.tariff)
        if buildable.ways:
            _all_the_same(here, scratch, here.layout.mask(made), buildable.branches)


def _all_the_same(here: Prepared, scratch: Prepared, answers: int, branches: object) -> None:
    assert isinstance(branches, dict)
    for option, found in branches.items():
        field = here.layout.field(option)
        for bit, (ways, _, _) in zip(here.layout.bits(option), found, strict=True):
            if not ways:
                others = answers & ~field
                assert here.causes.beside(others, field, bit) == scratch.causes.of(others | bit)

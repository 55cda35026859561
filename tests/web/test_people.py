"""The one table, asked directly; and how long a guesser waits."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from app.domain.asking.guessing import Patience, seconds_to_wait
from app.domain.asking.people import Action, Person, Role, Sort, Thing, may

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
GRETA = Person("greta", "Greta Lindenhof", Role.DEALER, "lindenhof", "de")
IMOGEN = Person("imogen", "Imogen Faulk", Role.CLERK)
OONA = Person("oona", "Oona Reyes", Role.INSPECTOR)


def test_a_dealer_reaches_his_own_and_neither_anothers_nor_the_firms() -> None:
    reads = [may(GRETA, Action.READ, Thing(Sort.QUOTATION, owner)) for owner in ("lindenhof", "bayou-road", None)]
    assert reads == [True, False, False]


def test_a_dealer_of_no_dealer_reaches_nothing() -> None:
    nobodys = Person("x", "X", Role.DEALER)
    assert not may(nobodys, Action.READ, Thing(Sort.QUOTATION, None))


def test_the_office_reaches_every_quotation_and_the_inspector_none() -> None:
    assert may(IMOGEN, Action.ISSUE, Thing(Sort.QUOTATION, "lindenhof"))
    assert not may(OONA, Action.READ, Thing(Sort.QUOTATION))


def test_what_the_table_does_not_say_nobody_may() -> None:
    assert not may(IMOGEN, Action.DECLARE_LOST, Thing(Sort.BOOK))


@pytest.mark.parametrize(
    ("failures", "ago", "wait"),
    [
        (0, 0, 0),  # nothing failed
        (4, 0, 0),  # a heavy hand
        (5, 0, 4),
        (6, 0, 8),
        (6, 5, 3),  # five of the eight seconds have gone by
        (6, 8, 0),
        (500, 0, 900),  # never longer than this
    ],
)
def test_each_failure_beyond_the_free_ones_doubles_the_wait(failures: int, ago: int, wait: int) -> None:
    failed = [NOW - timedelta(seconds=ago)] * failures
    assert seconds_to_wait(failed, Patience(free=5), NOW) == wait

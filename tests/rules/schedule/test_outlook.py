"""Whether promises hold. On cases simple enough for theory it agrees with the published formula.

Source: the Pollaczek–Khinchine formula (F. Pollaczek 1930, A. Khinchine 1932; in textbooks of queueing, here from
memory). One station, Poisson arrivals at rate λ, service S, load ρ = λ·E[S] < 1: a mean wait of λ·E[S²] / (2·(1 − ρ)).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import log, sqrt
from random import Random
from statistics import fmean, stdev

import pytest

from rules.schedule.outlook import (
    MONTH,
    WEEK,
    YEAR,
    Mishaps,
    Place,
    Shell,
    Work,
    Workshop,
    _lost,
    a_year,
    pass_through,
    tried,
)

ONE = Work({"bay": 4.0})
SHOP = Workshop((Place("jig", per_week=3.0), Place("bay", bays=3)), (Work({"jig": 2.0, "bay": 4.0}),), slack=5)


def poisson(rate: float, many: int, chance: Random) -> list[float]:
    """Moments of arrival."""
    at, found = 0.0, list[float]()
    for _ in range(many):
        at -= log(1 - chance.random()) / rate
        found.append(at)
    return found


def agrees(waits: Sequence[float], expected: float) -> bool:
    """Within three standard errors, taken from the means of fifty runs: waits of neighbours are not independent."""
    size = len(waits) // 50
    means = [fmean(waits[n * size : (n + 1) * size]) for n in range(50)]
    return abs(fmean(means) - expected) < 3 * stdev(means) / sqrt(50)


@pytest.mark.parametrize("load", [0.5, 0.85])
def test_waiting_for_one_bay_with_rework_agrees_with_pollaczek_and_khinchine(load: float) -> None:
    """Four days, and three more for 8 % of the shells."""
    chance, mean, square = Random(7), 4 + 0.08 * 3, 0.92 * 4**2 + 0.08 * 7**2
    rate = load / mean
    extra = [{"bay": 3.0} if chance.random() < 0.08 else {} for _ in range(60_000)]
    shells = [Shell(ONE, at, at, more) for at, more in zip(poisson(rate, len(extra), chance), extra, strict=True)]
    through = pass_through(Workshop((Place("bay", bays=1),), (ONE,)), shells)
    waits = [out - one.slot - 4 - one.extra.get("bay", 0) for out, one in zip(through, shells, strict=True)]
    assert agrees(waits, rate * square / (2 * (1 - load)))
    assert not agrees(waits, 1.15 * rate * square / (2 * (1 - load))), "the check can fail"


def test_waiting_for_a_weekly_rate_agrees_with_the_same_formula() -> None:
    """Two a week: one every 2.5 days, each alike, so that the mean wait is ρ·2.5 / (2·(1 − ρ))."""
    work, load = Work({"booth": 0.0}), 0.7
    moments = poisson(load / 2.5, 60_000, Random(11))
    through = pass_through(Workshop((Place("booth", per_week=2.0),), (work,)), [Shell(work, at, at) for at in moments])
    assert agrees([out - at for out, at in zip(through, moments, strict=True)], load * 2.5 / (2 * (1 - load)))


def test_a_change_of_kind_takes_its_part_of_the_week() -> None:
    """Two a week, a change half a shell: 2.5 days between two alike, 3.75 between two unlike."""
    works = [Work({"jig": 0.0}, kind) for kind in "RRCR"]
    shells = [Shell(work, 0.0, 0.0) for work in works]
    jig = Place("jig", per_week=2.0, changeover=0.5)
    assert pass_through(Workshop((jig,), tuple(works)), shells) == [0.0, 2.5, 6.25, 10.0]


def test_where_nothing_goes_wrong_every_promise_is_kept_to_the_day() -> None:
    late = a_year(SHOP, Mishaps(), 0.85, Random(1).random)
    assert set(late) == {0}
    assert len(late) == pytest.approx(YEAR / WEEK * 3 * 0.85, abs=1)


def test_the_same_seed_gives_the_same_years_and_another_gives_others() -> None:
    mishaps = Mishaps(rework=0.5, rework_days=9, rework_at="bay")
    first, again, other = (a_year(SHOP, mishaps, 0.85, Random(seed).random) for seed in (1, 1, 2))
    assert first == again != other


def test_rework_beyond_the_slack_makes_just_those_shells_late() -> None:
    roomy = replace(SHOP, places=(SHOP.places[0], Place("bay")))
    late = a_year(roomy, Mishaps(rework=0.5, rework_days=9, rework_at="bay"), 0.85, Random(1).random)
    assert set(late) == {0, 4}
    assert 0.35 < fmean(days == 4 for days in late) < 0.65


def test_a_part_is_late_only_for_shells_that_wait_for_one() -> None:
    waits = Work({"jig": 2.0, "bay": 4.0}, part_before="bay")
    mixed = Workshop((Place("jig", per_week=3.0), Place("bay")), (waits, SHOP.mix[0]), slack=5)
    late = a_year(mixed, Mishaps(part_late=1.0, part_days=10), 0.85, Random(1).random)
    assert {days: late.count(days) / len(late) for days in set(late)} == pytest.approx({0: 0.5, 5: 0.5}, abs=0.02)


def test_a_tool_that_is_down_holds_up_what_needs_it() -> None:
    needs = replace(SHOP.mix[0], tools=frozenset({"deck"}))
    with_tool = replace(SHOP, places=(Place("jig"), Place("bay")), mix=(needs,))
    late = a_year(with_tool, Mishaps(tools=("deck",), tool_days=15), 0.85, Random(1).random)
    assert max(late) in {9, 10}
    assert a_year(with_tool, Mishaps(tools=("roof",), tool_days=15), 0.85, Random(1).random) == [0] * len(late)


def test_days_lost_at_the_booth_lengthen_the_stay_there() -> None:
    painted = Workshop((Place("jig"), Place("paint")), (Work({"jig": 2.0, "paint": 2.0 * MONTH}),))
    late = a_year(painted, Mishaps(booth="paint", booth_days=2), 1.0, Random(1).random)
    assert set(late) <= {2, 3, 4, 5, 6}
    assert 4 <= fmean(late) <= 5, "two months of paint lose four days, and what is lost while they are made up"


def test_the_fuller_the_shop_is_planned_the_fewer_promises_hold() -> None:
    mishaps = Mishaps(rework=0.2, rework_days=3, rework_at="bay", part_late=0.3, part_days=10)
    busy = Workshop((Place("jig", 3.0), Place("bay", bays=3)), (Work({"jig": 2.0, "bay": 4.9}, part_before="bay"),), 5)
    held = [
        tried((a_year(busy, mishaps, load, chance.random) for _ in range(20)), 10).kept(0)
        for load in (0.85, 0.95)
        for chance in (Random(1),)
    ]
    assert held[0] > held[1]


def test_the_share_kept_and_the_width_for_a_share_are_read_off_the_same_count() -> None:
    found = tried([[0, 0, 2, 5], [0, 1, 11]], 2)
    assert (found.late[:3], found.shells, found.years) == ((3, 1, 1), 7, (0.75, 2 / 3))
    assert (found.kept(0), found.kept(5), found.kept(99)) == (3 / 7, 6 / 7, 1.0)
    assert (found.width_for(0.5), found.width_for(6 / 7), found.width_for(1.0)) == (1, 5, 11)
    assert (tried([], 10).kept(10), tried([], 10).width_for(0.9)) == (1.0, 0)


def test_the_days_on_which_the_booth_is_lost_lie_anywhere_in_a_month_and_none_is_lost_twice() -> None:
    """Two of each month's twenty-one working days, drawn evenly: the mean is the middle, ten."""
    chance = Random(3)
    days = list[int]()
    for _ in range(40):
        lost = _lost(Mishaps(booth="booth", booth_days=2), chance.random)
        assert len(set(lost)) == len(lost) == 2 * len({day // MONTH for day in lost})
        days += [day % MONTH for day in lost]
    assert (min(days), max(days)) == (0, MONTH - 1)
    assert abs(fmean(days) - (MONTH - 1) / 2) < 3 * stdev(days) / sqrt(len(days))

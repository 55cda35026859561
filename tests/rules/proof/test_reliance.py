"""What relies on a tool. The figures are the scenario's own counts; the choices are checked with python-sat."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from pysat.solvers import Solver

from rules.condition import ALWAYS, NEVER, DonorGearbox
from rules.model import ToolCondition
from rules.proof.reliance import Reliance, reliance, uses
from rules.specification import Donor
from rules.tools import Effect, effect
from tests.rules.by_sat import BySat
from tests.rules.demo_book import NO_DONOR, STATES, whole


def of(tool: str) -> Reliance:
    return reliance(whole(), STATES, tool)


@pytest.mark.parametrize(
    ("tool", "using", "percent"),
    [
        ("four-link-tool", 13_632, "27.0"),
        ("folding-aperture-tool", 11_856, "23.5"),
        ("impact-rail-jig", 5_760, "11.4"),
        ("narrow-tunnel-press", 3_840, "7.6"),
        ("small-window-press", 3_072, "6.1"),
        ("bulkhead-r-na", 0, "0.0"),  # never made: nothing that can be built uses it
        ("outer-skins", 50_496, "100.0"),
    ],
)
def test_so_many_of_the_buildable_structures_use_a_tool(tool: str, using: int, percent: str) -> None:
    found = of(tool)
    assert (found.structures, found.using, found.percent) == (50_496, using, Decimal(percent))


def test_the_raised_bonnet_goes_with_the_four_link_tool_and_all_goes_with_the_skins() -> None:
    assert of("four-link-tool").choices == (("suspension", "four-link"), ("bonnet", "raised"))
    assert (of("four-link-tool").everything, of("outer-skins").everything) == (False, True)


@pytest.mark.parametrize("tool", [tool.id for tool in whole().tools])
def test_a_sat_solver_finds_the_same_choices_gone_without_the_tool(tool: str) -> None:
    sat = BySat(whole(), STATES, NO_DONOR)
    without = [*sat.clauses, *sat.forbidding(uses(whole(), tool, NO_DONOR))]
    with Solver(bootstrap_with=sat.clauses) as all_, Solver(bootstrap_with=without) as left:
        gone = [pair for pair, x in sat.variables.items() if all_.solve([x]) and not left.solve([x])]
    assert list(of(tool).choices) == gone


def test_a_tool_that_is_lost_already_is_counted_as_if_it_were_in_order() -> None:
    lost = {**STATES, "four-link-tool": ToolCondition.LOST}
    assert reliance(whole(), lost, "four-link-tool") == of("four-link-tool")


@pytest.mark.parametrize(
    ("tool", "state", "follows"),
    [
        ("four-link-tool", ToolCondition.OK, Effect.FREE),
        ("four-link-tool", ToolCondition.DOWN, Effect.WAITS),
        ("four-link-tool", ToolCondition.LOST, Effect.NEVER),  # no part stands in for it
        ("narrow-tunnel-press", ToolCondition.LOST, Effect.PART),  # P1
        ("vented-scuttle-press", ToolCondition.LOST, Effect.RULE),  # N1
        ("vented-scuttle-press", ToolCondition.OK, Effect.RULE),  # N1 forbids the choice in any case
    ],
)
def test_what_follows_from_a_tools_state(tool: str, state: ToolCondition, follows: Effect) -> None:
    (found,) = (each for each in whole().tools if each.id == tool)
    assert effect(found, state) is follows


def test_a_tool_that_only_some_donor_cars_need_is_used_for_them_alone() -> None:
    only_automatics = replace(whole().tools[0], needed_for=DonorGearbox(frozenset(("automatic",))))
    book = replace(whole(), tools=(only_automatics, *whole().tools[1:]))
    assert uses(book, only_automatics.id, Donor(gearbox="automatic")) == ALWAYS
    assert uses(book, only_automatics.id, Donor(gearbox="manual")) == NEVER

from __future__ import annotations

import sqlite3
from datetime import date, timedelta
from typing import Any

import pytest

from app.domain.errors import BadInput, ChangedByAnother, NotFound
from app.services.answering import specifying
from app.services.answering.specifying import Asked
from app.services.books import publishing, tools
from rules.answer import Verdict
from rules.model import ToolCondition
from rules.specification import Specification, Taken
from tests.app.desk import CLERK, MANAGER, NOW, Desk

TOOL = "four-link-tool"
FOUR_LINK = Specification({"suspension": Taken("four-link")})


def test_a_tool_that_breaks_is_down_until_a_day_with_who_and_when(desk: Desk) -> None:
    back = date(2026, 11, 23)
    after = tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.DOWN, NOW, until=back, note="Snapped.", expected=4)
    state = after.states[TOOL]
    assert (after.number, state.state, state.until, state.by, state.since) == (
        5,
        ToolCondition.DOWN,
        back,
        "piers",
        NOW,
    )


def test_changing_a_tool_publishes_no_book(desk: Desk) -> None:
    tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.LOST, NOW, note="Stolen.", expected=4)
    assert publishing.current_book(desk.store, NOW).number == 1


def test_a_tool_that_is_down_is_a_gate_and_a_lost_one_forbids(desk: Desk) -> None:
    tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.DOWN, NOW, note="Snapped.", expected=4)
    down = specifying.answer(desk.store, CLERK, Asked(FOUR_LINK), NOW).answer
    assert (down.verdict is not Verdict.CANT, down.depends.tools) == (True, (TOOL,))
    tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.LOST, NOW, note="Stolen.", expected=5)
    lost = specifying.answer(desk.store, CLERK, Asked(FOUR_LINK), NOW).answer
    assert (lost.verdict, lost.causes) == (Verdict.CANT, ((TOOL,),))


def test_the_states_of_any_earlier_number_are_had_again(desk: Desk) -> None:
    tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.LOST, NOW, note="Stolen.", expected=4)
    assert TOOL not in tools.tool_states(desk.store, 4).states
    assert tools.tool_states(desk.store, 1).conditions() == {"vented-scuttle-press": ToolCondition.LOST}
    assert tools.tool_states(desk.store, 0).states == {}
    old = specifying.answer(desk.store, CLERK, Asked(FOUR_LINK, tool_state=4), NOW).answer
    assert old.verdict is not Verdict.CANT


@pytest.mark.parametrize("number", [-1, 5])
def test_a_number_the_log_never_reached_is_not_found(desk: Desk, number: int) -> None:
    with pytest.raises(NotFound):
        tools.tool_states(desk.store, number)


def test_of_two_who_change_a_tool_at_once_the_second_is_told(desk: Desk) -> None:
    tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.DOWN, NOW, note="Snapped.", expected=4)
    with pytest.raises(ChangedByAnother):
        tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.OK, NOW, expected=4)
    assert tools.tool_states(desk.store).number == 5


@pytest.mark.parametrize(
    ("state", "until", "code"),
    [
        (ToolCondition.LOST, NOW.date() + timedelta(days=1), "only-when-down"),  # a lost tool does not come back
        (ToolCondition.DOWN, NOW.date() - timedelta(days=1), "in-the-past"),
    ],
)
def test_a_day_of_return_that_makes_no_sense_is_refused(
    desk: Desk, state: ToolCondition, until: date, code: str
) -> None:
    with pytest.raises(BadInput) as refused:
        tools.set_tool(desk.store, MANAGER, TOOL, state, NOW, until=until, note="Snapped.", expected=4)
    assert [fault.code for fault in refused.value.faults] == [code]


def test_a_tool_that_the_book_does_not_name_is_not_found(desk: Desk) -> None:
    with pytest.raises(NotFound):
        tools.set_tool(desk.store, MANAGER, "hammer", ToolCondition.LOST, NOW, note="Stolen.", expected=4)


@pytest.mark.parametrize("state", [ToolCondition.DOWN, ToolCondition.LOST])
def test_down_and_lost_are_not_taken_without_a_reason(desk: Desk, state: ToolCondition) -> None:
    with pytest.raises(BadInput) as refused:
        tools.set_tool(desk.store, MANAGER, TOOL, state, NOW, note=" ", expected=4)
    assert [(fault.path, fault.code) for fault in refused.value.faults] == [("note", "reason-for-tool")]
    assert tools.tool_states(desk.store).number == 4


def test_what_stands_already_is_not_written_again(desk: Desk) -> None:
    assert tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.OK, NOW, expected=4).number == 4
    down: Any = {"until": NOW.date() + timedelta(days=9), "note": "Snapped."}
    first = tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.DOWN, NOW, expected=4, **down)
    again = tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.DOWN, NOW, expected=5, **down)
    longer = tools.set_tool(desk.store, MANAGER, TOOL, ToolCondition.DOWN, NOW, note="Snapped.", expected=5)
    assert (first.number, again, longer.number) == (5, first, 6)


@pytest.mark.parametrize("act", ["UPDATE tool_states SET state = 'ok'", "DELETE FROM tool_states"])
def test_the_log_of_tool_states_only_grows(desk: Desk, act: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="tool_states only grow"), desk.store.writing() as db:
        db.execute(act)

"""Tools and their live state. The workshop may say ok and down; only the manager says lost."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort, Thing, may
from app.domain.errors import MayNot
from app.services.books import consequences, publishing, tools
from app.services.books.tools import ToolStates
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import edits, expected, tag
from app.web.guard import does
from app.web.schemas.tools import ConsequencesIn, ConsequencesOut, ToolsOut, ToolStateIn
from app.web.views.foreseen import consequences_view, effect_view
from rules.model import Tool, ToolCondition
from rules.tools import effect

blp = resource("tools", "The presses and jigs, and whether each is ok, down or lost.")


@blp.route("/tools", methods=["GET"])
@does(Action.READ, Sort.TOOL)
@blp.response(200, ToolsOut)
def list_tools() -> Any:
    """All tools of the book in force, each with its state."""
    return _shown(tools.tool_states(here.store()))


@blp.route("/tools/<string:tool_id>", methods=["PUT"])
@does(Action.CHANGE, Sort.TOOL)
@edits
@blp.arguments(ToolStateIn)
@blp.response(200, ToolsOut)
def set_tool(body: dict[str, Any], tool_id: str) -> Any:
    """Say how a tool stands."""
    state = ToolCondition(body["state"])
    if ToolCondition.LOST in (state, _state_now(tool_id)):
        _only_who_declares_lost()
    after = tools.set_tool(
        here.store(), here.me(), tool_id, state, here.now(), until=body["until"], note=body["note"], expected=expected()
    )
    return _shown(after)


@blp.route("/tools/<string:tool_id>/consequences", methods=["GET"])
@does(Action.CHANGE, Sort.TOOL)
@blp.arguments(ConsequencesIn, location="query")
@blp.response(200, ConsequencesOut)
def consequences_of(query: dict[str, Any], tool_id: str) -> Any:
    """What it would do to say that the tool stands so: to the book, and to all that was promised. Changes nothing."""
    state = ToolCondition(query["state"])
    if state is ToolCondition.LOST:
        _only_who_declares_lost()
    return consequences_view(consequences.consequences(here.store(), tool_id, state, here.now()))


def _only_who_declares_lost() -> None:
    if not may(here.me(), Action.DECLARE_LOST, Thing(Sort.TOOL)):
        raise MayNot(action=Action.DECLARE_LOST.value, role=here.me().role.value)


def _state_now(tool_id: str) -> ToolCondition:
    said = tools.tool_states(here.store()).states.get(tool_id)
    return said.state if said else ToolCondition.OK


def _shown(states: ToolStates) -> Any:
    book = publishing.current_book(here.store(), here.now())
    return {"number": states.number, "tools": [_tool(tool, states) for tool in book.tools]}, tag(states.number)


def _tool(tool: Tool, states: ToolStates) -> dict[str, Any]:
    said = states.states.get(tool.id)
    follows = effect(tool, said.state if said else ToolCondition.OK)
    return {
        "id": tool.id,
        "label": tool.label,
        "state": said.state.value if said else ToolCondition.OK.value,
        "until": said.until if said else None,
        "since": said.since if said else None,
        "by": said.by if said else None,
        "by_name": here.called(said.by) if said else None,
        "note": said.note if said else "",
        **effect_view(tool, follows),
    }

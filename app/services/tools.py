"""The live state of the tools: read at any number, changed one switch at a time. Changing it publishes nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from app.domain.actor import Actor
from app.domain.tool_state import ToolState
from app.store.db import Store
from rules.model import ToolCondition


@dataclass(frozen=True, slots=True)
class ToolStates:
    """All tools said anything about, at `number`; a tool that is missing is ok. The number is the version for an edit."""

    number: int
    states: Mapping[str, ToolState]

    def conditions(self) -> dict[str, ToolCondition]:
        """tool → its condition, as the engine is handed it."""
        return {tool: state.state for tool, state in self.states.items()}


def tool_states(store: Store, number: int | None = None) -> ToolStates:
    """As they stood when the log had `number` entries; None: now. Raises NotFound for a number never reached."""
    raise NotImplementedError


def set_tool(
    store: Store,
    actor: Actor,
    tool: str,
    state: ToolCondition,
    now: datetime,
    *,
    until: date | None = None,
    note: str = "",
    expected: int,
) -> ToolStates:
    """All states after the change. Raises NotFound, BadInput, ChangedByAnother where `expected` is not the last number."""
    raise NotImplementedError

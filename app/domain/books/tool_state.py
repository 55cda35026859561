"""The state of a tool: live, dated data beside the book. Each entry has a number; the last number names them all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from app.domain.floor.safety import SafetyFault
from rules.model import Book, ToolCondition


@dataclass(frozen=True, slots=True)
class ToolState:
    """`until`: expected back, only on a tool that is down; `number`: the entry in the log."""

    tool: str
    state: ToolCondition
    until: date | None
    since: datetime
    by: str
    note: str
    number: int


@dataclass(frozen=True, slots=True)
class ToolStates:
    """All tools said anything about, at `number`, which is the version for an edit; a tool that is missing is ok.

    `faults`: safety faults that stand now, whatever the number: whoever reads the tools of a shell has them, too.
    """

    number: int
    states: Mapping[str, ToolState]
    faults: tuple[SafetyFault, ...] = ()

    def conditions(self) -> dict[str, ToolCondition]:
        """tool → its condition, as the engine is handed it."""
        return {tool: state.state for tool, state in self.states.items()}

    def conditions_in(self, book: Book) -> dict[str, ToolCondition]:
        """The same of the tools that the book names."""
        known = {tool.id for tool in book.tools}
        return {tool: condition for tool, condition in self.conditions().items() if tool in known}

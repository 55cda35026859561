"""The state of a tool: live, dated data beside the book. Each entry has a number; the last number names them all."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from rules.model import ToolCondition


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

"""How well promises would hold: what is asked, and what came of it. Plain data."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from rules.schedule.outlook import Tried


@dataclass(frozen=True, slots=True)
class Supposed:
    """What is supposed to go wrong. Shares in percent, days are working days; the same `seed` gives the same years.

    `tool_days`: of one tool, once a year; `booth_days`: in a month.
    """

    seed: int = 1
    years: int = 1_000
    rework: int = 8
    rework_days: int = 3
    part_late: int = 15
    part_days: int = 10
    tool_days: int = 15
    booth_days: int = 2


@dataclass(frozen=True, slots=True)
class Counted:
    """By whose work it was counted. Ids of stages, '' where the book has none; `parts` of `shells` wait for a part."""

    shells: int
    parts: int
    tools: int
    rework_at: str
    booth: str
    slack: str
    slack_days: int


@dataclass(frozen=True, slots=True)
class Outlook:
    """`held`: percent of what can be taken that is planned → what came of it. `width`: as the book quotes it."""

    supposed: Supposed
    width: int
    counted: Counted
    held: tuple[tuple[int, Tried], ...]
    at: datetime
    by: str

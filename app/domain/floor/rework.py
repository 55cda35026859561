"""Rework: what of a shell is to be mended, at which stage, who found it and who mended it. Pure.

How a shell with rework stands is read off its deeds (`app.domain.floor.shell`): sent back, mended, or withdrawn.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from app.domain.inspection.subject import Subject


@dataclass(frozen=True, slots=True)
class ReworkEnd:
    """`by` mended it and signed with his own code, in `minutes`, if he said; `withdrawn`: nothing was mended."""

    withdrawn: bool
    by: str
    day: date
    at: datetime
    minutes: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Rework:
    """`what` is to be mended at `stage`."""

    id: int
    shell: int
    subject: Subject
    what: str
    stage: str
    found_by: str
    found_at: datetime
    end: ReworkEnd | None = None


def last_mended(reworks: Iterable[Rework]) -> datetime | None:
    """When something was last mended."""
    ends = [one.end.at for one in reworks if one.end is not None and not one.end.withdrawn]
    return max(ends, default=None)


def open_rework(reworks: Iterable[Rework]) -> tuple[Rework, ...]:
    """What nobody has mended yet."""
    return tuple(one for one in reworks if one.end is None)

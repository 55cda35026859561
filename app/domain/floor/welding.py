"""Who welded which zone of a shell. A zone that nobody has signed for can't be inspected. Pure."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from rules.making import Zone
from rules.workshop.work import Work


@dataclass(frozen=True, slots=True)
class Weld:
    """`welder` signed with his own code that he welded the zone on `day`; `by`: who was signed in then."""

    zone: str
    welder: str
    day: date
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class WeldZone:
    """A zone that the shell has by its work, the stage at which it is welded, and who welded it, the first first."""

    zone: Zone
    stage: str
    process: str | None
    welds: tuple[Weld, ...] = ()


def weld_zones(work: Work, welds: Iterable[Weld]) -> tuple[WeldZone, ...]:
    """Every weld zone of the shell, in build order."""
    signed = tuple(welds)
    return tuple(
        WeldZone(zone, stage.stage, task.operation.process, tuple(one for one in signed if one.zone == zone.id))
        for stage in work.stages
        for task in stage.tasks
        for zone in task.zones
    )


def unsigned(zones: Iterable[WeldZone], stages: Collection[str]) -> tuple[WeldZone, ...]:
    """Those of the stages that have no welder yet."""
    return tuple(one for one in zones if one.stage in stages and not one.welds)


def welders_of(welds: Iterable[Weld]) -> Mapping[str, tuple[str, ...]]:
    """zone → who welded it, each once."""
    found: dict[str, dict[str, None]] = {}
    for one in welds:
        found.setdefault(one.zone, {})[one.welder] = None
    return {zone: tuple(people) for zone, people in found.items()}

"""What keeps a shell from going on: tools out of order, and gates before the stage that it would go into. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.domain.shell import Done, Stop, progress


@dataclass(frozen=True, slots=True)
class Stopped:
    """`what`: tools, parts, samples …; `of`: which tool, which rule."""

    what: str
    of: str = ""


def past(stage: str | None, deeds: Sequence[Done], route: Sequence[Stop]) -> bool:
    """Whether the shell is through the stage; of a tool of which nobody said where it is used, once all is done."""
    stands = progress(deeds, route)
    if not deeds:
        return False
    if stage is None or all(stop.stage != stage for stop in route):
        return stands.stage is None
    return stage in stands.through


def stopped_by(
    deeds: Sequence[Done],
    route: Sequence[Stop],
    tools: Iterable[tuple[str, str | None]],
    gates: Iterable[tuple[str, str, str]],
) -> tuple[Stopped, ...]:
    """`tools`: out of order and needed, with where each is used; `gates`: those shut, of what, before which stage.

    A tool stops a shell at the stage where it is used and before it, released or not; a gate stops it at the stage
    before which the gate has to be open.
    """
    stages = [stop.stage for stop in route]
    stands = progress(deeds, route)
    at = stands.stage or (stages[0] if stages and not deeds else None)
    if at is None:
        return ()
    reached = set(stages[: stages.index(at) + 1])
    broken = [Stopped("tools", tool) for tool, stage in tools if not past(stage, deeds, route)]
    shut = [Stopped(name, of) for name, of, before in gates if name not in _ELSEWHERE and before in reached]
    return (*broken, *shut)


#: Told by what was confirmed, or as a tool.
_ELSEWHERE = ("deposit", "specification", "approvals", "tools")

"""What keeps a shell from going on: safety faults, tools out of order, and gates before the stage it would go into.

Pure.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from app.domain.floor.shell import Done, Stop, progress


@dataclass(frozen=True, slots=True)
class Stopped:
    """`what`: safety, tools, parts, part-failed, kit-short …; `of`: which fault, tool, rule; `why`: of a fault."""

    what: str
    of: str = ""
    why: Mapping[str, str] = field(default_factory=dict)


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
    faults: Iterable[tuple[int, Mapping[str, str]]] = (),
    failed: Collection[str] = (),
) -> tuple[Stopped, ...]:
    """`tools`: out of order and needed, with where each is used; `gates`: those shut, of what, before which stage.

    `failed`: rules of the customer's parts that failed; before release any of them stops the shell: nobody knows yet
    whether it is to be built like that.

    A tool stops a shell at the stage where it is used and before it, released or not; a gate stops it at the stage
    before which the gate has to be open. `faults`: safety faults that may be in it, and why: they stop it wherever
    it is.
    """
    safety = tuple(Stopped("safety", str(key), why) for key, why in faults)
    return (*safety, *_stopped_at(deeds, route, tools, gates, failed))


def _stopped_at(
    deeds: Sequence[Done],
    route: Sequence[Stop],
    tools: Iterable[tuple[str, str | None]],
    gates: Iterable[tuple[str, str, str]],
    failed: Collection[str],
) -> tuple[Stopped, ...]:
    stages = [stop.stage for stop in route]
    stands = progress(deeds, route)
    at = stands.stage or (stages[0] if stages and not deeds else None)
    if at is None:
        return ()
    reached = set(stages[: stages.index(at) + 1])
    broken = [Stopped("tools", tool) for tool, stage in tools if not past(stage, deeds, route)]
    fails = {("parts", of) for of in failed}
    shut = [
        Stopped("part-failed" if (name, of) in fails else name, of)
        for name, of, before in gates
        if name not in _ELSEWHERE and (before in reached or (not deeds and (name, of) in fails))
    ]
    return (*broken, *shut)


#: Told by what was confirmed, or as a tool.
_ELSEWHERE = ("deposit", "specification", "approvals", "tools")

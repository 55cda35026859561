"""Whether complete specifications stored earlier can still be built: one step down the diagram for each option."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rules.engine.diagram import Diagram
from rules.engine.prepare import Prepared

#: For each layer its option, and for each node and choice the node below.
_Steps = Sequence[tuple[str, Mapping[tuple[int, str], int]]]


class Rechecked:
    """For one prepared book; it may be asked from several threads."""

    __slots__ = ("_buildable", "_outright")

    def __init__(self, prepared: Prepared) -> None:
        self._buildable = _steps(prepared, prepared.compiled.buildable)
        self._outright = _steps(prepared, prepared.compiled.outright)

    def stands(self, made: Mapping[str, str]) -> tuple[bool, bool]:
        """Whether it can be built, and outright. `made`: option → choice; others are passed over."""
        can = _passes(self._buildable, made)
        return can, can and _passes(self._outright, made)


def _steps(prepared: Prepared, diagram: Diagram) -> _Steps:
    """A diagram in which nothing can be built has no way down from its first layer."""
    domains = prepared.layout.domains
    return [
        (layer.option, {(node, choice): child for choice, edges in zip(domains[layer.option], layer.edges, strict=True)
                        for node, child, _ in edges})
        for layer in diagram.layers
    ]  # fmt: skip


def _passes(steps: _Steps, made: Mapping[str, str]) -> bool:
    """A choice that is missing, or that the book hasn't, leads nowhere."""
    node = 0
    for option, below in steps:
        led = below.get((node, made.get(option, "")))
        if led is None:
            return False
        node = led
    return True

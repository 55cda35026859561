"""Whether a condition holds whatever becomes of the open options: exactly, by its small diagram, remembered."""

from __future__ import annotations

from collections.abc import Sequence

from rules.engine.forest import TRUE, Forest
from rules.engine.layout import Layout
from rules.engine.memory import Memory

#: Answers remembered at most.
REMEMBERED = 20_000


class Certain:
    """One node of a forest. `reach`: the fields of the options that it depends on."""

    __slots__ = ("_forest", "_known", "_layout", "_node", "reach")

    def __init__(self, node: int, forest: Forest, layout: Layout) -> None:
        self._node, self._forest, self._layout = node, forest, layout
        self._known = Memory[int, bool](REMEMBERED)
        self.reach = layout.fields(forest.options_of(node))

    def holds(self, settled: int) -> bool:
        """Whether it holds for sure on a set of choices that stand alone."""
        seen = settled & self.reach
        known = self._known.get(seen)
        return self._known.keep(seen, self._certain(self._node, seen)) if known is None else known

    @classmethod
    def places(cls, conditions: Sequence[Certain], settled: int) -> list[int]:
        """The places of those that hold for sure; looked up here, for there are many of them."""
        told = [c._known.get(settled & c.reach) for c in conditions]
        return [k for k, known in enumerate(told) if known or (known is None and conditions[k].holds(settled))]

    def _certain(self, node: int, settled: int) -> bool:
        children = self._forest.children[node]
        if not children:
            return node == TRUE
        made = self._layout.choice(settled, self._forest.order[self._forest.levels[node]])
        left = children if made is None else (children[made],)
        return all(self._certain(child, settled) for child in dict.fromkeys(left))

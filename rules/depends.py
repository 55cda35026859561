"""Which rules the choices made set off, and which tools that are down they need. Says nothing of what can be built."""

from __future__ import annotations

from typing import TypeVar

from rules.answer import Depends
from rules.bans import Speaks
from rules.forest import TRUE, Forest
from rules.layout import Layout
from rules.model import Kind

#: Answers remembered at most, for each rule and for all together.
REMEMBERED = 20_000

T = TypeVar("T")

_FIELDS = {Kind.PART: "parts", Kind.APPROVAL: "approvals", Kind.CAUTION: "cautions", Kind.HOLD: "holds", None: "tools"}


class Voice:
    """One rule or tool: whether every way of answering what is open sets it off."""

    __slots__ = ("_forest", "_known", "_layout", "_node", "field", "id", "reach")

    def __init__(self, speaks: Speaks, forest: Forest, layout: Layout) -> None:
        self._forest, self._layout = forest, layout
        self._node = forest.grow(speaks.when)
        self._known: dict[int, bool] = {}
        self.id, self.field = speaks.id, _FIELDS[speaks.kind]
        self.reach = layout.fields(forest.options_of(self._node))

    def speaks(self, settled: int) -> bool:
        """Whether it holds for sure on a set of choices that stand alone."""
        seen = settled & self.reach
        known = self._known.get(seen)
        if known is None:
            known = _remember(self._known, seen, self._certain(self._node, seen))
        return known

    def _certain(self, node: int, settled: int) -> bool:
        children = self._forest.children[node]
        if not children:
            return node == TRUE
        made = self._layout.choice(settled, self._forest.order[self._forest.levels[node]])
        left = children if made is None else (children[made],)
        return all(self._certain(child, settled) for child in dict.fromkeys(left))


class Voices:
    """All rules that speak without forbidding."""

    __slots__ = ("_all", "_known", "_reach")

    def __init__(self, speaking: tuple[Speaks, ...], forest: Forest, layout: Layout) -> None:
        self._all = tuple(Voice(speaks, forest, layout) for speaks in speaking)
        self._known: dict[int, Depends] = {}
        self._reach = 0
        for voice in self._all:
            self._reach |= voice.reach

    def depends(self, settled: int) -> Depends:
        """What a set of choices that stand alone depends on."""
        seen = settled & self._reach
        return self._known.get(seen) or _remember(self._known, seen, self._listen(seen))

    def _listen(self, settled: int) -> Depends:
        heard: dict[str, list[str]] = {field: [] for field in _FIELDS.values()}
        for voice in self._all:
            if voice.speaks(settled):
                heard[voice.field].append(voice.id)
        return Depends(**{field: tuple(ids) for field, ids in heard.items()})


def _remember(known: dict[int, T], key: int, value: T) -> T:
    if len(known) >= REMEMBERED:
        known.clear()
    known[key] = value
    return value

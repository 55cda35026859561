"""Which rules the choices made set off, and which tools that are down they need. Says nothing of what can be built."""

from __future__ import annotations

from rules.answer import Depends
from rules.engine.bans import Speaks
from rules.engine.certain import REMEMBERED, Certain
from rules.engine.forest import Forest
from rules.engine.layout import Layout
from rules.engine.memory import Memory
from rules.model import Kind

_FIELDS = {Kind.PART: "parts", Kind.APPROVAL: "approvals", Kind.CAUTION: "cautions", Kind.HOLD: "holds", None: "tools"}


class Voices:
    """All rules that speak without forbidding; `reach`: the fields of the options that they hang on.

    A rule speaks when every way of answering what is open sets it off.
    """

    __slots__ = ("_known", "_said", "_voices", "_when", "reach")

    def __init__(self, speaking: tuple[Speaks, ...], forest: Forest, layout: Layout) -> None:
        self._voices = [(_FIELDS[s.kind], s.id) for s in speaking]
        self._when = [Certain(forest.grow(s.when), forest, layout) for s in speaking]
        self._known = Memory[int, Depends](REMEMBERED)
        self._said = Memory[tuple[int, ...], Depends](REMEMBERED)
        self.reach = 0
        for certain in self._when:
            self.reach |= certain.reach

    def depends(self, settled: int) -> Depends:
        """What a set of choices that stand alone depends on."""
        seen = settled & self.reach
        known = self._known.get(seen)
        return self._known.keep(seen, self._listen(seen)) if known is None else known

    def _listen(self, settled: int) -> Depends:
        places = tuple(Certain.places(self._when, settled))
        said = self._said.get(places)
        return self._said.keep(places, self._say(places)) if said is None else said

    def _say(self, places: tuple[int, ...]) -> Depends:
        heard: dict[str, list[str]] = {field: [] for field in _FIELDS.values()}
        for field, id_ in map(self._voices.__getitem__, places):
            heard[field].append(id_)
        return Depends(**{field: tuple(ids) for field, ids in heard.items()})

"""Why not: every minimal set of rules that can't hold together with the choices made.

The choices and "exactly one of each option" stand; the rules alone are what is doubted.
"""

from __future__ import annotations

from collections.abc import Sequence

from rules.answer import Cause
from rules.engine.certain import Certain
from rules.engine.clash import CAP
from rules.engine.groups import Group

#: Lists remembered for one group of options.
REMEMBERED = 5_000

#: Causes, and whether there are more.
Found = tuple[tuple[Cause, ...], bool]
NOTHING: Found = ((), False)


class Causes:
    """For all groups. `rules`: all ids in the book's order."""

    __slots__ = ("_groups", "places")

    def __init__(self, groups: Sequence[Group], rules: Sequence[str]) -> None:
        self.places = {id_: i for i, id_ in enumerate(dict.fromkeys(rules))}
        self._groups = tuple(_Remembering(group) for group in groups)

    def of(self, made: int) -> Found:
        """Every minimal set of rules that a set of choices contradicts; fewest rules first, then the book's order."""
        found = [some for group in self._groups if (some := group.of(made)) is not NOTHING]
        if len(found) < 2:
            return found[0] if found else NOTHING
        causes = sorted((cause for causes, _ in found for cause in causes), key=self._rank)
        return tuple(causes[:CAP]), len(causes) > CAP or any(more for _, more in found)

    def _rank(self, cause: Cause) -> tuple[int, list[int]]:
        return len(cause), [self.places[id_] for id_ in cause]


class _Remembering:
    """The causes within one group."""

    __slots__ = ("_breaches", "_group", "_known", "_switches")

    def __init__(self, group: Group) -> None:
        self._group, self._breaches, self._switches = group, group.breaches(), group.switches()
        self._known: dict[int, Found] = {}

    def of(self, made: int) -> Found:
        """In order; NOTHING itself where there are none."""
        seen = made & self._group.reach
        known = self._known.get(seen)
        if known is None:
            known = self._find(seen)
            if len(self._known) >= REMEMBERED:
                self._known.clear()
            self._known[seen] = known
        return known

    def _find(self, made: int) -> Found:
        """Rules broken by themselves are seen without asking; the solver is asked about the others together."""
        broken = Certain.places(self._breaches, made)
        whole = [place for place in range(len(self._breaches)) if place not in broken]
        things = [self._switches[place] for place in whole]
        clashes, more = self._group.clashes(self._group.literals(made), things, least=2)
        found = [*([place] for place in broken), *([whole[place] for place in clash] for clash in clashes)]
        return self._named(found, more) if found else NOTHING

    def _named(self, found: list[list[int]], more: bool) -> Found:
        causes = tuple(tuple(self._group.rules[place] for place in places) for places in found)
        return causes[:CAP], more or len(causes) > CAP

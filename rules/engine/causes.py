"""Why not: every minimal set of rules that can't hold together with the choices made.

The choices and "exactly one of each option" stand; the rules alone are what is doubted.
"""

from __future__ import annotations

from collections.abc import Sequence

from rules.answer import Cause
from rules.engine.certain import Certain
from rules.engine.clash import CAP
from rules.engine.groups import Group
from rules.engine.memory import Memory

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
        return self._ranked([some for group in self._groups if (some := group.of(made)) is not NOTHING])

    def beside(self, others: int, field: int, bit: int) -> Found:
        """The same of a choice (`bit`) of an option (`field`) beside answers to others, which alone can be built."""
        found = (group.beside(others, field, bit) for group in self._groups if field & group.reach)
        return self._ranked([some for some in found if some is not NOTHING])

    def _ranked(self, found: list[Found]) -> Found:
        if len(found) < 2:
            return found[0] if found else NOTHING
        causes = sorted((cause for causes, _ in found for cause in causes), key=self._rank)
        return tuple(causes[:CAP]), len(causes) > CAP or any(more for _, more in found)

    def _rank(self, cause: Cause) -> tuple[int, list[int]]:
        return len(cause), [self.places[id_] for id_ in cause]


class _Remembering:
    """The causes within one group. `_last`: the last shell that was found to show that it can be built."""

    __slots__ = ("_breaches", "_group", "_known", "_last", "_near", "_switches", "reach")

    def __init__(self, group: Group) -> None:
        self._group, self._breaches, self._switches = group, group.breaches(), group.switches()
        self.reach = group.reach
        self._known = Memory[int, Found](REMEMBERED)
        self._near: dict[int, tuple[list[int], list[Certain]]] = {}
        self._last = 0

    def of(self, made: int) -> Found:
        """In order; NOTHING itself where there are none."""
        seen = made & self.reach
        known = self._known.get(seen)
        return (
            self._known.keep(seen, self._find(seen, Certain.places(self._breaches, seen))) if known is None else known
        )

    def beside(self, others: int, field: int, bit: int) -> Found:
        """As `of`; only rules that speak of the option can be broken by a choice of it."""
        seen = (others | bit) & self.reach
        known = self._known.get(seen)
        return self._known.keep(seen, self._find_near(others & self.reach, field, bit)) if known is None else known

    def _find_near(self, others: int, field: int, bit: int) -> Found:
        """Where a shell with these answers breaks no rule more once the choice is put in, there is no more to find."""
        places, breaches = self._near_to(field)
        broken = Certain.places(breaches, others | bit)
        shell = self._shell(others)
        if broken and shell and broken == Certain.places(breaches, shell & ~field | bit):
            return self._named([[places[place]] for place in broken], more=False)
        return self._find(others | bit, [places[place] for place in broken])

    def _near_to(self, field: int) -> tuple[list[int], list[Certain]]:
        if field not in self._near:
            places = [place for place, breach in enumerate(self._breaches) if breach.reach & field]
            self._near[field] = places, [self._breaches[place] for place in places]
        return self._near[field]

    def _shell(self, others: int) -> int:
        """One that can be built with these answers; 0 where there is none."""
        shell = self._last
        if not shell or others & ~shell:
            shell = self._last = self._group.completed(others)
        return shell

    def _find(self, made: int, broken: list[int]) -> Found:
        """Rules broken by themselves are seen without asking; the solver is asked about the others together."""
        whole = [place for place in range(len(self._breaches)) if place not in broken]
        things = [self._switches[place] for place in whole]
        clashes, more = self._group.clashes(self._group.literals(made), things, least=2)
        found = [*([place] for place in broken), *([whole[place] for place in clash] for clash in clashes)]
        return self._named(found, more) if found else NOTHING

    def _named(self, found: list[list[int]], more: bool) -> Found:
        causes = tuple(tuple(self._group.rules[place] for place in places) for places in found)
        return causes[:CAP], more or len(causes) > CAP

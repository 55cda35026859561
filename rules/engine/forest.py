"""Conditions as small reduced diagrams, shared in one forest: what a rule or a price line says, under one order.

A node asks one option and has a child for each of its choices; a path asks options in the forest's order and leaves out
those that make no difference. Equal functions are the same node, however they were written: a sentence and a table of
thousands of rows alike. The product of them all is no business of this module.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from rules.condition import All, Among, Any, Condition, Is, Not

#: The two leaves that every forest begins with.
FALSE, TRUE = 0, 1

#: What a price leaf says: the line, and the adjustments that hold for it, in the book's order.
Term = tuple[str, tuple[str, ...]]

#: Adjustments of a line with the node of each.
_Adjusting = tuple[tuple[str, int], ...]


class Forest:
    """Nodes are whole numbers. `levels[node]`: the place of its option in the order, leaves lie below all."""

    __slots__ = (
        "_folded",
        "_index",
        "_leaves",
        "_negated",
        "_unique",
        "children",
        "choices",
        "levels",
        "order",
        "terms",
        "widths",
    )

    def __init__(self, order: tuple[str, ...], domains: Mapping[str, tuple[str, ...]]) -> None:
        bottom = len(order)
        self.order = order
        self.choices = {option: domains[option] for option in order}
        self.widths = tuple(len(domains[option]) for option in order)
        self.levels = [bottom, bottom]
        self.children: list[tuple[int, ...]] = [(), ()]
        self.terms: dict[int, Term] = {}
        self._index = {(o, c): (level, k) for level, o in enumerate(order) for k, c in enumerate(domains[o])}
        self._unique: dict[tuple[int, tuple[int, ...]], int] = {}
        self._leaves: dict[Term, int] = {}
        self._folded: dict[tuple[int, tuple[int, ...]], int] = {}
        self._negated: dict[int, int] = {FALSE: TRUE, TRUE: FALSE}

    def grow(self, condition: Condition) -> int:
        """The node of a resolved condition; KeyError where it names what the order hasn't."""
        match condition:
            case Is(option, choices):
                return self._is(option, choices)
            case Among(options, rows):
                return self._table(options, rows)
            case Not(part):
                return self.negate(self.grow(part))
            case All(parts):
                return self.fold((self.grow(part) for part in parts), decisive=FALSE)
            case Any(parts):
                return self.fold((self.grow(part) for part in parts), decisive=TRUE)
            case _:
                raise TypeError(f"resolve {condition!r} before growing it")

    def node(self, level: int, children: tuple[int, ...]) -> int:
        """The one node with these children; the child itself where all are the same."""
        if children.count(children[0]) == len(children):
            return children[0]
        known = self._unique.get((level, children))
        if known is None:
            known = self._unique[level, children] = self._add(level, children)
        return known

    def fold(self, parts: Iterable[int], decisive: int) -> int:
        """Any of the parts (`decisive` TRUE) or all of them (FALSE), refined level by level for all parts at once."""
        left = frozenset(parts) - {1 - decisive}
        if decisive in left:
            return decisive
        if len(left) < 2:
            return next(iter(left), 1 - decisive)
        return self._fold(tuple(sorted(left)), decisive)

    def negate(self, node: int) -> int:
        """The node that holds where this one doesn't."""
        if node not in self._negated:
            turned = self.node(self.levels[node], tuple(self.negate(child) for child in self.children[node]))
            self._negated[node], self._negated[turned] = turned, node
        return self._negated[node]

    def price(self, line: str, when: int, adjustments: _Adjusting) -> int:
        """A diagram whose leaves are FALSE where the line isn't charged, else the term: line and adjustments."""
        return self._price(line, when, adjustments, {})

    def regrow(self, source: Forest, node: int, made: Mapping[str, int], done: dict[int, int]) -> int:
        """A node of another forest with the same relative order, once choices are made (option → index).

        `done`: what was regrown of the same source under the same choices.
        """
        if node not in done:
            done[node] = self._regrow(source, node, made, done)
        return done[node]

    def _regrow(self, source: Forest, node: int, made: Mapping[str, int], done: dict[int, int]) -> int:
        if node <= TRUE or node in source.terms:
            return self._leaf(source.terms[node]) if node in source.terms else node
        option, children = source.order[source.levels[node]], source.children[node]
        if option in made:
            return self.regrow(source, children[made[option]], made, done)
        level = self._index[option, self.choices[option][0]][0]
        return self.node(level, tuple(self.regrow(source, child, made, done) for child in children))

    def options_of(self, node: int) -> frozenset[str]:
        """The options that the node's function really depends on."""
        return frozenset(self.order[self.levels[n]] for n in self.under(node) if self.children[n])

    def under(self, node: int) -> list[int]:
        """The node and all below it, each once, parents before the children first reached through them."""
        seen = {node: None}
        for found in (queue := [node]):
            fresh = [child for child in dict.fromkeys(self.children[found]) if child not in seen]
            seen.update(dict.fromkeys(fresh))
            queue.extend(fresh)
        return queue

    def _add(self, level: int, children: tuple[int, ...]) -> int:
        self.levels.append(level)
        self.children.append(children)
        return len(self.levels) - 1

    def _is(self, option: str, choices: frozenset[str]) -> int:
        wanted = {self._index[option, choice] for choice in choices}
        level = self._index_of(option)
        return self.node(level, tuple(int((level, k) in wanted) for k in range(self.widths[level])))

    def _index_of(self, option: str) -> int:
        return self.order.index(option)

    def _table(self, options: tuple[str, ...], rows: frozenset[tuple[str, ...]]) -> int:
        columns = sorted(range(len(options)), key=lambda i: self._index_of(options[i]))
        numbered = [tuple(self._index[options[i], row[i]][1] for i in columns) for row in rows]
        return self._rows(numbered, tuple(self._index_of(options[i]) for i in columns), 0)

    def _rows(self, rows: list[tuple[int, ...]], levels: tuple[int, ...], column: int) -> int:
        if column == len(levels) or not rows:
            return TRUE if rows else FALSE
        split: list[list[tuple[int, ...]]] = [[] for _ in range(self.widths[levels[column]])]
        for row in rows:
            split[row[column]].append(row)
        return self.node(levels[column], tuple(self._rows(part, levels, column + 1) for part in split))

    def _fold(self, parts: tuple[int, ...], decisive: int) -> int:
        known = self._folded.get((decisive, parts))
        if known is None:
            level = min(self.levels[part] for part in parts)
            steps = range(self.widths[level])
            below = tuple(self.fold((self._step(part, level, k) for part in parts), decisive) for k in steps)
            known = self._folded[decisive, parts] = self.node(level, below)
        return known

    def _step(self, node: int, level: int, choice: int) -> int:
        return self.children[node][choice] if self.levels[node] == level else node

    def _price(self, line: str, when: int, adjustments: _Adjusting, done: dict[tuple[int, ...], int]) -> int:
        nodes = (when, *(node for _, node in adjustments))
        level = min(self.levels[node] for node in nodes)
        if when == FALSE or level == len(self.order):
            return FALSE if when == FALSE else self._leaf((line, tuple(a for a, node in adjustments if node == TRUE)))
        if nodes not in done:
            steps = [self._both(when, adjustments, level, k) for k in range(self.widths[level])]
            done[nodes] = self.node(level, tuple(self._price(line, *step, done) for step in steps))
        return done[nodes]

    def _both(self, when: int, adjustments: _Adjusting, level: int, choice: int) -> tuple[int, _Adjusting]:
        stepped = tuple((a, self._step(node, level, choice)) for a, node in adjustments)
        return self._step(when, level, choice), stepped

    def _leaf(self, term: Term) -> int:
        if term not in self._leaves:
            self._leaves[term] = self._add_leaf(term)
        return self._leaves[term]

    def _add_leaf(self, term: Term) -> int:
        node = self._add(len(self.order), ())
        self.terms[node] = term
        return node

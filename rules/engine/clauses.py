"""Small diagrams as clauses for a SAT solver: exactly one choice of each option, and a switch for each rule."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rules.engine.forest import FALSE, TRUE, Forest

#: Rules with more paths than this are written node by node.
PATHS = 64


class Clauses:
    """Small diagrams as clauses. Variables 1 … len(rules) are the rules' selectors, then a variable for each choice."""

    def __init__(self, forest: Forest, options: Sequence[str], rules: Sequence[str]) -> None:
        self.forest = forest
        self.selectors = {id_: i for i, id_ in enumerate(rules, 1)}
        self.last = len(rules)
        self.columns = {o: [self._fresh() for _ in range(forest.widths[forest.order.index(o)])] for o in options}
        self.nodes: dict[int, int] = {}

    def write(self, bans: Iterable[tuple[str, int]]) -> list[list[int]]:
        clauses = [clause for column in self.columns.values() for clause in _exactly_one(column)]
        for id_, node in bans:
            clauses += self._ban(self.selectors[id_], node)
        return clauses

    def _fresh(self) -> int:
        self.last += 1
        return self.last

    def _ban(self, selector: int, node: int) -> list[list[int]]:
        if self._paths(node) <= PATHS:
            return [[-selector, *outs] for outs in self._ways(node)]
        return [[-selector, self._reached(node)], *self._flow(node)]

    def _paths(self, node: int) -> int:
        ways = {FALSE: 0, TRUE: 1}
        for found in sorted(self.forest.under(node), key=self.forest.levels.__getitem__, reverse=True):
            if found not in ways:
                ways[found] = sum(ways[child] for child in dict.fromkeys(self.forest.children[found]))
        return ways[node]

    def _ways(self, node: int) -> list[list[int]]:
        """For each path to TRUE, the choices of which one must be taken to leave it."""
        if node <= TRUE:
            return [[]] if node == TRUE else []
        return [[*outs, *rest] for child, outs in self._branches(node) for rest in self._ways(child)]

    def _branches(self, node: int) -> list[tuple[int, list[int]]]:
        """Each child with the choices that lead elsewhere."""
        children = self.forest.children[node]
        column = self.columns[self.forest.order[self.forest.levels[node]]]
        return [
            (child, [x for x, to in zip(column, children, strict=True) if to != child])
            for child in dict.fromkeys(children)
        ]

    def _flow(self, node: int) -> list[list[int]]:
        """Who stands on a node goes on to the child that the choice leads to, and never to TRUE."""
        inner = [found for found in self.forest.under(node) if found > TRUE]
        steps = [(found, *branch) for found in inner for branch in self._branches(found) if branch[0] != FALSE]
        return [
            [-self._reached(n), *outs, *([] if child == TRUE else [self._reached(child)])] for n, child, outs in steps
        ]

    def _reached(self, node: int) -> int:
        if node not in self.nodes:
            self.nodes[node] = self._fresh()
        return self.nodes[node]


def _exactly_one(column: list[int]) -> list[list[int]]:
    pairs = [[-x, -y] for i, x in enumerate(column) for y in column[i + 1 :]]
    return [column, *pairs]
